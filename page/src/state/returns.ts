// The return of shakes, computed beside everything else: full-size sideways shakes as the command makes them, of the rig
// and of the same line evenly taped. Whenever the rig changes, what was is kept to compare with.
import { batch, computed, signal } from "@preact/signals";
import type { AskedShake, Line, RigFiles } from "../engine/api";
import { Engine } from "../engine/client";

/** Third-octaves [Hz], as the command shakes. */
export const thirdOctaves = [0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4] as const;
/** Shares of the gap that the command shakes at: their mean is what it tells. */
export const toldPlaces = [0.15, 0.35, 0.5] as const;
/** Shares of the gap that the strip shows. */
const stripPlaces = [0.15, 0.35, 0.5, 0.65, 0.85] as const;

export interface PlaceReturn {
  place: number;
  /** Mean over the frequencies that are done; null before the first. */
  mean: number | null;
  done: number;
  /** Of those done, the ones with a number: the others are left out of the mean. */
  counted: number;
  all: number;
}

export interface LineReturns {
  line: Line;
  places: PlaceReturn[];
  /** Mean over frequencies and the told places; null until all of them are done. */
  mean: number | null;
}

export interface Returns {
  rig: LineReturns;
  even: LineReturns;
}

/** Of the rig as it stands. */
export const returns = signal<Returns | null>(null);
/** Of the rig before the last change that was shaken to the end. */
export const before = signal<Returns | null>(null);
/** Shakes done and in all; null when nothing runs. */
export const shaking = signal<{ done: number; all: number } | null>(null);
/** Why there is none, in words. */
export const returnsTrouble = signal("");
export const complete = computed(() => returns.value !== null && returns.value.rig.mean !== null);

const engines = Array.from({ length: Math.max(1, Math.min(3, (navigator.hardwareConcurrency || 2) - 1)) }, () => new Engine());
let round = 0;

/** Nothing is known of another rig. */
export function forgetReturns(): void {
  stopReturns();
  batch(() => {
    returns.value = null;
    before.value = null;
    returnsTrouble.value = "";
  });
}

/** Drops what runs. */
export function stopReturns(): void {
  ++round;
  for (const engine of engines) if (engine.busy) engine.stop();
  shaking.value = null;
}

/** The told places of the rig first, then the even line, then the other places. */
function order(): AskedShake[] {
  const all = (line: Line, places: readonly number[]): AskedShake[] =>
    places.flatMap((place) => [...thirdOctaves].reverse().map((frequency_Hz): AskedShake => ({ line, frequency_Hz, place, direction: "sideways" })));
  const others = stripPlaces.filter((place) => !(toldPlaces as readonly number[]).includes(place));
  return [...all("rig", toldPlaces), ...all("even", toldPlaces), ...all("rig", others), ...all("even", others)];
}

function summed(line: Line, values: ReadonlyMap<string, number>): LineReturns {
  const places = stripPlaces.map((place): PlaceReturn => {
    const each = thirdOctaves.flatMap((f) => values.get(`${line} ${place} ${f}`) ?? []).filter((value) => Number.isFinite(value));
    const tried = thirdOctaves.filter((f) => values.has(`${line} ${place} ${f}`)).length;
    const mean = each.length > 0 ? each.reduce((a, b) => a + b, 0) / each.length : null;
    return { place, mean, done: tried, counted: each.length, all: thirdOctaves.length };
  });
  const told = toldPlaces.flatMap((place) => thirdOctaves.map((f) => values.get(`${line} ${place} ${f}`)));
  const finite = told.filter((value): value is number => value !== undefined && Number.isFinite(value));
  const mean = told.every((value) => value !== undefined) && finite.length > 0 ? finite.reduce((a, b) => a + b, 0) / finite.length : null;
  return { line, places, mean };
}

/** Shakes the rig of these files from the start. What was complete becomes `before`. */
export async function shakeAll(files: RigFiles): Promise<void> {
  stopReturns();
  const mine = ++round;
  const asked = order();
  const values = new Map<string, number>();
  batch(() => {
    if (complete.value) before.value = returns.value;
    returns.value = { rig: summed("rig", values), even: summed("even", values) };
    returnsTrouble.value = "";
    shaking.value = { done: 0, all: asked.length };
  });
  let next = 0;
  const work = async (engine: Engine): Promise<void> => {
    while (next < asked.length && mine === round) {
      const shake = asked[next++];
      if (!shake) return;
      const answer = await engine.call("shake", { files, shake });
      if (mine !== round) return;
      // A shake without a closed ledger has no number: it is left out of the means.
      values.set(`${shake.line} ${shake.place} ${shake.frequency_Hz}`, answer.ok ? answer.value.return_ : NaN);
      batch(() => {
        if (!answer.ok && returnsTrouble.value === "") returnsTrouble.value = answer.words;
        returns.value = { rig: summed("rig", values), even: summed("even", values) };
        shaking.value = { done: values.size, all: asked.length };
      });
    }
  };
  try {
    await Promise.all(engines.map(work));
    if (mine === round) shaking.value = null;
  } catch (fault) {
    if (mine === round) stopReturns();
    throw fault;
  }
}
