// The last plan with its checks: while a hand drags, plans come without them.
import { effect, signal } from "@preact/signals";
import type { PlanView } from "../engine/api";
import { view } from "../state/rig";

/** Null before the first plan of the rig that is open. */
export const judged = signal<PlanView | null>(null);

/** Keeps it up with the plan. Called once. */
export function followJudged(): void {
  effect(() => {
    if (view.value === null || view.value.whole) judged.value = view.value;
  });
}
