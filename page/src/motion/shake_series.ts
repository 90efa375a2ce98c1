// What the charts of a shake show and its table tells: all of it from the film, nothing computed twice.
import type { ShakeFilm } from "../engine/api";
import type { Moment } from "./stills";

/** Root mean square of values from one moment to another. @returns NaN where there are none */
function rootMeanSquare(values: ArrayLike<number>, frame_s: number, from_s: number, to_s: number): number {
  const from = Math.max(0, Math.ceil(from_s / frame_s));
  const to = Math.min(values.length - 1, Math.floor(to_s / frame_s));
  let sum = 0;
  for (let frame = from; frame <= to; ++frame) sum += values[frame]! ** 2;
  return to >= from ? Math.sqrt(sum / (to - from + 1)) : NaN;
}

/** The main's swing by frame as share of its mean while it is shaken. @param period_s how long the shake lasts [s] */
export function swingShares(film: ShakeFilm, period_s: number): number[] {
  const shaken_m = rootMeanSquare(film.swing_m, film.frame_s, 0, period_s);
  return Array.from(film.swing_m, (swing_m) => (shaken_m > 0 ? swing_m / shaken_m : 0));
}

/** Mean swing over a while, as share of that in the shake; NaN where the film has ended by then. */
export function meanShare(film: ShakeFilm, period_s: number, from_s: number, to_s: number): number {
  return rootMeanSquare(swingShares(film, period_s), film.frame_s, from_s, to_s);
}

/** When the shaken main swings widest while it is shaken [s]. */
function widestInShake(film: ShakeFilm, period_s: number): number {
  let widest = 0;
  for (let frame = 0; frame < film.frames && frame * film.frame_s <= period_s; ++frame) {
    if (film.swing_m[frame]! > film.swing_m[widest]!) widest = frame;
  }
  return widest * film.frame_s;
}

/** Four moments that tell what the film tells. Those after its end are left out. */
export function moments(film: ShakeFilm, period_s: number): Moment[] {
  const { round_trip_s, late_from_s, late_window_s } = film.numbers;
  const end_s = (film.frames - 1) * film.frame_s;
  return [
    { time_s: widestInShake(film, period_s), words: "in the shake" },
    { time_s: period_s + round_trip_s, words: "one round trip after it" },
    { time_s: late_from_s, words: "two round trips after it: what came back is measured from here" },
    { time_s: late_from_s + late_window_s, words: "to here" },
  ].filter(({ time_s }) => time_s <= end_s);
}
