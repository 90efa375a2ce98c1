// What falls, and the film that came of it; and the search for the worst.
import { batch, computed, signal } from "@preact/signals";
import type { Answer, AskedFall, FallFilm, PlanPicture, RigFiles, Units } from "../engine/api";
import type { Engine } from "../engine/client";
import { files, opened, view } from "../state/rig";
import { units } from "../state/units";
import { walkerAt } from "../state/walker";
import { nearestGround, type NearestGround } from "./fall_ground";
import { searched, searchStale, searchUnitsStale, tellSearched } from "./fall_verdicts";
import { Player, speedToFollow } from "./player";
import { wantsStill } from "./still";
import { lineHasChanged } from "./stale_note";
import { planOf, Work } from "./work";

/** Where the main fails. */
export type CutChoice = "near anchor" | "far anchor" | "towards near" | "towards far" | "place";

/** A fall to film. Beside the walker: next to the node where the engine puts them, which only it knows. */
export interface WantedFall extends AskedFall {
  beside: "near" | "far" | null;
}

/** A film and what it is of. Whatever is shown of it comes from here alone. */
export interface FallFilmed {
  of: RigFiles;
  /** Units of the engine's sentences. */
  units: Units;
  asked: WantedFall;
  picture: PlanPicture;
  film: FallFilm;
  nearest: NearestGround | null;
  player: Player;
}

/** A fall is followed until nothing new comes, at most so long: as `spanloom catch` does [s]. */
export const longestFall_s = 15;
/** Beside the walker: within the first bar of the mesh that falls are told from, which is at most 0.3 m long [m]. */
const beside_m = 0.1;
const otherUnits = "The engine's sentences here are still in the units of before.";
/** A look at where the walker stands needs hardly any time [s]. */
const glance_s = 0.02;
/** A fall should last a little on the screen [s of film]. */
const fallIsAbout_s = 0.5;

const sides: Partial<Record<CutChoice, WantedFall["beside"]>> = { "towards near": "near", "towards far": "far" };

/** Where on the gap axis the main fails, or beside whom [m]. */
function cutPlace(choice: CutChoice, walker_m: number, gap_m: number, place_m: number): number {
  const places: Record<CutChoice, number> = {
    "near anchor": 0,
    "far anchor": gap_m,
    "towards near": walker_m,
    "towards far": walker_m,
    place: place_m,
  };
  return places[choice];
}

interface Of {
  files: RigFiles;
  units: Units;
}

/** The fall with the main failing next to where the walker really stands. */
async function exactly(engine: Engine, { files, units }: Of, { beside, ...fall }: WantedFall): Promise<Answer<AskedFall>> {
  if (beside === null) return { ok: true, value: fall };
  const glance = await engine.call("fall_film", { files, units, fall: { ...fall, kind: "leash fall", seconds: glance_s } });
  if (!glance.ok) return glance;
  const { walker_m } = glance.value.numbers;
  return { ok: true, value: { ...fall, walker_m, cut_m: walker_m + (beside === "near" ? -beside_m : beside_m) } };
}

async function filmed(engine: Engine, of: Of, asked: WantedFall): Promise<Answer<FallFilmed>> {
  const plan = await planOf(engine, of.files);
  if (!plan.ok) return plan;
  const fall = await exactly(engine, of, asked);
  if (!fall.ok) return fall;
  const film = await engine.call("fall_film", { ...of, fall: fall.value });
  if (!film.ok) return film;
  const { frames, frame_s } = film.value;
  const { picture } = plan.value;
  const nearest = nearestGround(film.value, picture.ground);
  const player = new Player(frames, frame_s);
  player.haltAt_s = nearest?.meets ? nearest.time_s : null;
  return { ok: true, value: { of: of.files, units: of.units, asked, picture, film: film.value, nearest, player } };
}

/** One fall stage: what is chosen, what runs, what came of it. */
export class FallStageState {
  readonly kind = signal<AskedFall["kind"]>("main failure");
  /** Chosen by the slider [m]; null: where the walker of the picture stands, or the middle. */
  readonly walkerChosen_m = signal<number | null>(null);
  readonly cut = signal<CutChoice>("towards near");
  readonly cutPlaceChosen_m = signal<number | null>(null);
  readonly tapes = signal<AskedFall["tapes"]>("tear"); // the longer fall
  readonly stepOff = signal<AskedFall["step_off"]>("sideways");
  readonly gap_m = computed(() => view.value?.picture.gap_m ?? 0);
  readonly walker_m = computed(() => Math.min(this.gap_m.value, this.walkerChosen_m.value ?? walkerAt.value ?? this.gap_m.value / 2));
  readonly place_m = computed(() => Math.min(this.gap_m.value, this.cutPlaceChosen_m.value ?? this.gap_m.value / 2));
  readonly work = new Work();
  readonly filmed = signal<FallFilmed | null>(null);
  /** Why the film is to be made again; empty where it need not. */
  readonly stale = computed(() => {
    const made = this.filmed.value;
    if (made !== null && made.of !== files.value) return lineHasChanged;
    return made !== null && made.units !== units.value ? otherUnits : "";
  });
  readonly search = new Work();
  /** Why the search is to be run again; empty where it need not. */
  readonly searchAgain = computed(() => (searchStale.value ? lineHasChanged : searchUnitsStale.value ? otherUnits : ""));
  readonly searched = searched;
  readonly searchStale = searchStale;

  /** The fall that is chosen. */
  asked(): WantedFall {
    const walker_m = this.walker_m.value;
    const fails = this.kind.value === "main failure";
    return {
      kind: this.kind.value,
      walker_m,
      cut_m: fails ? cutPlace(this.cut.value, walker_m, this.gap_m.value, this.place_m.value) : 0,
      tapes: fails ? this.tapes.value : "hold",
      step_off: this.stepOff.value,
      seconds: longestFall_s,
      beside: fails ? (sides[this.cut.value] ?? null) : null,
    };
  }

  /** @returns whether there is a film now */
  async letFall(asked: WantedFall): Promise<boolean> {
    const of = { files: files.value, units: units.value };
    this.filmed.value?.player.pause();
    const made = await this.work.run((engine) => filmed(engine, of, asked));
    if (!made) return false;
    batch(() => {
      this.filmed.value?.player.pause();
      this.filmed.value = made;
      made.player.speed.value = speedToFollow(fallIsAbout_s);
    });
    const { player } = made;
    if (wantsStill.value) player.seek(player.haltAt_s === null ? player.frames - 1 : Math.round(player.haltAt_s / player.frame_s));
    else player.play();
    return true;
  }

  async lookForWorst(): Promise<void> {
    const of = { files: files.value, units: units.value };
    const rig = opened.value;
    const began_ms = performance.now();
    const found = await this.search.run((engine, tell) =>
      engine.call("falls", of, ({ done, all }) => tell(done / Math.max(1, all))),
    );
    if (found) tellSearched({ of: of.files, units: of.units, rig, found, took_s: (performance.now() - began_ms) / 1000 });
  }

  /** Another rig was opened: nothing stays of this one. */
  forget(): void {
    this.filmed.value?.player.pause();
    this.work.forget();
    this.search.forget();
    batch(() => {
      this.filmed.value = null;
      this.walkerChosen_m.value = null;
      this.tapes.value = "tear";
      this.cutPlaceChosen_m.value = null;
    });
  }

  /** Ends what runs and what plays. */
  leave(): void {
    this.work.stop();
    this.search.stop();
    this.filmed.value?.player.pause();
  }
}
