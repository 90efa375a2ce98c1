// How the page begins: which rig it opens, what follows what, and what is said when the engine cannot run.
import { effect, signal } from "@preact/signals";
import type { RigFiles } from "../engine/api";
import { follow, open, shownFiles } from "../state/rig";
import { units } from "../state/units";
import { followWalker } from "../state/walker";
import { followReturns } from "../picture/follow_returns";
import { demos } from "./demos";
import { followJudged } from "./judged";
import { listenForGoingOn } from "./told";

/** Why the engine does not run, in words; empty while it does. */
export const engineTrouble = signal("");

/** True if it has the shape of RigFiles. */
function areRigFiles(value: unknown): value is RigFiles {
  if (typeof value !== "object" || value === null) return false;
  const { name, text, sides } = value as Partial<RigFiles>;
  return typeof name === "string" && typeof text === "string" && Array.isArray(sides);
}

/** The rig that was put into the page by whoever made it; the practice line if none was. */
function firstRig(): RigFiles {
  try {
    const given: unknown = JSON.parse(document.getElementById("rig")?.textContent ?? "null");
    if (areRigFiles(given)) return given;
  } catch {
    // whoever filled it in broke it; the practice line opens instead
  }
  return demos[0].files;
}

/** Faults of the engine arrive as promises that nobody waits for; what the browser itself gave up has a type of its own. */
function listenForTrouble(): void {
  window.addEventListener("unhandledrejection", (event) => {
    if (event.reason instanceof Error && !(event.reason instanceof DOMException)) engineTrouble.value = event.reason.message;
  });
}

/** Opens the first rig and keeps plan, walker and returns up with what is shown. Called once. */
export function start(): void {
  listenForTrouble();
  open(firstRig());
  if (typeof WebAssembly !== "object" || typeof Worker !== "function") {
    engineTrouble.value = "This browser has no WebAssembly or no workers.";
    return;
  }
  effect(() => {
    void shownFiles.value;
    void units.value;
    void follow();
  });
  followJudged();
  listenForGoingOn();
  followWalker();
  followReturns();
}
