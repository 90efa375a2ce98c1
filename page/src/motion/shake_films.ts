// What is shaken, and the films that came of it: this layout and the same line evenly taped, by the same shake.
import { batch, computed, signal } from "@preact/signals";
import type { Answer, AskedShake, Direction, RigFiles, ShakeFilm } from "../engine/api";
import type { Engine } from "../engine/client";
import { files } from "../state/rig";
import { thirdOctaves, toldPlaces } from "../state/returns";
import { walkerShare } from "../state/walker";
import type { Series } from "./chart_shape";
import { filmLength } from "./film_length";
import { coordinates } from "./film_places";
import { Player, speedToFollow } from "./player";
import type { Chord } from "./projection";
import { swingShares } from "./shake_series";
import { wantsStill } from "./still";
import { lineHasChanged } from "./stale_note";
import { planOf, Work, type Tell } from "./work";

/** A share of the gap, or where the walker stands. */
export type PlaceChoice = number | "walker";

/** Both films and what they are of. Whatever is shown of them comes from here alone. */
export interface ShakeFilms {
  of: RigFiles;
  shake: Omit<AskedShake, "line">;
  period_s: number;
  chord: Chord;
  rig: ShakeFilm;
  /** Null: there is none, and `evenTrouble` says why. */
  even: ShakeFilm | null;
  evenTrouble: string;
  lengthWords: string;
  player: Player;
  swing: Series[];
  energy: Series[];
}

export const lineNames = { this: "This layout", other: "Evenly taped" } as const;

function chordOf(film: ShakeFilm, gap_m: number): Chord {
  const last = (film.main_nodes - 1) * coordinates;
  return { gap_m, near_z_m: film.main[2] ?? 0, far_z_m: film.main[last + 2] ?? 0 };
}

function seriesOf(rig: ShakeFilm, even: ShakeFilm | null, values: (film: ShakeFilm) => ArrayLike<number>): Series[] {
  const other: Series[] = even ? [{ name: lineNames.other, look: "other", values: values(even) }] : [];
  return [{ name: lineNames.this, look: "this", values: values(rig) }, ...other];
}

async function filmed(engine: Engine, of: RigFiles, shake: ShakeFilms["shake"], tell: Tell): Promise<Answer<ShakeFilms>> {
  const plan = await planOf(engine, of);
  if (!plan.ok) return plan;
  const length = filmLength(plan.value.document.plan.standing.round_trip_s, shake.frequency_Hz);
  const one = (line: "rig" | "even", done: number): Promise<Answer<ShakeFilm>> =>
    engine.call(
      "shake_film",
      { files: of, shake: { ...shake, line }, seconds: length.seconds, frame_s: length.frame_s },
      (progress) => tell((done + progress.done / Math.max(1, progress.all)) / 2),
    );
  const rig = await one("rig", 0);
  if (!rig.ok) return rig;
  const even = await one("even", 1);
  const evenFilm = even.ok ? even.value : null;
  const period_s = 1 / shake.frequency_Hz;
  const value: ShakeFilms = {
    of,
    shake,
    period_s,
    chord: chordOf(rig.value, plan.value.picture.gap_m),
    rig: rig.value,
    even: evenFilm,
    evenTrouble: even.ok ? "" : even.words,
    lengthWords: length.words,
    player: new Player(Math.max(rig.value.frames, evenFilm?.frames ?? 0), rig.value.frame_s),
    swing: seriesOf(rig.value, evenFilm, (film) => swingShares(film, period_s)),
    energy: seriesOf(rig.value, evenFilm, (film) => film.energy),
  };
  return { ok: true, value };
}

/** One shake stage: what is chosen, what runs, what came of it. */
export class ShakeStageState {
  readonly place = signal<PlaceChoice>(toldPlaces[1]);
  readonly frequency_Hz = signal<number>(thirdOctaves[6]);
  readonly direction = signal<Direction>("sideways");
  readonly work = new Work();
  readonly films = signal<ShakeFilms | null>(null);
  /** Why the films are to be made again; empty where they need not. */
  readonly stale = computed(() => (this.films.value !== null && this.films.value.of !== files.value ? lineHasChanged : ""));
  /** Share of the gap that is shaken; where the walker has left, the middle of what is told. */
  readonly share = computed(() => (this.place.value === "walker" ? (walkerShare.value ?? toldPlaces[1]) : this.place.value));

  /** The shake that is chosen. */
  asked(): ShakeFilms["shake"] {
    return { frequency_Hz: this.frequency_Hz.value, place: this.share.value, direction: this.direction.value };
  }

  /** Films a shake of the line as it is now. */
  async shakeIt(shake: ShakeFilms["shake"]): Promise<void> {
    const of = files.value;
    this.films.value?.player.pause();
    const made = await this.work.run((engine, tell) => filmed(engine, of, shake, tell));
    if (!made) return;
    batch(() => {
      this.films.value?.player.pause();
      this.films.value = made;
      made.player.speed.value = speedToFollow(made.rig.numbers.round_trip_s);
    });
    // Who wants stillness sees stills and finished charts.
    if (wantsStill.value) made.player.seek(made.player.frames - 1);
    else made.player.play();
  }

  /** Another rig was opened: nothing stays of this one. */
  forget(): void {
    this.films.value?.player.pause();
    this.work.forget();
    this.films.value = null;
  }

  /** Ends what runs and what plays. */
  leave(): void {
    this.work.stop();
    this.films.value?.player.pause();
  }
}
