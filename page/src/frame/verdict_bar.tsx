// What stays in sight wherever the page is scrolled to: how the rig is judged, whether falls were looked at, undo and redo.
import { redoLabel, undoLabel } from "../state/rig";
import { Earlier } from "./earlier";
import { allChecks, earlierWords, shownFallChecks } from "./judged";
import { SectionLink } from "./section";
import { redoStep, undoStep } from "./steps";
import { Told } from "./told";
import { countOf, isNotKnown, NotKnown, VerdictWord, worst } from "./verdict";
import "./verdict_bar.css";

/** The same words wherever falls were not looked at. */
export const fallsNotLookedAt = "falls not looked at";

/** Tells screen readers when another verdict comes. */
function SpokenVerdict() {
  const verdict = worst(allChecks.value);
  const falls = shownFallChecks.value === null ? `, ${fallsNotLookedAt}` : "";
  return <p role="status" class="visually-hidden">{verdict === null ? "" : `Worst verdict: ${verdict}${falls}`}</p>;
}

/** The worst verdict of all checks, those of falls among them; a link to the checks. */
function WorstVerdict() {
  const checks = allChecks.value;
  const verdict = worst(checks);
  if (verdict === null) return <span class="verdict-bar-judged verdict-bar-waits">not judged yet</span>;
  const unknown = checks.filter(isNotKnown).length;
  return (
    <SectionLink to="checks" class="verdict-bar-judged">
      <span class="visually-hidden">Worst verdict: </span>
      <VerdictWord verdict={verdict} count={countOf(checks, verdict)} />
      {unknown > 0 && <span class={earlierWords.value === "" ? "" : "verdict-bar-wide"}><NotKnown count={unknown} /></span>}
      <Earlier />
    </SectionLink>
  );
}

/** Whether the verdict has falls in it. */
function FallsLink() {
  if (worst(allChecks.value) === null) return null;
  return (
    <SectionLink to="fall" class="verdict-bar-falls">
      {shownFallChecks.value === null ? <strong>{fallsNotLookedAt}</strong> : "falls looked at"}
    </SectionLink>
  );
}

interface Step {
  word: string;
  label: string | null;
  keys: string;
  onClick: () => void;
}

function StepButton({ word, label, keys, onClick }: Step) {
  return (
    <button type="button" class="button verdict-bar-step" disabled={label === null} aria-keyshortcuts={keys} onClick={onClick}>
      {word}
      {label !== null && <span class="verdict-bar-what"> {label}</span>}
    </button>
  );
}

/** Stands once on the page, beside what scrolls under it. */
export function VerdictBar() {
  return (
    <div class="verdict-bar" role="region" aria-label="Verdict and steps">
      <WorstVerdict />
      <FallsLink />
      <SpokenVerdict />
      <Told />
      <div class="verdict-bar-steps">
        <StepButton word="Undo" label={undoLabel.value} keys="Control+Z" onClick={undoStep} />
        <StepButton word="Redo" label={redoLabel.value} keys="Control+Shift+Z" onClick={redoStep} />
      </div>
    </div>
  );
}
