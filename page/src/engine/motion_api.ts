// What the engine answers of shakes and falls. As api.ts.
import type { Check } from "./api";

export type Line = "rig" | "even" | "bare";
export type Direction = "sideways" | "up";

export interface AskedShake {
  line: Line;
  frequency_Hz: number;
  /** Share of the gap from the near anchor. */
  place: number;
  direction: Direction;
}

/** One shake as the command computes it. */
export interface ShakeNumbers {
  return_: number;
  energy_share: number;
  place_m: number;
  force_N: number;
  swing_m: number;
  round_trip_s: number;
  /** When what comes back is measured: from here, for so long. */
  late_from_s: number;
  late_window_s: number;
  drift: number;
  /** Bays, counted from 1, whose loops went over the main. */
  over: number[];
}

/** Frames at equal times; places are x, y, z one after the other, node after node, frame after frame [m]. */
export interface Film {
  frame_s: number;
  frames: number;
  main_nodes: number;
  backup_nodes: number;
  main: Float32Array;
  backup: Float32Array;
}

/** A line that was shaken, in motion. */
export interface ShakeFilm extends Film {
  numbers: ShakeNumbers;
  /** Numbers of the main nodes at the tapes, anchors included. */
  tapes: number[];
  /** By frame: root mean square displacement of the main over its length, in the direction of the shake [m]. */
  swing_m: Float32Array;
  /** By frame: displacement of the shaken place [m]. */
  at_place_m: Float32Array;
  /** By frame: kinetic energy of the main in the direction of the shake over the energy put in. */
  energy: Float32Array;
}

export interface AskedFall {
  kind: "main failure" | "leash fall";
  /** Where the walker is. */
  walker_m: number;
  /** Where the main fails; not used in a leash fall. */
  cut_m: number;
  tapes: "hold" | "tear";
  step_off: "sideways" | "backwards";
  seconds: number;
}

export interface FallNumbers {
  walker_m: number;
  cut_m: number | null;
  /** Nothing holds the walker: then what is null means nothing. */
  lost: boolean;
  fall_m: number | null;
  body_N: number | null;
  backup_N: number;
  main_N: number;
  near_N: number;
  far_N: number;
  clearance_m: number | null;
  clear_height_m: number | null;
  lowest_at_m: number | null;
  lowest_time_s: number | null;
  torn: number;
  /** What was computed: "rings" where the backup runs through rings, which do not tear; null in a leash fall. */
  tapes: "hold" | "tear" | "rings" | null;
  /** It was followed as long as was asked, and something was still going on. */
  cut_short: boolean;
  in_anchor_zone: boolean;
  drift: number;
}

export interface FallFilm extends Film {
  numbers: FallNumbers;
  /** The checks of falls, of this one fall alone: strength left in backup, main, leash and anchors, body, room below, walls. */
  checks: Check[];
  /** Main nodes 0..cut_after hang together; the last: not cut. By frame. */
  cut_after: number[];
  /** By frame: hip x, y, z then ring x, y, z [m]. */
  body: Float32Array;
  /** By frame: force of the leash [N]. */
  leash_N: Float32Array;
  /** Most that a catch may put on the body, as the rig file says or our default. */
  body_limit_N: number;
  body_limit_assumed: boolean;
  leash_m: number;
  foot_to_hip_m: number;
}

/** What `spanloom catch --json` writes of every fall, of which these keys are used here. */
interface AnyCatchFall {
  walker_m: number;
  /** The rim is near there: no clearance is told. */
  in_anchor_zone: boolean;
  /** What the leash ring does on the line. */
  ring: "runs" | "caught";
  lost: boolean;
  fall_m: number | null;
  body_N: number | null;
  near_N: number;
  far_N: number;
  clearance_m: number | null;
  /** Hip to ground or wall beside it. */
  wall_m: number | null;
}

export interface CatchMainFailure extends AnyCatchFall {
  cut_m: number | null;
  tapes: "hold" | "tear" | "rings";
}

export interface CatchLeashFall extends AnyCatchFall {
  step_off: "sideways" | "backwards" | "from sitting";
}

export type CatchFall = CatchMainFailure | CatchLeashFall;

/** By what falls are measured: the number of the row that is worst. */
export type WorstRows = Record<"body" | "fall" | "clearance" | "wall" | "near" | "far" | "backup", number>;

/** The falls of `spanloom catch --json --quick`, the worst first; of no fall there is no worst. */
export interface CatchDocument {
  catch: {
    main_failure: CatchMainFailure[];
    worst_main_failure: WorstRows | null;
    leash_fall: CatchLeashFall[];
    worst_leash_fall: WorstRows | null;
    checks: Check[];
  };
}
