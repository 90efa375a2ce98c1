// The checks of the plan, the worst first.
import type { Check } from "../engine/api";
import { settled } from "../state/rig";
import { quantityOf, text } from "../words/format";
import { Why } from "../words/why";
import { judged } from "./judged";
import { VerdictWord, verdicts } from "./verdict";
import "./checks.css";

/** Counts of what is not ok, for the summary. */
export function ChecksBrief() {
  const checks = judged.value?.document.plan.checks ?? [];
  const words = verdicts.flatMap((verdict) => {
    const count = checks.filter((check) => check.verdict === verdict).length;
    return count > 0 ? `${count} ${verdict}` : [];
  });
  return <>{words.join(", ")}</>;
}

/** Value and limit as people read them. */
function amounts(check: Check): string {
  const quantity = quantityOf(check.unit, check.value, check.limit);
  const shown = (value: number): string => (quantity === null ? `${value} ${check.unit}` : text(value, quantity));
  const value = check.value === null ? "not known" : shown(check.value);
  if (check.limit === null) return value;
  return `${value}, ${check.limit_is === "greatest" ? "at most" : "at least"} ${shown(check.limit)}`;
}

/** The page has no command line. */
const forPage = (words: string): string => words.replaceAll("`spanloom catch`", "\u201cLet it fall\u201d");

function Row({ check }: { check: Check }) {
  return (
    <li class="checks-row">
      <h3><VerdictWord verdict={check.verdict} /> <span>{check.title}</span></h3>
      <p class="checks-amounts">{amounts(check)}</p>
      <p>{forPage(check.words)}</p>
      {check.assumed.length > 0 && (
        <p class="checks-assumed">Rests on our assumption: {check.assumed.join("; ")}. State it in the rig file.</p>
      )}
    </li>
  );
}

export function Checks() {
  const checks = judged.value?.document.plan.checks ?? [];
  const rows = verdicts.flatMap((verdict) => checks.filter((check) => check.verdict === verdict));
  const lead = settled.value
    ? `${checks.length} checks of the rig as it stands, the worst first.`
    : "These are of the last finished plan.";
  const notes = judged.value?.document.plan.notes ?? [];
  return (
    <>
      <p class="lead">{lead} <Why of="verdict" /></p>
      <ul class="checks">{rows.map((check) => <Row key={check.name} check={check} />)}</ul>
      {notes.length > 0 && (
        <>
          <h3>Notes</h3>
          <ul class="notes">{notes.map((note) => <li key={note}>{forPage(note)}</li>)}</ul>
        </>
      )}
    </>
  );
}
