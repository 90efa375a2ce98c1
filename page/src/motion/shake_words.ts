// What a shake says, in sentences.
import type { ShakeFilm } from "../engine/api";
import { text } from "../words/format";
import { meanShare } from "./shake_series";
import type { ShakeFilms } from "./shake_films";

/** Single shakes differ by so much from one that is a hair different (docs/motion.md). */
const noDifference = 0.03;

const percent = (share: number): string => text(share, "return");

/** "12 % came back; evenly taped 18 %." */
export function returnWords({ rig, even }: ShakeFilms): string {
  const mine = `${percent(rig.numbers.return_)} of the swing came back`;
  return even ? `${mine}; evenly taped ${percent(even.numbers.return_)}.` : `${mine}.`;
}

const sameTapes = (one: ShakeFilm, other: ShakeFilm): boolean => one.tapes.join() === other.tapes.join();

/** Which one is calmer, and that one shake is one draw. */
export function comparedWords({ rig, even }: ShakeFilms): string {
  if (!even) return "";
  const less = even.numbers.return_ - rig.numbers.return_;
  if (less === 0 && sameTapes(rig, even)) return "This layout is evenly taped already: both films are of the same line.";
  const caution = "It is one shake; the mean over all of them says more.";
  if (Math.abs(less) < noDifference) return `That is no difference that one could be sure of. ${caution}`;
  return less > 0 ? `In this shake this layout is the calmer one. ${caution}` : `In this shake the even line is the calmer one. ${caution}`;
}

/** What was shaken, where and how. */
export function shakenWords({ shake, rig, period_s }: ShakeFilms): string {
  const way = shake.direction === "sideways" ? "sideways" : "up and down";
  return (
    `Shaken once ${way} with nobody on it, ${text(rig.numbers.place_m, "length")} from the near anchor, for ${text(period_s, "time")} ` +
    `(${text(shake.frequency_Hz, "frequency")}), so that the place first swings ${text(rig.numbers.swing_m, "small length")}.`
  );
}

/** Which loops went over the main. */
export function overWords(name: string, film: ShakeFilm): string {
  const { over } = film.numbers;
  if (over.length === 0) return `${name}: no loop goes over the main.`;
  if (over.length === 1) return `${name}: the loop of bay ${over[0]} goes over the main.`;
  return `${name}: the loops of bays ${over.slice(0, -1).join(", ")} and ${over[over.length - 1]} go over the main.`;
}

/** How much larger what lies across is drawn. */
export function enlargedWords(times: number): string {
  if (times === 1) return "Drawn in true proportions.";
  return `What lies across the line is drawn ${times} times larger than what lies along it, alike for both lines.`;
}

interface KeyRow {
  what: string;
  rig: string;
  even: string;
}

/** The charts' key values. */
export function keyRows({ rig, even, period_s }: ShakeFilms): KeyRow[] {
  const row = (what: string, value: (film: ShakeFilm) => string): KeyRow => ({ what, rig: value(rig), even: even ? value(even) : "-" });
  const shareAt = (film: ShakeFilm, from_s: number): string => {
    const share = meanShare(film, period_s, from_s, from_s + period_s);
    return Number.isFinite(share) ? percent(share) : "film has ended";
  };
  return [
    row("First swing of the shaken place", ({ numbers }) => text(numbers.swing_m, "small length")),
    row("Greatest push", ({ numbers }) => text(numbers.force_N, "force")),
    row("Round trip of a wave", ({ numbers }) => text(numbers.round_trip_s, "time")),
    row("Swing after the shake, mean over one period", (film) => shareAt(film, period_s)),
    row("Swing one round trip later", (film) => shareAt(film, period_s + film.numbers.round_trip_s)),
    row("Came back: return", ({ numbers }) => percent(numbers.return_)),
    row("The same, measured in this film", (film) => {
      const { late_from_s, late_window_s } = film.numbers;
      const share = meanShare(film, period_s, late_from_s, late_from_s + late_window_s);
      return Number.isFinite(share) ? percent(share) : "film has ended";
    }),
    row("Energy share, as told in the report", ({ numbers }) => percent(numbers.energy_share)),
    row("Books of the energy close to", ({ numbers }) => text(Math.abs(numbers.drift), "share")),
  ];
}
