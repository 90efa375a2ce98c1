// Let the main fail, or the walker step off, and watch what holds.
import { useMemo, useRef } from "preact/hooks";
import { settled } from "../state/rig";
import { FallFilmView } from "./fall_film_view";
import { FallStageState, type FallFilmed } from "./fall_films";
import { FallForm } from "./fall_form";
import { fallWords, groundWords, happenedWords } from "./fall_words";
import { FallSearch } from "./fall_search";
import { useLeaving } from "./leave";
import { StaleNote } from "./stale_note";
import { WorkBar } from "./work_bar";
import "./motion.css";
import "./fall_stage.css";

function Said({ filmed }: { filmed: FallFilmed }) {
  return (
    <>
      {happenedWords(filmed.asked, filmed.film.numbers)} <strong>{groundWords(filmed)} {fallWords(filmed.film)}</strong>
    </>
  );
}

/** The whole stage; stands in a <details>. */
export function FallStage() {
  const stage = useMemo(() => new FallStageState(), []);
  const filmed = stage.filmed.value;
  const place = useLeaving<HTMLDivElement>(() => stage.filmed.value?.player.pause(), () => stage.leave());
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
        <StaleNote stale={stage.stale.value} words="Let the line as it is now fall" again={again} cannot={cannot} />
        <div role="status" class="motion-result">{filmed && <Said filmed={filmed} />}</div>
        {filmed && <FallFilmView key={filmed.player} filmed={filmed} />}
      </div>
      <FallSearch stage={stage} played={showFilm} />
    </div>
  );
}
