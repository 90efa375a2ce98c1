// Undo and redo, said: on a narrow screen their buttons have no room for what they do.
import { redo, redoLabel, undo, undoLabel } from "../state/rig";
import { tell } from "./opening";

export function undoStep(): void {
  const label = undoLabel.value;
  undo();
  if (label !== null) tell(`Undone: ${label}.`);
}

export function redoStep(): void {
  const label = redoLabel.value;
  redo();
  if (label !== null) tell(`Done again: ${label}.`);
}
