// The axis along the gap, and the cursor where the strips are read off.
import type { JSX } from "preact";
import { text } from "../words/format";
import { pointing } from "./pointer";
import { across, plotWidth, ticks, width } from "./scales";
import { gap_m, look, readAt_m, readOff } from "./state";
import { arrow, walkerFastStep, walkerStep } from "./steps";

const pixelsPerTick = 64;
const axisHeight = 44;

/** A light line down through a drawing at the place that is read off. */
export function Cursor({ height }: { height: number }): JSX.Element | null {
  const x = across.value(readAt_m.value);
  const [from = 0, to = 0] = across.value.range();
  if (x < from - 0.5 || x > to + 0.5) return null;
  return <line class="line-view-cursor" x1={x} x2={x} y1={0} y2={height} />;
}

const grip = pointing({
  down: (x) => readOff(across.value.invert(x)),
  drag: (x) => readOff(across.value.invert(x)),
  up: () => undefined,
  cancel: () => undefined,
});

function onKey(event: KeyboardEvent): void {
  const way = arrow(event.key);
  if (way === 0) return;
  readOff(readAt_m.value + way * (event.shiftKey ? walkerFastStep() : walkerStep()).metres);
  event.preventDefault();
}

/** Ticks in the chosen units, and the grip of the cursor: a slider. */
export function GapAxis(): JSX.Element {
  const { from, to } = look.value;
  const marks = ticks(from * gap_m.value, to * gap_m.value, Math.max(2, Math.floor(plotWidth.value / pixelsPerTick)));
  const x = across.value(readAt_m.value);
  const [left = 0, right = 0] = across.value.range();
  const inSight = x >= left - 0.5 && x <= right + 0.5;
  return (
    <svg class="line-view-axis" width={width.value} height={axisHeight} {...grip}>
      <line class="line-view-rule" x1={left} x2={right} y1={0.5} y2={0.5} />
      {marks.map(({ at_m, words }) => (
        <g key={words} transform={`translate(${across.value(at_m).toFixed(1)},0)`} aria-hidden="true">
          <line class="line-view-rule" y1={0} y2={5} />
          <text class="line-view-tick" y={17}>{words}</text>
        </g>
      ))}
      <g
        class="line-view-grip" role="slider" tabindex={0} aria-label="Place that is read off" aria-valuemin={0}
        aria-valuemax={round(gap_m.value)} aria-valuenow={round(readAt_m.value)} aria-valuetext={`${text(readAt_m.value, "length")} across the gap`}
        onKeyDown={onKey} transform={`translate(${x.toFixed(1)},0)`} visibility={inSight ? "visible" : "hidden"}
      >
        <rect class="line-view-grip-touch" x={-22} y={0} width={44} height={axisHeight} />
        <path class="line-view-grip-mark" d="M0,24 L8,33 L8,42 L-8,42 L-8,33 Z" />
      </g>
    </svg>
  );
}

const round = (at_m: number): number => Math.round(at_m * 100) / 100;
