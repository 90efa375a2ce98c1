// Undo and redo, said: on a narrow screen their buttons have no room for what they do.
import { signal } from "@preact/signals";
import { redo, redoLabel, undo, undoLabel } from "../state/rig";
import { tell } from "./opening";

/** Counts the steps taken back or again: what somebody was about to enter is then of another text. */
export const walked = signal(0);

function walk(step: () => void, label: string | null, done: string): void {
  if (label === null) return;
  step();
  ++walked.value;
  tell(`${done}: ${label}.`);
}

export const undoStep = (): void => walk(undo, undoLabel.value, "Undone");
export const redoStep = (): void => walk(redo, redoLabel.value, "Done again");
