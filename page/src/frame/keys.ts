// Undo and redo from the keyboard, wherever nobody types.
import { redoStep, undoStep } from "./steps";

const typing = 'input:not([type="range"], [type="checkbox"], [type="radio"]), textarea, select, dialog';

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && (target.isContentEditable || target.closest(typing) !== null);
}

/** Ctrl+Z, Ctrl+Shift+Z and Ctrl+Y, with Cmd in place of Ctrl where that is usual. Called once. */
export function listenForUndoKeys(): void {
  window.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.defaultPrevented || isTyping(event.target)) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) undoStep();
    else if ((key === "z" && event.shiftKey) || key === "y") redoStep();
    else return;
    event.preventDefault();
  });
}
