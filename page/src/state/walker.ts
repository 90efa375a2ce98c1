// Where the walker stands, and what the line is like under them.
import { batch, computed, effect, signal } from "@preact/signals";
import type { WalkerView } from "../engine/api";
import { latest } from "./latest";
import { hand, opened, shownFiles, view } from "./rig";

/** Share of the gap from the near anchor; null: nobody on the line. */
export const walkerShare = signal<number | null>(null);
/** The last answer: its place says where it is of. Null: none of the line as it is. */
export const walkerView = signal<WalkerView | null>(null);
/** Why there is none, in words. */
export const walkerTrouble = signal("");
/** On the gap axis [m]; null: nobody on the line. */
export const walkerAt = computed(() => {
  const gap = view.value?.picture.gap_m;
  return walkerShare.value === null || gap === undefined ? null : walkerShare.value * gap;
});

function tell(found: WalkerView | null, trouble: string): void {
  batch(() => {
    walkerView.value = found;
    walkerTrouble.value = trouble;
  });
}

const follow = latest(async () => {
  const at_m = walkerAt.value;
  if (at_m === null) return tell(null, "");
  const rig = opened.value;
  const answer = await hand.call("walker", { files: shownFiles.value, at_m });
  if (rig !== opened.value || walkerAt.value === null) return tell(null, "");
  tell(answer.ok ? answer.value : null, answer.ok ? "" : answer.words);
});

/** Keeps the walker up with the line. Called once. */
export function followWalker(): void {
  effect(() => {
    void walkerAt.value;
    void shownFiles.value;
    void follow();
  });
}
