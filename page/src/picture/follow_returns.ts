// When the line is shaken: once the rig has come to rest after a change, not while a hand drags.
import { computed, effect, signal } from "@preact/signals";
import type { RigFiles } from "../engine/api";
import { before, complete, forgetReturns, returns, shakeAll, shaking, stopReturns } from "../state/returns";
import { draft, files, opened, settled, undoLabel, view } from "../state/rig";
import { costOf, type Cost } from "./cost";

const restBefore = 400; // after the last change [ms]

/** The files that were shaken last, or are being. */
const shaken = signal<RigFiles | null>(null);
/** True where the numbers on screen are not those of the rig as it stands. */
export const returnsStale = computed(() => {
  const of = shaken.value;
  return draft.value !== null || of === null || !same(of, files.value);
});
/** True where a hand stopped the shakes before all were done. */
export const stoppedByHand = signal(false);

interface Costs {
  /** Of the rigs of `returns` and of `before`. */
  shaken: Cost | null;
  before: Cost | null;
  /** Of the rig as it was opened. */
  opened: Cost | null;
}
const noCosts: Costs = { shaken: null, before: null, opened: null };
const costs = signal(noCosts);
/** What the rig cost that the one on screen is compared with, or as opened; null: not known yet. */
export const earlierCost = computed(() => {
  const { shaken: last, before: then, opened: first } = costs.value;
  return (returnsStale.value && complete.value ? last : then) ?? first;
});

function same(a: RigFiles, b: RigFiles): boolean {
  return a.text === b.text && (a.sides === b.sides || JSON.stringify(a.sides) === JSON.stringify(b.sides));
}

function start(of: RigFiles): void {
  stoppedByHand.value = false;
  const again = shaken.value !== null && same(shaken.value, of);
  const kept = before.value;
  if (!again) {
    const cost = settled.peek() && view.peek() ? costOf(view.peek()!) : null;
    const costsNow = costs.peek();
    costs.value = { ...costsNow, shaken: cost, before: complete.peek() ? costsNow.shaken : costsNow.before };
  }
  shaken.value = of;
  void shakeAll(of);
  if (again) before.value = kept; // the same rig again is nothing to compare with
}

/** Ends the shakes that run. */
export function stopShaking(): void {
  stoppedByHand.value = true;
  stopReturns();
}

/** Shakes the rig as it stands from the start. */
export function shakeAgain(): void {
  start(files.value);
}

/** Keeps the returns up with the rig. Called once. */
export function followReturns(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    void opened.value;
    shaken.value = null;
    costs.value = noCosts;
    forgetReturns();
  });
  effect(() => {
    const now = view.value;
    if (now && settled.value && undoLabel.value === null && costs.peek().opened === null) costs.value = { ...costs.peek(), opened: costOf(now) };
  });
  effect(() => {
    const of = files.value;
    const ready = settled.value && draft.value === null && of.text !== "";
    clearTimeout(timer);
    const last = shaken.peek();
    const known = last !== null && same(last, of);
    // A hand that drags wants the processor, and makes another rig as a rule.
    if ((!known || draft.value !== null) && shaking.peek()) stopReturns();
    if (!ready || (known && (complete.peek() || shaking.peek() || stoppedByHand.peek()))) return;
    timer = setTimeout(() => start(of), restBefore);
  });
}

/** True while there is nothing to show of this rig at all. */
export const nothingShaken = computed(() => returns.value === null);
