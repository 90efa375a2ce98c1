// Taking tapes out, putting them in and moving them, with the words that say what it did.
import type { PlanView, TapeEdit } from "../engine/api";
import { draft, edit, endTry, tryEdit, view } from "../state/rig";
import { text } from "../words/format";
import { bayAt, betweenNeighbours, tapeAt, tapeNatural, toNatural, toStanding } from "./places";
import { bringIn, chosen, held, readOff, rememberTakingOut, said, sayOnce } from "./state";

const tapesOf = (plan: PlanView): number => plan.document.plan.bays.length - 1;
const dropOf = (plan: PlanView, bay: number): string => text(plan.document.plan.bays[bay - 1]?.drop_m ?? null, "small length");

async function change(what: TapeEdit, after: string, words: (now: PlanView) => string): Promise<boolean> {
  await drop(); // what is still in hand is a step of its own
  const trouble = await edit(what, after);
  if (trouble === "") sayOnce(words);
  else said.value = trouble;
  return trouble === "";
}

/** Takes a tape out; the backup stays as it was cut. */
export async function takeOut(tape: number): Promise<void> {
  const old = view.value;
  if (!old) return;
  const before = tapesOf(old);
  const done = await change({ kind: "take out", tape }, `taking out tape ${tape}`, (now) =>
    `Tape ${tape} taken out: ${before} tapes to ${tapesOf(now)}. The joined bay ${tape} now drops ${dropOf(now, tape)}.`);
  if (!done) return;
  chosen.value = { kind: "bay", bay: tape };
  rememberTakingOut();
}

/** @param natural_m along the unloaded main [m] */
export async function addTape(natural_m: number): Promise<void> {
  const bays = view.value?.document.plan.bays;
  if (!bays) return;
  const tape = bays.filter((bay) => bay.running_length_m < natural_m).length + 1;
  const done = await change({ kind: "add", at_natural_m: natural_m }, `adding tape ${tape}`, (now) => {
    const at = text(tapeNatural(now.document.plan.bays, tape), "length");
    return `Tape ${tape} added at ${at}: ${tapesOf(now)} tapes. The bays beside it drop ${dropOf(now, tape)} and ${dropOf(now, tape + 1)}.`;
  });
  if (done) choose(tape);
}

function movedWords(now: PlanView, tape: number): string {
  const at = text(tapeNatural(now.document.plan.bays, tape), "length");
  return `Tape ${tape} moved to ${at}. The bays beside it drop ${dropOf(now, tape)} and ${dropOf(now, tape + 1)}.`;
}

/** Takes a tape in hand for the bar under the picture. */
export function choose(tape: number): void {
  if (held.value && held.value.tape !== tape) void drop();
  chosen.value = { kind: "tape", tape };
  said.value = "";
  const at_m = tapeAt(view.value?.document.plan.bays ?? [], tape);
  if (at_m === undefined) return;
  readOff(at_m);
  bringIn(at_m);
}

/** Takes the bay over a place in hand. @param at_m on the gap axis [m] */
export function chooseBay(at_m: number): void {
  const bay = bayAt(view.value?.document.plan.bays ?? [], at_m);
  if (!bay) return;
  chosen.value = { kind: "bay", bay: bay.number };
  said.value = "";
  readOff(at_m);
}

// A tape in hand. The bays when it was taken tell which place of the main is under the hand: those on screen move with it.
let start: PlanView | null = null;
let turn = 0;
let wanted: TapeEdit | null = null;
let sending: Promise<void> | null = null;
let rest: ReturnType<typeof setTimeout> | undefined;
const restAfter = 700; // after the last key or press the move is taken [ms]

/** From here on the tape follows moveHeld(). */
export function hold(tape: number): void {
  const now = view.value;
  const at_m = tapeAt(now?.document.plan.bays ?? [], tape);
  if (!now || at_m === undefined) return;
  if (held.value) void drop();
  ++turn;
  start = now;
  said.value = "";
  chosen.value = { kind: "tape", tape };
  held.value = { tape, at_m, natural_m: tapeNatural(now.document.plan.bays, tape) };
}

/** @param at_m where the hand is on the gap axis [m] */
export function moveHeld(at_m: number): void {
  if (start) moveHeldNatural(toNatural(start.document.plan.bays, at_m));
}

/** Moves a tape by a step along the unloaded main [m]. Steps that follow each other soon are one step to undo. */
export function step(tape: number, step_m: number): void {
  if (held.value?.tape !== tape) hold(tape);
  if (held.value) moveHeldNatural(held.value.natural_m + step_m);
  clearTimeout(rest);
  rest = setTimeout(() => void drop(), restAfter);
}

function moveHeldNatural(natural_m: number): void {
  const tape = held.value?.tape;
  if (!start || tape === undefined) return;
  const { bays } = start.document.plan;
  const to_natural_m = betweenNeighbours(bays, tape, natural_m);
  const at_m = toStanding(bays, to_natural_m);
  held.value = { tape, at_m, natural_m: to_natural_m };
  readOff(at_m);
  wanted = { kind: "move", tape, to_natural_m };
  sending ??= send();
}

/** One edit at a time: what was asked in between is overtaken by the last. */
async function send(): Promise<void> {
  while (wanted) {
    const what = wanted;
    wanted = null;
    said.value = await tryEdit(what);
  }
  sending = null;
}

/** Takes what the hand did as a step. */
export async function drop(): Promise<void> {
  clearTimeout(rest);
  const tape = held.value?.tape;
  if (tape === undefined) return;
  const mine = turn;
  await sending;
  const moved = draft.value !== null;
  if (turn === mine) release();
  endTry(moved ? `moving tape ${tape}` : null);
  if (moved) sayOnce((now) => movedWords(now, tape));
}

/** Leaves all as it was before hold(). */
export function letGo(): void {
  clearTimeout(rest);
  const tape = held.value?.tape;
  wanted = null;
  release();
  endTry(null);
  const at_m = tape === undefined ? undefined : tapeAt(view.value?.document.plan.bays ?? [], tape);
  if (at_m !== undefined) readOff(at_m);
}

function release(): void {
  start = null;
  held.value = null;
}
