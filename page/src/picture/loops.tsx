// The line itself: main, loops of the backup below it, tapes, and the walker on it.
import type { JSX } from "preact";
import { view } from "../state/rig";
import { walkerAt, walkerShare } from "../state/walker";
import { text } from "../words/format";
import { Cursor } from "./axis";
import { Figure, figureHeight } from "./figure";
import { hintTape, hinted } from "./hint";
import { Looking } from "./looking";
import { tapeAt } from "./places";
import { pointing } from "./pointer";
import { across, barLength, factorWords, loopFactor, loopPixels, loopsHeight, margin, plotWidth, room, sagFactor, wide, width } from "./scales";
import { loopPaths, loopsPath, mainPath, standingPath, yOnMain } from "./shapes";
import { chosen, clamp, closer, gap_m, look, lookAt, readOff } from "./state";
import { arrow, walkerFastStep, walkerStep } from "./steps";
import { crowded, TapePins } from "./tape_pins";
import { chooseBay } from "./tapes";

let lookStart = { from: 0, to: 1 };
/** The background: a tap chooses the bay, a drag moves along the line when one looks closer. */
const background = pointing({
  down: () => {
    lookStart = look.value;
  },
  drag: (x, from) => {
    const share = lookStart.to - lookStart.from;
    lookAt(share, (lookStart.from + lookStart.to) / 2 - ((x - from) / plotWidth.value) * share);
  },
  up: (x, dragged) => {
    if (!dragged) chooseBay(across.value.invert(x));
  },
  cancel: () => undefined,
});

/** @param at_m anywhere; the walker stays on the line [m] */
export function putWalker(at_m: number): void {
  walkerShare.value = clamp(at_m / gap_m.value, 0, 1);
  readOff(at_m);
}

let walkerOffset = 0;
const walkerHand = pointing({
  down: (x, event) => {
    walkerOffset = x - across.value(walkerAt.value ?? 0);
    (event.currentTarget as SVGElement).focus({ preventScroll: true });
  },
  drag: (x) => putWalker(across.value.invert(x - walkerOffset)),
  up: () => undefined,
  cancel: () => undefined,
});

function onWalkerKey(event: KeyboardEvent): void {
  const way = arrow(event.key);
  if (way !== 0) putWalker((walkerAt.value ?? 0) + way * (event.shiftKey ? walkerFastStep() : walkerStep()).metres);
  else if (event.key === "Delete" || event.key === "Backspace") walkerShare.value = null;
  else return;
  event.preventDefault();
}

function Walker(): JSX.Element | null {
  const at_m = walkerAt.value;
  if (at_m === null) return null;
  const scale = wide.value ? 1.3 : 1;
  const half = 26; // half of what is touched: the arms and a little [px]
  const high = figureHeight * scale;
  return (
    <g
      class="loops-walker" role="slider" tabindex={0} aria-label="Walker" aria-valuemin={0} aria-valuemax={Math.round(gap_m.value * 100) / 100}
      aria-valuenow={Math.round(at_m * 100) / 100} aria-valuetext={`${text(at_m, "length")} across the gap`} {...walkerHand} onKeyDown={onWalkerKey}
      transform={`translate(${across.value(at_m).toFixed(1)},${(yOnMain(at_m) - 2).toFixed(1)})`}
    >
      <rect class="loops-touch" x={-half} y={-high - 4} width={2 * half} height={high + 8} />
      <Figure scale={scale} />
    </g>
  );
}

/** A ring around the pin that the hint under the picture speaks of. */
function Beckon(): JSX.Element | null {
  const at_m = tapeAt(view.value?.document.plan.bays ?? [], hintTape);
  if (!hinted.value || chosen.value !== null || at_m === undefined || closer.value) return null;
  return <circle class="loops-beckon" cx={across.value(at_m)} cy={19} r={15} />;
}

/** How large a hand's width of loop is drawn. */
function ScaleBar(): JSX.Element {
  const length_m = barLength(room.value.loops * 0.6, loopPixels.value);
  const high = length_m * loopPixels.value;
  const bottom = loopsHeight.value - room.value.below;
  return (
    <g class="loops-bar" aria-hidden="true">
      <path d={`M${margin.left - 6},${bottom - high} h-8 m4,0 v${high} m-4,0 h8`} />
      <text x={margin.left - 3} y={bottom - high - 6}>{text(length_m, "small length")}</text>
    </g>
  );
}

function Anchors(): JSX.Element {
  const { from, to } = look.value;
  const gap = gap_m.value;
  return (
    <>
      {from <= 0 && <path class="loops-anchor" d={`M${across.value(0)},${room.value.chord} l-12,-9 v18 Z`} />}
      {to >= 1 && <path class="loops-anchor" d={`M${across.value(gap)},${room.value.chord} l12,-9 v18 Z`} />}
    </>
  );
}

function Lines(): JSX.Element {
  const bay = chosen.value?.kind === "bay" ? chosen.value.bay : null;
  return (
    <g clip-path="url(#loops-clip)">
      {standingPath.value !== "" && <path class="loops-standing" d={standingPath.value} />}
      <path class="loops-backup" d={loopsPath.value} />
      {bay !== null && <path class="loops-chosen" d={loopPaths.value[bay - 1] ?? ""} />}
      <path class="loops-main" d={mainPath.value} />
    </g>
  );
}

/** The drawing and, in words, how much larger than lengths heights are drawn. */
export function Loops(): JSX.Element {
  const plan = view.value?.document.plan;
  const tapes = (plan?.bays.length ?? 1) - 1;
  return (
    <figure class="loops">
      <svg class="loops-drawing" width={width.value} height={loopsHeight.value} {...background} role="group" aria-label={`The line with ${tapes} tapes`}>
        <clipPath id="loops-clip">
          <rect x={margin.left} y={0} width={plotWidth.value} height={loopsHeight.value} />
        </clipPath>
        <Cursor height={loopsHeight.value} />
        <Anchors />
        <Lines />
        <ScaleBar />
        <TapePins />
        <Beckon />
        <Walker />
      </svg>
      <figcaption>
        Sag {factorWords(sagFactor.value)}, loops {factorWords(loopFactor.value)}.{crowded.value && " Look closer to tell tapes apart."}
      </figcaption>
      <Looking />
    </figure>
  );
}
