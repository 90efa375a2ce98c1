// Where the walker stands, and what the line is like under them.
import { computed, effect, signal } from "@preact/signals";
import type { WalkerView } from "../engine/api";
import { hand, shownFiles, view } from "./rig";

/** Share of the gap from the near anchor; null: nobody on the line. */
export const walkerShare = signal<number | null>(null);
export const walkerView = signal<WalkerView | null>(null);
/** On the gap axis [m]; null: nobody on the line. */
export const walkerAt = computed(() => {
  const gap = view.value?.picture.gap_m;
  return walkerShare.value === null || gap === undefined ? null : walkerShare.value * gap;
});

let running = false;
let again = false;

async function follow(): Promise<void> {
  if (running) {
    again = true;
    return;
  }
  running = true;
  do {
    again = false;
    const at_m = walkerAt.value;
    if (at_m === null) {
      walkerView.value = null;
      continue;
    }
    const answer = await hand.call("walker", { files: shownFiles.value, at_m });
    if (walkerAt.value !== null) walkerView.value = answer.ok ? answer.value : null;
  } while (again);
  running = false;
}

/** Keeps the walker up with the line. Called once. */
export function followWalker(): void {
  effect(() => {
    void walkerAt.value;
    void view.value;
    void follow();
  });
}
