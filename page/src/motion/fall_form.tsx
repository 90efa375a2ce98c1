// What is to fall: main failure or leash fall, where, and how.
import type { AskedFall } from "../engine/api";
import { files, settled, trouble, view } from "../state/rig";
import { walkerAt } from "../state/walker";
import { Choice } from "./choice";
import type { CutChoice, FallStageState } from "./fall_films";
import { tapesWords, tapeStrengthGiven } from "./fall_tapes";
import { PlaceSlider } from "./place_slider";

const kinds: readonly { value: AskedFall["kind"]; words: string }[] = [
  { value: "main failure", words: "the main fails" },
  { value: "leash fall", words: "the walker steps off" },
];
const cuts: readonly { value: CutChoice; words: string }[] = [
  { value: "near anchor", words: "at the near anchor" },
  { value: "towards near", words: "beside the walker, near side" },
  { value: "towards far", words: "beside the walker, far side" },
  { value: "far anchor", words: "at the far anchor" },
  { value: "place", words: "somewhere else" },
];
const tapes: readonly { value: AskedFall["tapes"]; words: string }[] = [
  { value: "tear", words: "tapes tear" },
  { value: "hold", words: "all tapes hold" },
];
const ways: readonly { value: AskedFall["step_off"]; words: string }[] = [
  { value: "sideways", words: "sideways" },
  { value: "backwards", words: "backwards" },
];

/** Tapes that tear make the longer fall, tapes that hold may make the harder one. */
function Tapes({ stage }: { stage: FallStageState }) {
  return (
    <>
      <Choice legend="Tapes" chosen={stage.tapes.value} choices={tapes} choose={(how) => (stage.tapes.value = how)} />
      <p class="fall-small">
        {tapesWords(files.value, stage.tapes.value)}
        {!tapeStrengthGiven(files.value) && " Let it fall both ways: either may be the worse. Give tape_strength in the rig file once it is measured."}
      </p>
    </>
  );
}

/** The choices and "Let it fall". */
export function FallForm({ stage, again }: { stage: FallStageState; again: boolean }) {
  const gap_m = stage.gap_m.value;
  const fails = stage.kind.value === "main failure";
  const letFall = (event: Event): void => {
    event.preventDefault();
    void stage.letFall(stage.asked());
  };
  return (
    <form class="fall-form" onSubmit={letFall}>
      <Choice legend="What happens" chosen={stage.kind.value} choices={kinds} choose={(kind) => (stage.kind.value = kind)} />
      {gap_m > 0 && (
        <PlaceSlider
          label="The walker stands"
          gap_m={gap_m}
          at_m={stage.walker_m.value}
          choose={(at_m) => (stage.walkerChosen_m.value = at_m)}
        />
      )}
      {stage.walkerChosen_m.value !== null && (
        <button type="button" class="button" onClick={() => (stage.walkerChosen_m.value = null)}>
          {walkerAt.value === null ? "Back to the middle" : "Back to the walker of the picture"}
        </button>
      )}
      {fails && <Choice legend="Where the main fails" chosen={stage.cut.value} choices={cuts} choose={(cut) => (stage.cut.value = cut)} />}
      {fails && stage.cut.value === "place" && gap_m > 0 && (
        <PlaceSlider label="The main fails" gap_m={gap_m} at_m={stage.place_m.value} choose={(at_m) => (stage.cutPlaceChosen_m.value = at_m)} />
      )}
      {fails && view.value?.picture.joint === "taped" && <Tapes stage={stage} />}
      {!fails && <Choice legend="Steps off" chosen={stage.stepOff.value} choices={ways} choose={(way) => (stage.stepOff.value = way)} />}
      <button type="submit" class="button motion-go" disabled={!settled.value || stage.work.running.value}>
        {again ? "Let it fall again" : "Let it fall"}
      </button>
      {trouble.value !== "" && <p class="fall-small">There must be a plan first: see what the rig file lacks.</p>}
    </form>
  );
}
