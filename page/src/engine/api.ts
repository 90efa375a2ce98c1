// What the engine in WebAssembly answers: the shapes of everything that crosses the worker's edge.
// SI throughout: the unit is the end of each name, `_` for none. Places lie on the gap axis, standing, from the near
// anchor, unless a name says `natural`: then along the unloaded main from the near connector.

/** The rig file and the CSV files that it names, as texts. */
export interface RigFiles {
  name: string;
  text: string;
  sides: { name: string; text: string }[];
}

/** What is wrong with a file, and where. Lines and columns count from 1, columns in characters. */
export interface FileFault {
  file: string;
  line: number;
  column: number;
  key: string;
  read: string;
  expected: string;
  cure: string;
  /** All of it as one line for people. */
  words: string;
}

export type Answer<T> =
  | { ok: true; value: T }
  | { ok: false; why: "file"; faults: FileFault[]; words: string }
  | { ok: false; why: "no answer"; faults: []; words: string };

export type Units = "metric" | "us";
export type Verdict = "ok" | "caution" | "stop";

export interface Certificate {
  iterations: number;
  residual_N: number;
  residual_floor_N: number;
  greatest_force_N: number;
  energy_gap_J: number;
  energy_scale_J: number;
}

export interface Standing {
  tension_near_N: number;
  tension_far_N: number;
  sag_m: number;
  sag_at_m: number;
  main_natural_length_m: number;
  backup_natural_length_m: number;
  round_trip_s: number;
  backup_tension_max_N: number;
  ground_clearance_m: number | null;
  ground_clearance_at_m: number | null;
  zone_distance_m: number | null;
  zone_distance_at_m: number | null;
  anchor_near_N: number;
  anchor_far_N: number;
  certificate: Certificate;
}

export interface Bay {
  number: number;
  from_m: number;
  to_m: number;
  running_length_m: number;
  main_natural_m: number;
  backup_natural_m: number;
  main_standing_m: number;
  arm_spans: number;
  drop_m: number;
  slack: number;
  ankle_margin_m: number;
  left_over: boolean;
  close: boolean;
}

export interface WalkerPlace {
  position_m: number;
  running_length_m: number;
  bay: number;
  at_tape: boolean;
  in_anchor_zone: boolean;
  sag_m: number;
  slope: number;
  sideways_m: number;
  tension_near_N: number;
  tension_far_N: number;
  tension_max_N: number;
  backup_tension_max_N: number;
  backup_tension_bay: number;
  ground_clearance_m: number | null;
  hang_clearance_m: number | null;
  line_clearance_m: number | null;
  anchor_near_N: number;
  anchor_far_N: number;
  certificate: Certificate;
}

/** One check as the command writes it. */
export interface Check {
  name: string;
  title: string;
  value: number | null;
  limit: number | null;
  unit: string;
  verdict: Verdict;
  words: string;
  assumed: string[];
  limit_is: "least" | "greatest";
}

/** The document of `spanloom plan --json`, of which these keys are used here. */
export interface PlanDocument {
  format: { name: string; number: number };
  version: string;
  title: string;
  cautions: string[];
  plan: {
    standing: Standing;
    bays: Bay[];
    walker: WalkerPlace[];
    checks: Check[];
    lengths: { run: "main" | "backup"; webbing: string; natural_length_m: number; cut_length_m: number }[];
    pull_through: { hand_tight_N: number; length_m: number; sag_m: number } | null;
    /** Null: no wind is given, or the plan is not whole. */
    wind: { speed_m_s: number } | null;
    notes: string[];
  };
}

/** What the picture draws. Points are x, z pairs one after the other [m]. */
export interface PlanPicture {
  gap_m: number;
  rise_m: number;
  /** Nodes of the standing main from anchor to anchor. */
  main: number[];
  /** Nodes of each loop, tape to tape. */
  loops: number[][];
  /** bays + 1 points, the anchors among them. */
  tapes: number[];
  ground: number[];
  /** From each anchor to the edge of the ground along the gap; null: not given. */
  edge_near_m: number | null;
  edge_far_m: number | null;
  /** Outside these zones from each anchor the reserve over the ground holds. */
  anchor_zone_m: number;
  reserve_m: number;
  least_ankle_margin_m: number;
  least_drop_m: number;
  arm_span_m: number;
  foot_to_hip_m: number;
  leash_m: number;
  walker_kg: number;
  /** First swing of a shake, as the rig file says or our default. */
  swing_m: number;
  joint: "taped" | "ring";
}

export interface PlanView {
  document: PlanDocument;
  picture: PlanPicture;
  /** False while dragging: then no two people and no wind, a walker between the tapes only, and no checks. */
  whole: boolean;
}

/** A walker standing at one place. */
export interface WalkerView {
  place: WalkerPlace;
  /** Of the bay where the foot is, taken at the foot. */
  ankle_margin_m: number;
  main: number[];
  loops: number[][];
}

/** How the tapes are changed. Tapes count from 1 at the near anchor. The backup stays as it was cut. */
export type TapeEdit =
  | { kind: "take out"; tape: number }
  | { kind: "move"; tape: number; to_natural_m: number }
  | { kind: "add"; at_natural_m: number };

/** One value of the rig file: a dotted key and the TOML that stands right of its "=", such as "\"4.5 kN\"". */
export interface ValueEdit {
  kind: "value";
  key: string;
  toml: string;
}

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

/** A line in motion. Frames lie at equal times; places are x, y, z one after the other, node after node, frame after frame [m]. */
export interface ShakeFilm {
  numbers: ShakeNumbers;
  frame_s: number;
  frames: number;
  main_nodes: number;
  backup_nodes: number;
  main: Float32Array;
  backup: Float32Array;
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

export interface FallFilm {
  numbers: FallNumbers;
  /** The checks of falls, of this one fall alone: strength left in backup, main, leash and anchors, body, room below, walls. */
  checks: Check[];
  frame_s: number;
  frames: number;
  main_nodes: number;
  backup_nodes: number;
  main: Float32Array;
  backup: Float32Array;
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

export interface Progress {
  done: number;
  all: number;
}
