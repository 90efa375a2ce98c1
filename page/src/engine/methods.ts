// The calls that cross the worker's edge: one name, what goes in, what comes out.
import type {
  Answer, AskedFall, AskedShake, CatchDocument, FallFilm, PlanView, Progress, RigFiles, ShakeFilm, ShakeNumbers, TapeEdit, Units,
  ValueEdit, WalkerView,
} from "./api";

export interface Methods {
  /** `whole`: false leaves out what a drag need not wait for (rescue, wind, checks). */
  plan: { in: { files: RigFiles; units: Units; whole: boolean }; out: Answer<PlanView> };
  /** A walker at a place of the gap axis. */
  walker: { in: { files: RigFiles; at_m: number }; out: Answer<WalkerView> };
  /** The text of the rig file after an edit. */
  edit: { in: { files: RigFiles; edit: TapeEdit | ValueEdit }; out: Answer<string> };
  /** The pages of the sheet, each an SVG document. `date`: as it is to be printed. */
  sheet: { in: { files: RigFiles; units: Units; date: string }; out: Answer<string[]> };
  shake: { in: { files: RigFiles; shake: AskedShake }; out: Answer<ShakeNumbers> };
  /** Gives progress. */
  shake_film: { in: { files: RigFiles; shake: AskedShake; seconds: number; frame_s: number }; out: Answer<ShakeFilm> };
  fall_film: { in: { files: RigFiles; units: Units; fall: AskedFall }; out: Answer<FallFilm> };
  /** The search of `spanloom catch --quick`. Gives progress. */
  falls: { in: { files: RigFiles; units: Units }; out: Answer<CatchDocument> };
}
export type Method = keyof Methods;

export type ToWorker = { id: number; method: Method; args: Methods[Method]["in"] };
export type FromWorker =
  | { id: number; kind: "progress"; progress: Progress }
  // The answer as JSON, which crosses faster than a tree of objects, and its columns by name.
  | { id: number; kind: "answer"; json: string; columns: Record<string, Float32Array> }
  | { id: number; kind: "bug"; words: string };
