// What falls, and the film that came of it; and the search for the worst.
import { batch, computed, signal } from "@preact/signals";
import type { Answer, AskedFall, CatchDocument, FallFilm, PlanPicture, RigFiles } from "../engine/api";
import type { Engine } from "../engine/client";
import { files, view } from "../state/rig";
import { units } from "../state/units";
import { walkerAt } from "../state/walker";
import { nearestGround, type NearestGround } from "./fall_ground";
import { Player, speedToFollow } from "./player";
import { wantsStill } from "./still";
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
  asked: WantedFall;
  picture: PlanPicture;
  film: FallFilm;
  nearest: NearestGround | null;
  player: Player;
}

/** A search that came to its end, and of what. */
export interface Searched {
  of: RigFiles;
  found: CatchDocument;
}

/** A fall is followed until nothing new comes, at most so long: as `spanloom catch` does [s]. */
export const longestFall_s = 15;
/** Beside the walker: within the first bar of the mesh that falls are told from, which is at most 0.3 m long [m]. */
const beside_m = 0.1;
/** A look at where the walker stands needs hardly any time [s]. */
const glance_s = 0.02;
/** A fall should last a little on the screen [s of film]. */
const fallIsAbout_s = 0.5;

const sides: Partial<Record<CutChoice, WantedFall["beside"]>> = { "towards near": "near", "towards far": "far" };

/** Where on the gap axis the main fails, or beside whom [m]. */
export function cutPlace(choice: CutChoice, walker_m: number, gap_m: number, place_m: number): number {
  const places: Record<CutChoice, number> = {
    "near anchor": 0,
    "far anchor": gap_m,
    "towards near": walker_m,
    "towards far": walker_m,
    place: place_m,
  };
  return places[choice];
}

/** The fall with the main failing next to where the walker really stands. */
async function exactly(engine: Engine, files: RigFiles, { beside, ...fall }: WantedFall): Promise<Answer<AskedFall>> {
  if (beside === null) return { ok: true, value: fall };
  const glance = await engine.call("fall_film", { files, fall: { ...fall, kind: "leash fall", seconds: glance_s } });
  if (!glance.ok) return glance;
  const { walker_m } = glance.value.numbers;
  return { ok: true, value: { ...fall, walker_m, cut_m: walker_m + (beside === "near" ? -beside_m : beside_m) } };
}

async function filmed(engine: Engine, of: RigFiles, asked: WantedFall): Promise<Answer<FallFilmed>> {
  const plan = await planOf(engine, of);
  if (!plan.ok) return plan;
  const fall = await exactly(engine, of, asked);
  if (!fall.ok) return fall;
  const film = await engine.call("fall_film", { files: of, fall: fall.value });
  if (!film.ok) return film;
  const { frames, frame_s } = film.value;
  const { picture } = plan.value;
  const nearest = nearestGround(film.value, picture.ground);
  return { ok: true, value: { of, asked, picture, film: film.value, nearest, player: new Player(frames, frame_s) } };
}

/** One fall stage: what is chosen, what runs, what came of it. */
export class FallStageState {
  readonly kind = signal<AskedFall["kind"]>("main failure");
  /** Chosen by the slider [m]; null: where the walker of the picture stands, or the middle. */
  readonly walkerChosen_m = signal<number | null>(null);
  readonly cut = signal<CutChoice>("towards near");
  readonly cutPlaceChosen_m = signal<number | null>(null);
  readonly tapes = signal<AskedFall["tapes"]>("hold");
  readonly stepOff = signal<AskedFall["step_off"]>("sideways");
  readonly gap_m = computed(() => view.value?.picture.gap_m ?? 0);
  readonly walker_m = computed(() => Math.min(this.gap_m.value, this.walkerChosen_m.value ?? walkerAt.value ?? this.gap_m.value / 2));
  readonly place_m = computed(() => Math.min(this.gap_m.value, this.cutPlaceChosen_m.value ?? this.gap_m.value / 2));
  readonly work = new Work();
  readonly filmed = signal<FallFilmed | null>(null);
  readonly stale = computed(() => this.filmed.value !== null && this.filmed.value.of !== files.value);
  readonly search = new Work();
  readonly searched = signal<Searched | null>(null);
  readonly searchStale = computed(() => this.searched.value !== null && this.searched.value.of !== files.value);

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
    const of = files.value;
    this.filmed.value?.player.pause();
    const made = await this.work.run((engine) => filmed(engine, of, asked));
    if (!made) return false;
    batch(() => {
      this.filmed.value?.player.pause();
      this.filmed.value = made;
      made.player.speed.value = speedToFollow(fallIsAbout_s);
    });
    if (wantsStill.value) made.player.seek(made.player.frames - 1);
    else made.player.play();
    return true;
  }

  async lookForWorst(): Promise<void> {
    const of = files.value;
    const found = await this.search.run((engine, tell) =>
      engine.call("falls", { files: of, units: units.value }, ({ done, all }) => tell(done / Math.max(1, all))),
    );
    if (found) this.searched.value = { of, found };
  }

  /** Ends what runs and what plays. */
  leave(): void {
    this.work.stop();
    this.search.stop();
    this.filmed.value?.player.pause();
  }
}
