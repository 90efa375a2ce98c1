// The checks of the plan and of falls, the worst first.
import type { Check } from "../engine/api";
import { quantityOf, text } from "../words/format";
import { Why } from "../words/why";
import { Earlier } from "./earlier";
import { allChecks, earlierWords, judged, shownFallChecks } from "./judged";
import { SectionLink } from "./section";
import { countOf, isNotKnown, NotKnown, VerdictWord, verdicts } from "./verdict";
import { fallsNotLookedAt } from "./verdict_bar";
import "./checks.css";

/** Counts by verdict, for the summary. */
export function ChecksBrief() {
  const checks = allChecks.value;
  if (checks.length === 0) return null;
  const unknown = checks.filter(isNotKnown).length;
  const ofThem = unknown > 0 ? ` (${unknown} not known)` : "";
  const counts = verdicts.flatMap((verdict) => {
    const count = countOf(checks, verdict);
    return count > 0 ? `${count} ${verdict}${verdict === "caution" ? ofThem : ""}` : [];
  });
  return <>{[...counts, ...(shownFallChecks.value === null ? [fallsNotLookedAt] : [])].join(", ")}</>;
}

/** Value and limit as people read them. */
export function amounts(check: Check): string {
  const quantity = quantityOf(check.unit, check.value, check.limit);
  const shown = (value: number): string => (quantity === null ? `${value} ${check.unit}` : text(value, quantity));
  const value = check.value === null ? "not known" : shown(check.value);
  if (check.limit === null) return value;
  return `${value}, ${check.limit_is === "greatest" ? "at most" : "at least"} ${shown(check.limit)}`;
}

function Row({ check }: { check: Check }) {
  return (
    <li class="checks-row">
      <h3><VerdictWord verdict={check.verdict} /> {isNotKnown(check) && <NotKnown />} <span>{check.title}</span></h3>
      <p class="checks-amounts">{amounts(check)}</p>
      <p>{check.words}</p>
      {check.assumed.length > 0 && (
        <p class="checks-assumed">Rests on our assumption: {check.assumed.join("; ")}. State it in the rig file.</p>
      )}
    </li>
  );
}

/** Whether falls are among the checks; a way there where they are not. */
function OfFalls() {
  const falls = shownFallChecks.value;
  if (falls !== null) return <p>{falls.length} of them are of falls, from the last search of this rig.</p>;
  return (
    <p class="checks-falls">
      <NotKnown /> Falls and main failure were not looked at on this rig as it stands. <SectionLink to="fall">Let it fall</SectionLink>
    </p>
  );
}

export function Checks() {
  const checks = allChecks.value;
  if (checks.length === 0) return <p>There are no checks yet.</p>;
  const rows = verdicts.flatMap((verdict) => checks.filter((check) => check.verdict === verdict));
  const notes = judged.value?.document.plan.notes ?? [];
  return (
    <>
      <p class="lead">
        {checks.length} checks {earlierWords.value === "" ? "of the rig as it stands" : <Earlier />}, the worst first. <Why of="verdict" />
      </p>
      <OfFalls />
      <ul class="checks">{rows.map((check) => <Row key={check.name} check={check} />)}</ul>
      {notes.length > 0 && (
        <>
          <h3>Notes</h3>
          <ul class="notes">{notes.map((note) => <li key={note}>{note}</li>)}</ul>
        </>
      )}
    </>
  );
}
