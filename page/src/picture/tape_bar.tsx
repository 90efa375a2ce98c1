// What can be done with the tape or the bay in hand.
import type { JSX } from "preact";
import type { PlanView } from "../engine/api";
import { view } from "../state/rig";
import { text } from "../words/format";
import { Price } from "./price";
import { ReturnBrief } from "./return_summary";
import { tapeNatural, toNatural } from "./places";
import { hinted, hintTape } from "./hint";
import { armSpans, Limits } from "./limits";
import { chosen, held, readAt_m, said } from "./state";
import { tapeStep } from "./steps";
import { addTape, choose, step as move, takeOut } from "./tapes";

/** What comes back now, and its price: above the buttons that are pressed less. */
function Effect(): JSX.Element {
  return <div class="tape-bar-effect"><ReturnBrief /><Price /></div>;
}

function OfTape({ tape, now }: { tape: number; now: PlanView }): JSX.Element {
  const { bays } = now.document.plan;
  const natural_m = held.value?.tape === tape ? held.value.natural_m : tapeNatural(bays, tape);
  const step = tapeStep();
  return (
    <>
      <p class="tape-bar-words" tabIndex={-1}>
        <strong>Tape {tape}</strong> at {text(natural_m, "length")} ({armSpans(natural_m)}).
        {said.value === "" && <> Loops beside it {text(bays[tape - 1]?.drop_m ?? null, "small length")} and {text(bays[tape]?.drop_m ?? null, "small length")}.</>}
      </p>
      {said.value === "" && <Limits bays={[tape, tape + 1]} now={now} />}
      <button type="button" class="button strong tape-bar-out" onClick={() => void takeOutHere(tape)}>Take this tape out</button>
      <Effect />
      <div class="tape-bar-buttons">
        <button type="button" class="button" onClick={() => move(tape, -step.metres)}>{step.words} nearer</button>
        <button type="button" class="button" onClick={() => move(tape, step.metres)}>{step.words} farther</button>
        <button type="button" class="button" disabled={tape <= 1} onClick={() => choose(tape - 1)}>Go to tape {Math.max(1, tape - 1)}</button>
        <button type="button" class="button" disabled={tape >= bays.length - 1} onClick={() => choose(tape + 1)}>Go to tape {Math.min(bays.length - 1, tape + 1)}</button>
      </div>
    </>
  );
}

function OfBay({ number, now }: { number: number; now: PlanView }): JSX.Element {
  const { bays } = now.document.plan;
  const bay = bays[number - 1];
  if (!bay) return <p class="tape-bar-words">That bay is no longer there.</p>;
  const from = tapeNatural(bays, number - 1);
  const here_m = toNatural(bays, readAt_m.value);
  const inside = here_m > from && here_m < bay.running_length_m;
  return (
    <>
      <p class="tape-bar-words" tabIndex={-1}>
        <strong>Bay {number}</strong>, {text(from, "length")} to {text(bay.running_length_m, "length")} ({armSpans(bay.main_natural_m)}):
        loop {text(bay.drop_m, "small length")}, ankle margin {text(bay.ankle_margin_m, "small length")}.
      </p>
      {said.value === "" && <Limits bays={[number]} now={now} />}
      <Effect />
      <div class="tape-bar-buttons">
        <button type="button" class="button" onClick={() => void addTape((from + bay.running_length_m) / 2)}>Add a tape in the middle</button>
        {inside && <button type="button" class="button" onClick={() => void addTape(here_m)}>Add a tape at {text(here_m, "length")}</button>}
        {number > 1 && <button type="button" class="button" onClick={() => choose(number - 1)}>Go to tape {number - 1}</button>}
        {number < bays.length && <button type="button" class="button" onClick={() => choose(number)}>Go to tape {number}</button>}
      </div>
    </>
  );
}

/** The button that was pressed is gone with its tape: the words in its place take the focus, so that keys go on from there. */
async function takeOutHere(tape: number): Promise<void> {
  await takeOut(tape);
  requestAnimationFrame(() => {
    if (document.activeElement === document.body) document.querySelector<HTMLElement>(".tape-bar-words")?.focus({ preventScroll: true });
  });
}

/** The bar under the picture; what the last change did stands above its buttons. */
export function TapeBar(): JSX.Element | null {
  const now = view.value;
  if (!now) return null;
  const what = chosen.value;
  const gone = what?.kind === "tape" && what.tape >= now.document.plan.bays.length;
  const bays = what === null || gone ? [] : what.kind === "bay" ? [what.bay] : [what.tape, what.tape + 1];
  return (
    <div class="tape-bar">
      <div role="status">
        {said.value !== "" && <p class="tape-bar-said">{said.value}</p>}
        {said.value !== "" && <Limits bays={bays} now={now} />}
      </div>
      {(what === null || gone) && (
        <>
          <p class="tape-bar-words">
            {hinted.value
              ? `Start here: tap tape ${hintTape}, the one with the ring, then “Take this tape out”: see what comes back then, and what a fall does.`
              : "Tap a tape to move it or take it out. Tap a loop to add a tape there."}
          </p>
          <Effect />
        </>
      )}
      {what?.kind === "tape" && !gone && <OfTape tape={what.tape} now={now} />}
      {what?.kind === "bay" && <OfBay number={what.bay} now={now} />}
    </div>
  );
}
