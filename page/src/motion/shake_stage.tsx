// Shake the line and watch what comes back, beside the same line evenly taped.
import { useMemo } from "preact/hooks";
import { settled } from "../state/rig";
import { useLeaving, useOtherRig } from "./leave";
import { ShakeFilmView } from "./shake_film_view";
import { ShakeStageState } from "./shake_films";
import { ShakeForm } from "./shake_form";
import { comparedWords, returnWords } from "./shake_words";
import { StaleNote } from "./stale_note";
import { WorkBar } from "./work_bar";
import "./motion.css";
import "./shake_stage.css";

/** The whole stage; stands in a <details>. */
export function ShakeStage() {
  const stage = useMemo(() => new ShakeStageState(), []);
  const films = stage.films.value;
  const place = useLeaving<HTMLDivElement>(() => stage.films.value?.player.pause(), () => stage.leave());
  useOtherRig(() => stage.forget());
  const again = (): void => {
    if (films) void stage.shakeIt(films.shake);
  };
  const cannot = !settled.value || stage.work.running.value;
  return (
    <div class="shake-stage" ref={place}>
      <ShakeForm stage={stage} again={films !== null} />
      <WorkBar work={stage.work} doing="Shaking this layout and the even one" />
      <StaleNote why={stage.stale.value} words="Shake the line as it is now" again={again} cannot={cannot} />
      <div role="status" class="motion-result">{films && <><strong>{returnWords(films)}</strong> {comparedWords(films)}</>}</div>
      {films && <ShakeFilmView key={films.player} films={films} />}
    </div>
  );
}
