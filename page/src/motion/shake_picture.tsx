// The shaken lines at one moment, or as they move.
import { useComputed, type ReadonlySignal } from "@preact/signals";
import { useCallback, useMemo } from "preact/hooks";
import { Canvas, useWidth, type Drawing } from "./canvas";
import type { ViewFrom } from "./projection";
import type { ShakeFilms } from "./shake_films";
import { drawShake, rangeOf, shakeScene, type Arrangement } from "./shake_scene";
import { enlargedWords } from "./shake_words";

export interface Looking {
  view: ViewFrom;
  arrangement: Arrangement;
}

interface Props extends Looking {
  films: ShakeFilms;
  time_s: ReadonlySignal<number>;
  /** What moment it is, for those who do not see it. */
  label: string;
  /** Says below how much is drawn larger. */
  telling: "scale" | "nothing";
}

export function ShakePicture({ films, view, arrangement, time_s, label, telling }: Props) {
  const { place, width } = useWidth<HTMLDivElement>();
  const wide = width.value;
  const range = useMemo(() => rangeOf(films, view), [films, view]);
  const scene = useMemo(() => shakeScene({ films, view, arrangement, range, width: Math.max(1, wide) }), [films, view, arrangement, range, wide]);
  const height = useCallback(() => scene.height, [scene]);
  const draw = useCallback((drawing: Drawing) => drawShake(drawing, scene, time_s.value), [scene, time_s]);
  return (
    <div ref={place}>
      {wide > 0 && <Canvas label={label} height={height} draw={draw} />}
      {wide > 0 && telling === "scale" && (
        <p class="shake-small">{enlargedWords(scene.times)} Squares: tapes. Diamond: the shaken place. Dotted: at rest.</p>
      )}
    </div>
  );
}

/** A moment as a still. */
export function ShakeStill({ films, time_s, label, ...looking }: Looking & { films: ShakeFilms; time_s: number; label: string }) {
  const still = useComputed(() => time_s);
  return <ShakePicture films={films} time_s={still} label={label} telling="nothing" {...looking} />;
}
