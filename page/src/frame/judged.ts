// What is judged: the checks of the last whole plan, and those of falls. While a hand drags, plans come without checks.
import { computed, effect, signal } from "@preact/signals";
import type { Check, PlanView } from "../engine/api";
import { fallChecks } from "../motion/fall_verdicts";
import { draft, faults, settled, trouble, view } from "../state/rig";

/** Null before the first plan of the rig that is open. */
export const judged = signal<PlanView | null>(null);

/** Keeps it up with the plan. Called once. */
export function followJudged(): void {
  effect(() => {
    if (view.value === null || view.value.whole) judged.value = view.value;
  });
}

/** The checks of falls of what is shown; null: falls were not looked at. A draft is another line than the one that fell. */
export const shownFallChecks = computed(() => (draft.value === null ? fallChecks.value : null));

/** Every check there is, of the plan and of falls; empty before the first plan. */
export const allChecks = computed((): readonly Check[] =>
  judged.value === null ? [] : [...judged.value.document.plan.checks, ...(shownFallChecks.value ?? [])],
);

/** What verdict, checks and numbers are of, where that is not the text that is shown; empty where it is. */
export const earlierWords = computed(() => {
  if (settled.value || judged.value === null) return "";
  const isFaulty = draft.value === null && (faults.value.length > 0 || trouble.value !== "");
  return isFaulty ? "of the last good text" : "of the last finished plan";
});
