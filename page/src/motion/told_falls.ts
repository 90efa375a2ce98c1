// The rows of the search, as the engine writes them: api.ts names what every fall has, here is what only some have.
import type { CatchDocument, CatchFall, Check } from "../engine/api";
import type { WantedFall } from "./fall_films";

export interface ToldFall extends Omit<CatchFall, "cut_m" | "tapes"> {
  /** Of a main failure. */
  cut_m?: number | null;
  cut_at?: string;
  tapes?: "hold" | "tear" | "rings" | null;
  /** Of a leash fall: "sideways", "backwards", "from sitting". */
  step_off?: string;
  /** What the leash ring does on the line. */
  ring?: "runs" | "caught";
}

/** By which measure: the number of the row that is worst. */
type Worst = Partial<Record<"body" | "fall" | "clearance" | "wall" | "near" | "far" | "backup", number>>;

const measures: Record<keyof Worst, string> = {
  body: "force on the body",
  fall: "fall",
  clearance: "clearance",
  wall: "distance to the wall",
  near: "near anchor",
  far: "far anchor",
  backup: "backup",
};

/** One kind of falls, the worst first. */
export interface ToldFalls {
  rows: ToldFall[];
  /** By row: the measures by which it is the worst. */
  worstBy: string[][];
}

type Written = CatchDocument["catch"] & { worst_main_failure?: Worst | null; worst_leash_fall?: Worst | null };

function told(rows: CatchFall[], worst: Worst | null | undefined): ToldFalls {
  const names = Object.entries(measures) as [keyof Worst, string][];
  return { rows: rows as ToldFall[], worstBy: rows.map((_, row) => names.filter(([key]) => worst?.[key] === row).map(([, words]) => words)) };
}

export interface Found {
  mainFailure: ToldFalls;
  leashFall: ToldFalls;
  /** Those that say stop first. */
  checks: Check[];
}

const order = { stop: 0, caution: 1, ok: 2 } as const;

export function foundIn(document: CatchDocument): Found {
  const found: Written = document.catch;
  return {
    mainFailure: told(found.main_failure, found.worst_main_failure),
    leashFall: told(found.leash_fall, found.worst_leash_fall),
    checks: [...found.checks].sort((a, b) => order[a.verdict] - order[b.verdict]),
  };
}

/** Whether the main fails in it. */
export const mainFails = (row: ToldFall): boolean => typeof row.cut_m === "number";

/** A row as a fall to play. @param seconds followed at most so long */
export function askedOfRow(row: ToldFall, seconds: number): WantedFall {
  return {
    kind: mainFails(row) ? "main failure" : "leash fall",
    walker_m: row.walker_m,
    cut_m: row.cut_m ?? 0,
    tapes: row.tapes === "tear" ? "tear" : "hold",
    step_off: row.step_off === "backwards" ? "backwards" : "sideways",
    seconds,
    beside: null,
  };
}

/** Whether what is played is another fall than that of the row: the ring always runs, and nobody sits. */
export const playsOther = (row: ToldFall): boolean => !mainFails(row) && (row.ring === "caught" || row.step_off === "from sitting");
