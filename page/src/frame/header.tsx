// What stays at hand: which rig, how it is judged, undo and redo, files, units.
import type { ComponentChildren } from "preact";
import type { Units } from "../engine/api";
import { draft, faults, redoLabel, settled, trouble, undoLabel, unsaved, view } from "../state/rig";
import { setUnits, units } from "../state/units";
import { judged } from "./judged";
import { question, saveAsked } from "./opening";
import { SectionLink } from "./section";
import { redoStep, undoStep } from "./steps";
import { VerdictWord, worst } from "./verdict";
import "./header.css";

/** Tells screen readers when another verdict comes. */
function SpokenVerdict() {
  const verdict = worst(judged.value?.document.plan.checks ?? []);
  return <p role="status" class="visually-hidden">{verdict === null ? "" : `Worst verdict: ${verdict}`}</p>;
}

/** The worst verdict of the plan that is shown; a link to the checks. */
function WorstVerdict() {
  const checks = judged.value?.document.plan.checks ?? [];
  const verdict = worst(checks);
  if (verdict === null) return <span class="header-verdict header-waits">not judged yet</span>;
  const isEarlier = !settled.value && draft.value === null && (faults.value.length > 0 || trouble.value !== "");
  const count = checks.filter((check) => check.verdict === verdict).length;
  return (
    <SectionLink to="checks" class="header-verdict">
      <span class="visually-hidden">Worst verdict: </span>
      <VerdictWord verdict={verdict} />
      {verdict !== "ok" && <span class="header-count">{count} of {checks.length}</span>}
      {isEarlier && <span class="header-count">of the last good text</span>}
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
    <button type="button" class="button header-step" disabled={label === null} aria-keyshortcuts={keys} onClick={onClick}>
      {word}
      {label !== null && <span class="header-what"> {label}</span>}
    </button>
  );
}

function UnitsChoice() {
  const choose = (event: Event): void => setUnits((event.currentTarget as HTMLSelectElement).value as Units);
  return (
    <label class="header-units">
      <span class="visually-hidden">Units</span>
      <select value={units.value} onChange={choose}>
        <option value="metric">metric</option>
        <option value="us">US</option>
      </select>
    </label>
  );
}

export function Header({ children }: { children?: ComponentChildren }) {
  const isChanged = unsaved.value.length > 0;
  return (
    <header class="header">
      <div class="header-name">
        <h1>{view.value?.document.title ?? "Spanloom"}</h1>
        <WorstVerdict />
        <SpokenVerdict />
      </div>
      <div class="header-actions" role="group" aria-label="Steps, files and units">
        <StepButton word="Undo" label={undoLabel.value} keys="Control+Z" onClick={undoStep} />
        <StepButton word="Redo" label={redoLabel.value} keys="Control+Shift+Z" onClick={redoStep} />
        <button type="button" class="button" aria-haspopup="dialog" onClick={() => (question.value = { kind: "open" })}>
          Open
        </button>
        <button type="button" class="button" onClick={saveAsked}>
          Save
          {isChanged && <span aria-hidden="true">*</span>}
          {isChanged && <span class="visually-hidden"> (changed)</span>}
        </button>
        <UnitsChoice />
      </div>
      {children}
    </header>
  );
}
