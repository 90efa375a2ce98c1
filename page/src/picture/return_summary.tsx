// One sentence of big type: how much of a shake comes back, against before and against even spacing.
import type { JSX } from "preact";
import "./return_summary.css";
import { before, returns, returnsTrouble, shaking, toldPlaces, type PlaceReturn } from "../state/returns";
import { settled } from "../state/rig";
import { text } from "../words/format";
import { Why } from "../words/why";
import { Price } from "./price";
import { returnsStale, shakeAgain, stoppedByHand, stopShaking } from "./follow_returns";

const noDifference = 3; // points: single shakes scatter by as much

/** How this rig does against the one before, in words. */
function against(now: number, then: number): string {
  const points = Math.round(100 * now) - Math.round(100 * then);
  if (Math.abs(points) < noDifference) return "As before: less than three points is no difference.";
  return points < 0 ? `Calmer than before by ${-points} points.` : `Livelier than before by ${points} points.`;
}

/** Means of the rig as it stands and as it was before; null: not there yet. */
function known(): { now: number | null; earlier: number | null } {
  const rig = returns.value?.rig.mean ?? null;
  const then = before.value?.rig.mean ?? null;
  // What was complete before a change becomes `before` only when the shakes of the changed rig start.
  return returnsStale.value ? { now: null, earlier: rig ?? then } : { now: rig, earlier: then };
}

/** Why there is no number yet. */
function waitingWords(): string {
  if (stoppedByHand.value) return "stopped";
  return settled.value || shaking.value ? "being computed" : "waiting for the line";
}

/** The places of the rig that its number is the mean of. */
function told(): PlaceReturn[] {
  return returns.value?.rig.places.filter(({ place }) => (toldPlaces as readonly number[]).includes(place)) ?? [];
}

/** How far the shakes are that the number of the rig is the mean of. */
function shakeWords(): string {
  const places = returnsStale.value ? [] : told();
  const done = places.reduce((sum, place) => sum + place.done, 0);
  return shaking.value && places.length > 0 ? `being computed, ${done} of ${places.reduce((sum, place) => sum + place.all, 0)}` : waitingWords();
}

function Big(): JSX.Element {
  const { now, earlier } = known();
  const even = returnsStale.value ? null : returns.value?.even.mean ?? null;
  return (
    <p class="return-summary-big">
      {now === null ? (
        <>What comes back of a sideways shake: {shakeWords()}. </>
      ) : (
        <><strong>{text(now, "return")}</strong> of a sideways shake comes back. </>
      )}
      {earlier !== null && <><span class="return-summary-other">Before: {text(earlier, "return")}.</span>{" "}</>}
      {even !== null && <span class="return-summary-other">Evenly taped, with as many tapes: {text(even, "return")}.</span>}
    </p>
  );
}

/** What has changed, and at what price. */
function Against(): JSX.Element {
  const { now, earlier } = known();
  return (
    <div class="return-summary-against">
      {now !== null && earlier !== null && <p><strong>{against(now, earlier)}</strong></p>}
      <Price />
    </div>
  );
}

/** Of how many shakes the number of the rig is the mean: those without a number are left out. */
function shakesWords(): string {
  const all = told().reduce((sum, place) => sum + place.all, 0);
  const counted = told().reduce((sum, place) => sum + place.counted, 0);
  return known().now === null || counted === all ? `${all} shakes` : `the ${counted} of ${all} shakes that have a number`;
}

function Small(): JSX.Element {
  return (
    <p class="return-summary-small">
      Told is how much of the swing is still there two round trips later: the mean of {shakesWords()}, 0.5 to 4 Hz, at three places. Less is calmer.
      {returnsTrouble.value !== "" && <> Some shakes have no number: {returnsTrouble.value}</>}
    </p>
  );
}

function Progress(): JSX.Element {
  const now = shaking.value;
  if (!now && returnsStale.value && !stoppedByHand.value) {
    return <p class="return-summary-progress">It is shaken as soon as the line has settled.</p>;
  }
  if (!now) {
    const words = stoppedByHand.value ? "Stopped. " : "";
    return <p class="return-summary-progress">{words}<button type="button" class="button" onClick={shakeAgain}>Shake again</button></p>;
  }
  return (
    <p class="return-summary-progress">
      <progress max={now.all} value={now.done} aria-label="Shakes computed" /> shake {now.done} of {now.all}
      <button type="button" class="button" onClick={stopShaking}>Stop</button>
    </p>
  );
}

/** For those who listen: once, when the number of the rig is there. */
function spoken(): string {
  const rig = returns.value?.rig.mean ?? null;
  if (returnsStale.value || rig === null) return "";
  const then = before.value?.rig.mean ?? null;
  return `${text(rig, "return")} of a sideways shake comes back.${then === null ? "" : ` Before: ${text(then, "return")}.`}`;
}

/** The same in half a line, to stand beside what changes it. */
export function ReturnBrief(): JSX.Element {
  const { now, earlier } = known();
  return (
    <p class="return-brief">
      Return of a shake: <strong>{now === null ? shakeWords() : text(now, "return")}</strong>
      {earlier !== null && <>, before {text(earlier, "return")}</>}
    </p>
  );
}

export function ReturnSummary(): JSX.Element {
  return (
    <section class="return-summary" aria-labelledby="return-summary-title">
      <h2 id="return-summary-title">How calm is it? <Why of="return" /></h2>
      <Big />
      <Against />
      <Progress />
      <Small />
      <p class="visually-hidden" role="status">{spoken()}</p>
    </section>
  );
}
