// What is to be shaken: where, how fast, which way.
import type { Direction } from "../engine/api";
import { thirdOctaves, toldPlaces } from "../state/returns";
import { settled } from "../state/rig";
import { walkerShare } from "../state/walker";
import { text } from "../words/format";
import { Choice } from "./choice";
import type { PlaceChoice, ShakeStageState } from "./shake_films";

const directions: readonly { value: Direction; words: string }[] = [
  { value: "sideways", words: "sideways" },
  { value: "up", words: "up and down" },
];

const placeWords = (share: number): string => text(share, "return");

/** The choices and "Shake it". */
export function ShakeForm({ stage, again }: { stage: ShakeStageState; again: boolean }) {
  const walker = walkerShare.value;
  const places = [
    ...toldPlaces.map((share) => ({ value: share as PlaceChoice, words: placeWords(share) })),
    {
      value: "walker" as PlaceChoice,
      words: walker === null ? "at the walker (nobody on the line)" : `at the walker, ${placeWords(walker)}`,
      cannot: walker === null,
    },
  ];
  const shake = (event: Event): void => {
    event.preventDefault();
    void stage.shakeIt(stage.asked());
  };
  return (
    <form class="shake-form" onSubmit={shake}>
      <Choice
        legend="Where, from the near anchor"
        chosen={walker === null ? stage.share.value : stage.place.value}
        choices={places}
        choose={(place) => (stage.place.value = place)}
      />
      <label class="motion-select">
        <span>How often in a second</span>
        <select value={stage.frequency_Hz.value} onChange={(event) => (stage.frequency_Hz.value = Number(event.currentTarget.value))}>
          {thirdOctaves.map((frequency_Hz) => (
            <option key={frequency_Hz} value={frequency_Hz}>{text(frequency_Hz, "frequency")}, {text(1 / frequency_Hz, "time")} to and fro</option>
          ))}
        </select>
      </label>
      <Choice legend="Which way" chosen={stage.direction.value} choices={directions} choose={(way) => (stage.direction.value = way)} />
      <button type="submit" class="button motion-go" disabled={!settled.value || stage.work.running.value}>
        {again ? "Shake it again" : "Shake it"}
      </button>
      {!settled.value && <p class="shake-small">There must be a plan first: see what the rig file lacks.</p>}
    </form>
  );
}
