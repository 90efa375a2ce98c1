// What the hand holds and what the eye looks at in the picture. Places lie on the gap axis, standing.
import { computed, effect, signal } from "@preact/signals";
import type { PlanView } from "../engine/api";
import { draft, files, settled, view } from "../state/rig";

/** What the bar under the picture is about. Tapes and bays count from 1 at the near anchor. */
type Chosen = { kind: "tape"; tape: number } | { kind: "bay"; bay: number } | null;
export const chosen = signal<Chosen>(null);

/** A tape in the hand: where the hand is [m] and what that is along the unloaded main [m]. */
interface Held {
  tape: number;
  at_m: number;
  natural_m: number;
}
export const held = signal<Held | null>(null);

export const gap_m = computed(() => view.value?.picture.gap_m ?? 1);

/** Where the strips are read off, as a share of the gap. */
export const readShare = signal(0.5);
export const readAt_m = computed(() => readShare.value * gap_m.value);
/** @param at_m anywhere; outside of the gap the nearer anchor is meant [m] */
export function readOff(at_m: number): void {
  readShare.value = clamp(at_m / gap_m.value, 0, 1);
}

/** The stretch of the gap that is drawn, as shares of it. */
export const look = signal<{ from: number; to: number }>({ from: 0, to: 1 });
export const closer = computed(() => look.value.to - look.value.from < 1);
const leastLook_m = 3;

/** @param share width of the stretch over the gap, @param middle of it, as a share of the gap */
export function lookAt(share: number, middle: number): void {
  const wide = clamp(share, Math.min(1, leastLook_m / gap_m.value), 1);
  const from = clamp(middle - wide / 2, 0, 1 - wide);
  look.value = { from, to: from + wide };
}
/** Brings a place into the stretch that is drawn. */
export function bringIn(at_m: number): void {
  const share = at_m / gap_m.value;
  const { from, to } = look.value;
  if (share < from || share > to) lookAt(to - from, share);
}

/** Nothing in hand, the whole line in sight. */
export function lookAfresh(): void {
  chosen.value = null;
  held.value = null;
  said.value = "";
  readShare.value = 0.5;
  look.value = { from: 0, to: 1 };
}

export function clamp(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}

/** What the last change did or why it was refused, in words. */
export const said = signal("");
// What was said of other files is not true of these.
effect(() => {
  void files.value;
  said.value = "";
});

/** Says what the plan of the files as they stand says, once it is there. Nothing when they change before. */
export function sayOnce(make: (now: PlanView) => string): void {
  const of = files.value;
  let done = false;
  const stop = effect(() => {
    const now = view.value;
    const other = files.value !== of;
    if (done || (!other && (!now || !settled.value || draft.value !== null))) return;
    done = true;
    if (!other && now) said.value = make(now);
    queueMicrotask(() => stop());
  });
}

const hintKey = "spanloom.took-a-tape-out";
function remembered(): boolean {
  try {
    return localStorage.getItem(hintKey) === "yes";
  } catch {
    return false; // a browser may forbid it
  }
}
/** True once a tape was taken out here: then nobody needs to be told how. */
export const tookOne = signal(remembered());
export function rememberTakingOut(): void {
  tookOne.value = true;
  try {
    localStorage.setItem(hintKey, "yes");
  } catch {
    // then it is told again next time
  }
}
