// The walker: on and off, a step nearer and farther, and what the line is like under them.
import type { JSX } from "preact";
import { walkerAt, walkerShare, walkerTrouble, walkerView } from "../state/walker";
import { text } from "../words/format";
import { putWalker } from "./loops";
import { readShare } from "./state";
import { walkerStep } from "./steps";

/** What the line is like, with the place that it is of: a hand may be ahead of it. */
function numbers(at_m: number): string {
  const now = walkerView.value;
  if (!now) return `${text(at_m, "length")} across the gap: ${walkerTrouble.value || "being computed"}`;
  const { place } = now;
  const ground = place.hang_clearance_m === null ? "ground not given" : `free below, hanging still on the leash, ${text(place.hang_clearance_m, "length")}`;
  const zone = place.in_anchor_zone ? " (near the anchor a fall ends on the ground)" : "";
  const ankle = `${text(now.ankle_margin_m, "small length")}${place.at_tape ? " (at a tape)" : ""}`;
  return `${text(place.position_m, "length")} across the gap: sag ${text(place.sag_m, "length")}, greatest tension ${text(place.tension_max_N, "force")}, ankle margin ${ankle}, ${ground}${zone}`;
}

/** What the line is like under the walker, directly under the picture. */
export function WalkerWords(): JSX.Element | null {
  const at_m = walkerAt.value;
  return at_m === null ? null : <p class="walker-bar-words"><strong>Walker</strong> at {numbers(at_m)}.</p>;
}

export function WalkerBar(): JSX.Element {
  const at_m = walkerAt.value;
  if (at_m === null) {
    return (
      <div class="walker-bar">
        <button type="button" class="button" onClick={() => (walkerShare.value = readShare.value)}>Put a walker on</button>
      </div>
    );
  }
  const step = walkerStep();
  return (
    <div class="walker-bar walker-bar-on">
      <div class="walker-bar-buttons">
        <button type="button" class="button" aria-label={`Walker ${step.words} nearer`} onClick={() => putWalker(at_m - step.metres)}>{step.words} nearer</button>
        <button type="button" class="button" aria-label={`Walker ${step.words} farther`} onClick={() => putWalker(at_m + step.metres)}>{step.words} farther</button>
        <button type="button" class="button" onClick={() => (walkerShare.value = null)}>Take the walker off</button>
      </div>
    </div>
  );
}
