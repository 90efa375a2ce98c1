// What the engine in WebAssembly answers: the shapes of everything that crosses the worker's edge.
// SI throughout: the unit is the end of each name, `_` for none. Places lie on the gap axis, standing, from the near
// anchor, unless a name says `natural`: then along the unloaded main from the near connector.

export type * from "./motion_api";

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

export interface Progress {
  done: number;
  all: number;
}
