// The rows of the search as they are listed: what hits or is held by nothing first, then as the engine has them.
import type { CatchDocument, CatchFall, CatchMainFailure, Check, WorstRows } from "../engine/api";
import { verdicts } from "../frame/verdict";
import type { WantedFall } from "./fall_films";

const measures: Record<keyof WorstRows, string> = {
  body: "force on the body",
  fall: "fall",
  clearance: "clearance",
  wall: "distance to the wall",
  near: "near anchor",
  far: "far anchor",
  backup: "backup",
};

/** How a fall ends. */
export type Ending = "lost" | "hits the ground" | "hits ground or wall" | "held";

/** A row, and the measures by which it is the worst. */
export interface ToldRow {
  fall: CatchFall;
  ending: Ending;
  worstBy: string[];
}

function endingOf({ lost, clearance_m, wall_m }: CatchFall): Ending {
  if (lost) return "lost";
  if (clearance_m !== null && clearance_m < 0) return "hits the ground";
  return wall_m !== null && wall_m <= 0 ? "hits ground or wall" : "held";
}

const worstFirst: readonly Ending[] = ["lost", "hits the ground", "hits ground or wall", "held"];

function told(falls: readonly CatchFall[], worst: WorstRows | null): ToldRow[] {
  const names = Object.entries(measures) as [keyof WorstRows, string][];
  const rows = falls.map((fall, row): ToldRow => ({
    fall,
    ending: endingOf(fall),
    worstBy: names.filter(([key]) => worst?.[key] === row).map(([, words]) => words),
  }));
  return worstFirst.flatMap((ending) => rows.filter((row) => row.ending === ending));
}

interface Found {
  mainFailure: ToldRow[];
  leashFall: ToldRow[];
}

export function foundIn({ catch: found }: CatchDocument): Found {
  return {
    mainFailure: told(found.main_failure, found.worst_main_failure),
    leashFall: told(found.leash_fall, found.worst_leash_fall),
  };
}

/** Whether something pulls harder than its strength: a ratio of strength over force below 1. */
export const breaks = ({ value, unit, limit_is }: Check): boolean => value !== null && unit === "-" && limit_is === "least" && value < 1;

/** What breaks first, then what else says stop, then the rest. */
export function worstChecksFirst(checks: readonly Check[]): Check[] {
  const sorted = verdicts.flatMap((verdict) => checks.filter((check) => check.verdict === verdict));
  return [...sorted.filter(breaks), ...sorted.filter((check) => !breaks(check))];
}

/** Whether the main fails in it. */
export const mainFails = (fall: CatchFall): fall is CatchMainFailure => "cut_m" in fall;

/** A row as a fall to play. @param seconds followed at most so long */
export function askedOfRow(fall: CatchFall, seconds: number): WantedFall {
  const { walker_m } = fall;
  const common = { walker_m, seconds, beside: null };
  if (mainFails(fall)) {
    const tapes = fall.tapes === "tear" ? "tear" : "hold";
    return { kind: "main failure", cut_m: fall.cut_m ?? 0, tapes, step_off: "sideways", ...common };
  }
  const step_off = fall.step_off === "backwards" ? "backwards" : "sideways";
  return { kind: "leash fall", cut_m: 0, tapes: "hold", step_off, ...common };
}

/** Whether what is played is another fall than that of the row: the ring always runs, and nobody sits. */
export const playsOther = (fall: CatchFall): boolean => !mainFails(fall) && (fall.ring === "caught" || fall.step_off === "from sitting");
