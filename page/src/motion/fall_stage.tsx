// Let the main fail, or the walker step off, and watch what holds.
import { useMemo, useRef } from "preact/hooks";
import { settled } from "../state/rig";
import { FallFilmView } from "./fall_film_view";
import { FallStageState, type FallFilmed } from "./fall_films";
import { FallForm } from "./fall_form";
import { FallSaid } from "./fall_said";
import { FallSearch } from "./fall_search";
import { useLeaving, useOtherRig } from "./leave";
import { StaleNote } from "./stale_note";
import { WorkBar } from "./work_bar";
import "./motion.css";
import "./fall_stage.css";

/** The same main failure with the tapes doing the other thing. */
function OtherTapes({ stage, filmed, cannot }: { stage: FallStageState; filmed: FallFilmed; cannot: boolean }) {
  if (filmed.asked.kind !== "main failure" || filmed.picture.joint !== "taped") return null;
  const tapes = filmed.asked.tapes === "tear" ? "hold" : "tear";
  const fall = (): void => {
    stage.tapes.value = tapes;
    void stage.letFall({ ...filmed.asked, tapes });
  };
  return (
    <button type="button" class="button" disabled={cannot} onClick={fall}>
      The same fall, {tapes === "tear" ? "tapes tear" : "all tapes hold"}
    </button>
  );
}

/** The whole stage; stands in a <details>. */
export function FallStage() {
  const stage = useMemo(() => new FallStageState(), []);
  const filmed = stage.filmed.value;
  const place = useLeaving<HTMLDivElement>(() => stage.filmed.value?.player.pause(), () => stage.leave());
  useOtherRig(() => stage.forget());
  const film = useRef<HTMLDivElement>(null);
  const showFilm = (): void => film.current?.focus();
  const again = (): void => {
    if (filmed) void stage.letFall(filmed.asked);
  };
  const cannot = !settled.value || stage.work.running.value;
  return (
    <div class="fall-stage" ref={place}>
      <FallForm stage={stage} again={filmed !== null} />
      <WorkBar work={stage.work} doing="Letting it fall" />
      <div ref={film} tabIndex={-1} class="fall-film">
        <StaleNote why={stage.stale.value} words="Let the line as it is now fall" again={again} cannot={cannot} />
        <div role="status" class="motion-result">{filmed && <FallSaid filmed={filmed} />}</div>
        {filmed && <OtherTapes stage={stage} filmed={filmed} cannot={cannot} />}
        {filmed && <FallFilmView key={filmed.player} filmed={filmed} />}
      </div>
      <FallSearch stage={stage} played={showFilm} />
    </div>
  );
}
