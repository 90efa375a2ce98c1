// A fall that was filmed: the moving picture, the force of the leash as it comes, and the numbers.
import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { units } from "../state/units";
import { shown, text } from "../words/format";
import { Why } from "../words/why";
import { Chart } from "./chart";
import type { Series } from "./chart_shape";
import { Choice } from "./choice";
import type { FallFilmed } from "./fall_films";
import { FallPicture, FallStill } from "./fall_picture";
import type { Closeness } from "./fall_window";
import {
  fallMoments, fallRows, followedWords, happenedWords, holdWords, limitSource, notComputedWords, roomWords,
} from "./fall_words";
import { PlayBar } from "./play_bar";
import { wantsStill } from "./still";

const closenesses: readonly { value: Closeness; words: string }[] = [
  { value: "around the walker", words: "the walker from the side" },
  { value: "whole line", words: "the whole line" },
  { value: "along the line", words: "along the line" },
];
const limitRoom = 1.15;
/** Where the ring leaves the main at once there is nothing to play. */
const fewestFrames = 4;

/** All of it. */
export function FallFilmView({ filmed }: { filmed: FallFilmed }) {
  const closeness = useSignal<Closeness>("around the walker");
  const moving = useSignal(!wantsStill.value);
  const { numbers } = filmed.film;
  const plays = filmed.player.frames >= fewestFrames;
  const happened = happenedWords(filmed.asked, numbers);
  return (
    <>
      {!plays && <FallStill filmed={filmed} closeness={closeness.value} time_s={0} label={`Where the fall begins. ${happened}`} />}
      {plays && moving.value && (
        <>
          <FallPicture
            filmed={filmed}
            closeness={closeness.value}
            time_s={filmed.player.time_s}
            label={`The fall in true proportions. ${happened}`}
          />
          <PlayBar player={filmed.player} of="fall" />
        </>
      )}
      {plays && !moving.value && <Stills filmed={filmed} closeness={closeness.value} show={() => (moving.value = true)} />}
      <Choice legend="Seen" chosen={closeness.value} choices={closenesses} choose={(how) => (closeness.value = how)} />
      <p class="fall-small">
        In true proportions. Thick: main. Thin: backup. Circle: leash ring. Dashed: the lowest that the feet come.
        Where the ring runs far, the picture goes along.
      </p>
      {!numbers.lost && <p>{roomWords(numbers)} {holdWords(filmed.asked, numbers)}</p>}
      <p class="fall-small">
        What the numbers mean: fall <Why of="fall" />, force on the body <Why of="body force" />, clearance
        <Why of="clearance" />
      </p>
      {plays && <LeashForce filmed={filmed} />}
      <Numbers filmed={filmed} />
      <p class="fall-small">{notComputedWords} {followedWords(filmed)}</p>
    </>
  );
}

function Stills({ filmed, closeness, show }: { filmed: FallFilmed; closeness: Closeness; show: () => void }) {
  return (
    <>
      <div class="fall-stills">
        {fallMoments(filmed).map(({ time_s, words }) => (
          <figure key={time_s}>
            <FallStill filmed={filmed} closeness={closeness} time_s={time_s} label={`The fall at ${time_s.toFixed(2)} seconds, ${words}`} />
            <figcaption>{time_s.toFixed(2)}&nbsp;s: {words}</figcaption>
          </figure>
        ))}
      </div>
      <p class="fall-small">
        Your device asks for little motion, so here are stills.{" "}
        <button type="button" class="button" onClick={show}>Show it moving</button>
      </p>
    </>
  );
}

function LeashForce({ filmed }: { filmed: FallFilmed }) {
  const { film, player } = filmed;
  const { factor, unit } = shown("force");
  const series = useMemo((): Series[] => {
    return [{ name: "leash", look: "this", values: film.leash_N.map((force_N) => force_N * factor) }];
  }, [film, units.value]);
  const most = text(film.numbers.body_N, "force");
  return (
    <Chart
      title={`Force of the leash on the body, ${unit}`}
      label={`Force of the leash over time: at most ${most}. The limit line is ${text(film.body_limit_N, "force")}, ${limitSource(film)}.`}
      series={series}
      frame_s={film.frame_s}
      length_s={player.length_s}
      playhead_s={player.time_s}
      tick={(value) => String(value)}
      atLeast={film.body_limit_N * factor * limitRoom}
      limit={{ value: film.body_limit_N * factor, words: `${text(film.body_limit_N, "force")}: ${limitSource(film)}` }}
    />
  );
}

function Numbers({ filmed }: { filmed: FallFilmed }) {
  return (
    <details class="motion-table">
      <summary>The values as a table</summary>
      <div class="motion-scroll" role="region" aria-label="Values of the fall" tabIndex={0}>
        <table>
          <thead><tr><th scope="col">Value</th><th scope="col">In this fall</th></tr></thead>
          <tbody>
            {fallRows(filmed.film.numbers).map(({ what, value }) => <tr key={what}><th scope="row">{what}</th><td>{value}</td></tr>)}
          </tbody>
        </table>
      </div>
    </details>
  );
}
