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
import { FallChecks } from "./fall_said";
import { FallPicture, FallStill } from "./fall_picture";
import type { Closeness } from "./fall_window";
import {
  fallMoments, fallRows, followedWords, happenedWords, hits, holdWords, limitSource, notComputedWords, roomWords,
} from "./fall_words";
import { PlayBar } from "./play_bar";
import { wantsStill } from "./still";
import { Stills } from "./stills";

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
  const held = !numbers.lost && !hits(filmed);
  const plays = filmed.player.frames >= fewestFrames;
  const happened = happenedWords(filmed);
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
          {hits(filmed) && <p class="fall-small">It stops where the feet hit the ground. What follows is greyed: it means nothing.</p>}
        </>
      )}
      {plays && !moving.value && (
        <Stills
          of="fall"
          moments={fallMoments(filmed)}
          still={({ time_s }, label) => <FallStill filmed={filmed} closeness={closeness.value} time_s={time_s} label={label} />}
          show={() => (moving.value = true)}
        />
      )}
      <Choice legend="Seen" chosen={closeness.value} choices={closenesses} choose={(how) => (closeness.value = how)} />
      <p class="fall-small">
        In true proportions. Thick: main. Thin: backup. Circle: leash ring. {held && "Dashed: the lowest that the feet come. "}
        Where the ring runs far, the picture goes along.
      </p>
      {held && <p>{roomWords(numbers)} {holdWords(filmed.asked, numbers)}</p>}
      <p class="fall-small">
        What the numbers mean: fall <Why of="fall" />, force on the body <Why of="body force" />, clearance
        <Why of="clearance" />
      </p>
      {plays && <LeashForce filmed={filmed} />}
      <FallChecks filmed={filmed} />
      <Numbers filmed={filmed} />
      <p class="fall-small">{notComputedWords} {followedWords(filmed)}</p>
    </>
  );
}

function LeashForce({ filmed }: { filmed: FallFilmed }) {
  const { film, player, nearest } = filmed;
  const { factor, unit } = shown("force");
  const series = useMemo((): Series[] => {
    return [{ name: "leash", look: "this", values: film.leash_N.map((force_N) => force_N * factor) }];
  }, [film, units.value]);
  const limit = text(film.body_limit_N, "force");
  const hit = nearest?.meets ? { from_s: nearest.time_s, words: "hits the ground" } : null;
  const most = hit ? `It hits the ground after ${text(hit.from_s, "time")}; what follows means nothing.` : `At most ${text(film.numbers.body_N, "force")}.`;
  return (
    <>
      <Chart
        title={`Force of the leash on the body, ${unit}`}
        label={`Force of the leash over time. ${most} The limit line is ${limit}, ${limitSource(film)}.`}
        series={series}
        frame_s={film.frame_s}
        length_s={player.length_s}
        playhead_s={player.time_s}
        tick={(value) => String(value)}
        atLeast={film.body_limit_N * factor * limitRoom}
        limit={{ value: film.body_limit_N * factor, words: `limit: ${limit}` }}
        {...(hit ? { nothing: hit } : {})}
      />
      <p class="fall-small">Dashed: the limit of {limit}, {limitSource(film)}.</p>
    </>
  );
}

function Numbers({ filmed }: { filmed: FallFilmed }) {
  return (
    <details class="motion-table">
      <summary>The values as a table</summary>
      {hits(filmed) && <p>The feet hit the ground: these are values of a fall as if there were none. They mean nothing after the hit.</p>}
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
