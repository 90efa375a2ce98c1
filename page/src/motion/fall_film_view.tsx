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
  fallMoments, fallRows, followedWords, happenedWords, hits, holds, holdWords, limitSource, notComputedWords, roomWords,
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
  const held = holds(filmed);
  const plays = filmed.player.frames >= fewestFrames;
  return (
    <>
      {!plays && <FallStill filmed={filmed} closeness={closeness.value} time_s={0} label={`Where the fall begins. ${happenedWords(filmed)}`} />}
      {plays && moving.value && <Moving filmed={filmed} closeness={closeness.value} />}
      <AsIf filmed={filmed} />
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

function Moving({ filmed, closeness }: { filmed: FallFilmed; closeness: Closeness }) {
  const label = `The fall in true proportions. ${happenedWords(filmed)}`;
  return (
    <>
      <FallPicture filmed={filmed} closeness={closeness} time_s={filmed.player.time_s} label={label} />
      <PlayBar player={filmed.player} of="fall" />
      {hits(filmed) && <p class="fall-small">Playing stops where the feet hit the ground. What follows is greyed: it means nothing.</p>}
    </>
  );
}

/** Where something breaks; when, is not told. */
function AsIf({ filmed }: { filmed: FallFilmed }) {
  if (filmed.film.numbers.lost || hits(filmed) || holds(filmed)) return null;
  return <p class="fall-small">The film goes on as if nothing broke: what comes after the break means nothing.</p>;
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
      {!holds(filmed) && <p>What is computed for the time after a hit or a break means nothing: these values go on as if there were none.</p>}
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
