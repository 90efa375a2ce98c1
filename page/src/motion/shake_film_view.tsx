// A shake that was filmed: the moving picture, what comes back as it comes, and the numbers.
import { useComputed, useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { text } from "../words/format";
import { Why } from "../words/why";
import { Chart } from "./chart";
import { Choice } from "./choice";
import { greatestDisplacement } from "./film_places";
import { PlayBar } from "./play_bar";
import type { ViewFrom } from "./projection";
import { lineNames, type ShakeFilms } from "./shake_films";
import { ShakePicture, ShakeStill, type Looking } from "./shake_picture";
import type { Arrangement } from "./shake_scene";
import { moments } from "./shake_series";
import { keyRows, overWords, returnWords, shakenWords } from "./shake_words";
import { wantsStill } from "./still";
import { Stills } from "./stills";
import { StripePicture } from "./stripe_picture";

const views: readonly { value: ViewFrom; words: string }[] = [
  { value: "above", words: "from above" },
  { value: "side", words: "from the side" },
  { value: "slanting", words: "slanting" },
];
const arrangements: readonly { value: Arrangement; words: string }[] = [
  { value: "rows", words: "one below the other" },
  { value: "laid on", words: "laid on one another" },
];

const percentTick = (share: number): string => text(share, "return");
const whole = 1;
const someEnergy = 0.5;

/** All of it. */
export function ShakeFilmView({ films }: { films: ShakeFilms }) {
  const view = useSignal<ViewFrom>(films.shake.direction === "sideways" ? "above" : "side");
  const arrangement = useSignal<Arrangement>("rows");
  const moving = useSignal(!wantsStill.value);
  const looking: Looking = { view: view.value, arrangement: arrangement.value };
  return (
    <>
      {moving.value && <Moving films={films} looking={looking} />}
      {!moving.value && (
        <Stills
          of="shake"
          moments={moments(films.rig, films.period_s)}
          still={({ time_s }, label) => <ShakeStill films={films} time_s={time_s} label={label} {...looking} />}
          show={() => (moving.value = true)}
        />
      )}
      {films.evenTrouble && <p class="motion-trouble">There is no film of the line evenly taped: {films.evenTrouble}</p>}
      <div class="motion-choices">
        <Choice legend="Seen" chosen={view.value} choices={views} choose={(from) => (view.value = from)} />
        {films.even && <Choice legend="Both lines" chosen={arrangement.value} choices={arrangements} choose={(how) => (arrangement.value = how)} />}
      </div>
      <p class="shake-small">
        What came back is the return. <Why of="return" /> {shakenWords(films)} {films.lengthWords}
      </p>
      <ComingBack films={films} />
      <Stripes films={films} />
      <ul class="shake-over">
        <li>{overWords(lineNames.this, films.rig)}</li>
        {films.even && <li>{overWords(lineNames.other, films.even)}</li>}
      </ul>
      <KeyTable films={films} />
      <p class="shake-small">
        Not computed: flutter and twist of the webbing. Loops that snap tight have no exact answer: another push a hair
        stronger may return some points more or less. The film is the very shake that the number is of.
      </p>
    </>
  );
}

function Moving({ films, looking }: { films: ShakeFilms; looking: Looking }) {
  return (
    <>
      <ShakePicture films={films} time_s={films.player.time_s} label={`The moving line. ${shakenWords(films)}`} telling="scale" {...looking} />
      <PlayBar player={films.player} of="shake" />
    </>
  );
}

function ComingBack({ films }: { films: ShakeFilms }) {
  const { player, rig, swing, energy } = films;
  const { late_from_s, late_window_s } = rig.numbers;
  const common = { frame_s: rig.frame_s, length_s: player.length_s, playhead_s: player.time_s, tick: percentTick };
  const window = { from_s: late_from_s, to_s: late_from_s + late_window_s, words: "return measured here" };
  return (
    <>
      <Chart title="Swing of the main, as share of that in the shake" label={`Swing of the main over time. ${returnWords(films)}`}
        series={swing} atLeast={whole} window={window} {...common} />
      <Arrived films={films} at_s={Math.min(window.to_s, player.length_s)} />
      <Chart title="Energy of motion of the main, as share of what was put in" label="Energy of motion of the main over time, the same two lines."
        series={energy} atLeast={someEnergy} window={window} {...common} />
      <p class="shake-small">
        Energy goes to and fro between motion and stretch twice in every swing, so look at the course.{" "}
        <Why of="energy share" />
      </p>
    </>
  );
}

/** Written when the film has come to it. */
function Arrived({ films, at_s }: { films: ShakeFilms; at_s: number }) {
  const arrived = useComputed(() => films.player.time_s.value >= at_s);
  const words = arrived.value ? returnWords(films) : "What comes back is measured two round trips after the shake.";
  return <p class="shake-arrived" aria-hidden="true">{words}</p>;
}

function Stripes({ films }: { films: ShakeFilms }) {
  const { rig, even, shake } = films;
  const greatest_m = useMemo(
    () => Math.max(greatestDisplacement(rig, shake.direction), even ? greatestDisplacement(even, shake.direction) : 0),
    [films],
  );
  return (
    <section>
      <h3>Waves over place and time</h3>
      <p class="shake-small">
        Place goes across, time goes down. Dark: far from rest, to either side. Stripes that slant are waves on their
        way; stripes that stay dark in one place are the line swinging there. Ticks on top: tapes; triangle: the
        shaken place.
      </p>
      <StripePicture films={films} film={rig} name={lineNames.this} greatest_m={greatest_m} />
      {even && <StripePicture films={films} film={even} name={lineNames.other} greatest_m={greatest_m} />}
    </section>
  );
}

function KeyTable({ films }: { films: ShakeFilms }) {
  return (
    <details class="motion-table">
      <summary>The values as a table</summary>
      <div class="motion-scroll" role="region" aria-label="Values of both shakes" tabIndex={0}>
        <table>
          <thead><tr><th scope="col">Value</th><th scope="col">{lineNames.this}</th><th scope="col">{lineNames.other}</th></tr></thead>
          <tbody>
            {keyRows(films).map(({ what, rig, even }) => (
              <tr key={what}><th scope="row">{what}</th><td>{rig}</td><td>{even}</td></tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
