// What a fall says, in sentences.
import type { AskedFall, CatchFall, FallFilm, FallNumbers } from "../engine/api";
import { text } from "../words/format";
import type { FallFilmed } from "./fall_films";
import { tapesWords } from "./fall_tapes";
import type { Moment } from "./stills";
import { breaks, mainFails } from "./told_falls";

/** Where the limit on the force on a body comes from. */
export function limitSource(film: Pick<FallFilm, "body_limit_assumed">): string {
  return film.body_limit_assumed ? "our default: EN 363/EN 355 for work at height, from memory" : "the limit of the rig file";
}

/** What happened, where. */
export function happenedWords({ of, asked, film: { numbers } }: FallFilmed): string {
  const at = `${text(numbers.walker_m, "length")} from the near anchor`;
  if (asked.kind === "leash fall") return `The walker, ${at}, steps off ${asked.step_off} into the leash.`;
  const tapes = numbers.tapes === "rings" ? "The backup runs through rings." : tapesWords(of, asked.tapes);
  return `The walker stands ${at}; the main fails ${text(numbers.cut_m, "length")} from the near anchor. ${tapes}`;
}

export const lostWords = "Nothing holds the walker: the leash ring leaves the line.";

/** Whether the feet meet the ground. */
export function hits({ film: { numbers }, nearest }: Pick<FallFilmed, "film" | "nearest">): boolean {
  return !numbers.lost && (nearest?.meets === true || (numbers.clearance_m !== null && numbers.clearance_m < 0));
}

/** Whether the walker is held by something that does not break, and hits nothing: then the numbers mean what they say. */
export const holds = (filmed: FallFilmed): boolean => !filmed.film.numbers.lost && !hits(filmed) && !filmed.film.checks.some(breaks);

/** When the feet meet the ground, and what that makes of the rest. */
export function hitWords({ nearest }: FallFilmed): string {
  const when = nearest?.meets ? `The feet meet the ground ${text(nearest.time_s, "time")} after the fall begins, ${text(nearest.at_m, "length")} from the near anchor. ` : "";
  return `${when}What is computed after that means nothing: it goes on as if there were no ground.`;
}

/** How it goes for a walker for whom the line holds(). Being under the limit is said only where no check says stop. */
export function fallWords({ numbers, checks, ...film }: FallFilm): string {
  const { body_limit_N } = film;
  const force = `The leash puts at most ${text(numbers.body_N, "force")} on the body`;
  const falls = `The walker falls ${text(numbers.fall_m, "length")}; the feet are lowest after ${text(numbers.lowest_time_s, "time")}.`;
  const limit = `the limit of ${text(body_limit_N, "force")} (${limitSource(film)})`;
  if (numbers.body_N !== null && numbers.body_N > body_limit_N) return `${falls} ${force}, over ${limit}.`;
  const stops = checks.some(({ verdict }) => verdict === "stop");
  return stops ? `${falls} ${force}.` : `${falls} ${force}, under ${limit}.`;
}

/** What carries it, and what is torn. */
export function holdWords(asked: AskedFall, numbers: FallNumbers): string {
  const fails = asked.kind === "main failure";
  const strand = `At most ${text(fails ? numbers.backup_N : numbers.main_N, "force")} in the ${fails ? "backup" : "main"}`;
  const anchors = `${text(numbers.near_N, "force")} on the near anchor and ${text(numbers.far_N, "force")} on the far one`;
  const torn = numbers.torn === 0 ? "" : ` Tapes that tore: ${numbers.torn}.`;
  return `${strand}, ${anchors}.${torn}`;
}

/** Whether there is room below. Of a walker for whom the line holds(). */
export function roomWords(numbers: FallNumbers): string {
  const below = `At the lowest the feet are ${text(numbers.clear_height_m, "length")} below the standing main.`;
  if (numbers.in_anchor_zone) return `${below} The walker started in an anchor zone: the rim is near, and the room below is not told.`;
  if (numbers.clearance_m === null) return `${below} No ground is given, so the room below is not known.`;
  return `${below} ${text(numbers.clearance_m, "length")} are left to the ground.`;
}

/** How long it was followed, and why no longer. */
export function followedWords({ film, player }: FallFilmed): string {
  const time = text(player.length_s, "time");
  if (film.numbers.lost) return `It was followed until the ring left the main, ${time} after it began.`;
  if (film.numbers.cut_short) return `The fall was followed for ${time}, and something was still going on: what comes after is not known.`;
  return `The fall was followed for ${time}, until nothing new came.`;
}

/** What was not computed. */
export const notComputedWords =
  "Not computed: the body hitting the line, rock or ground, how the body turns (it is drawn upright), and flutter and twist of the webbing.";

/** Label and value of each number. Those that mean nothing when nobody is held are left out then. */
export function fallRows(numbers: FallNumbers): { what: string; value: string }[] {
  const held = [
    { what: "Fall of the hip", value: text(numbers.fall_m, "length") },
    { what: "Greatest force on the body", value: text(numbers.body_N, "force") },
    { what: "When the feet are lowest", value: text(numbers.lowest_time_s, "time") },
    { what: "Lowest feet, from the near anchor", value: text(numbers.lowest_at_m, "length") },
    { what: "Lowest feet below the standing main", value: text(numbers.clear_height_m, "length") },
    { what: "Clearance: lowest feet over the ground", value: numbers.clearance_m === null ? "not known" : text(numbers.clearance_m, "length") },
  ];
  const line = [
    { what: "Greatest tension of the backup", value: text(numbers.backup_N, "force") },
    { what: "Greatest tension of the main", value: text(numbers.main_N, "force") },
    { what: "Greatest load of the near anchor", value: text(numbers.near_N, "force") },
    { what: "Greatest load of the far anchor", value: text(numbers.far_N, "force") },
    { what: "Tapes that tore", value: String(numbers.torn) },
    { what: "Books of the energy close to", value: text(Math.abs(numbers.drift), "share") },
  ];
  return numbers.lost ? line : [...held, ...line];
}

/** The greatest of a column by its number. */
function greatestAt(values: Float32Array): number {
  let greatest = 0;
  values.forEach((value, index) => {
    if (value > values[greatest]!) greatest = index;
  });
  return greatest;
}

/** Up to four moments that tell what the film tells, in order of time; none after the feet hit the ground. */
export function fallMoments({ film, nearest }: FallFilmed): Moment[] {
  const { numbers, frames, frame_s, leash_N } = film;
  const end_s = (frames - 1) * frame_s;
  const hardest_s = greatestAt(leash_N) * frame_s;
  const meets_s = nearest?.meets ? nearest.time_s : Infinity;
  const last: Moment = numbers.lowest_time_s === null
    ? { time_s: end_s, words: "the film ends" }
    : { time_s: Math.min(end_s, numbers.lowest_time_s), words: "the feet are lowest" };
  const all: Moment[] = [
    { time_s: 0, words: "it begins" },
    { time_s: Math.min(hardest_s, last.time_s, meets_s) / 2, words: "on the way down" },
    { time_s: hardest_s, words: "greatest force in the leash" },
    meets_s < Infinity ? { time_s: meets_s, words: "the feet hit the ground" } : last,
  ];
  const sorted = all.filter(({ time_s }) => time_s <= meets_s).sort((a, b) => a.time_s - b.time_s);
  return sorted.filter(({ time_s }, index) => index === 0 || time_s > sorted[index - 1]!.time_s);
}

/** How it came to a fall of the search, in a few words. */
function howWords(row: CatchFall): string {
  if (mainFails(row)) return row.tapes === "rings" ? "backup in rings" : `tapes ${row.tapes}`;
  return `${row.step_off}${row.ring === "caught" ? ", ring caught" : ""}`;
}

/** One row of the search in a table: places from the near anchor. */
export function shortWords(row: CatchFall): string {
  const fails = mainFails(row) ? `, main fails at ${text(row.cut_m, "length")}` : "";
  return `Walker at ${text(row.walker_m, "length")}${fails}, ${howWords(row)}`;
}

/** One row of the search by itself. */
export function rowWords(row: CatchFall): string {
  return `${mainFails(row) ? "main failure" : "leash fall"}. ${shortWords(row)}`;
}
