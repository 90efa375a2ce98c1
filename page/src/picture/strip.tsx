// One strip: a title with its unit, what it says at the place that is read off, and a small drawing on the common gap axis.
import type { ComponentChildren, JSX } from "preact";
import { scaleLinear } from "d3-scale";
import { shown, type Quantity } from "../words/format";
import { Cursor } from "./axis";
import { pointing } from "./pointer";
import { across, margin, plotWidth, width } from "./scales";
import { readOff } from "./state";

/** Height of the plot, and what is above and below it for labels [px]. */
export const plot = { height: 66, above: 8, below: 5 } as const;
const stripHeight = plot.above + plot.height + plot.below;

/** An axis of a strip: SI values to pixels, and ticks in the chosen units. */
export interface Upright {
  y: (value: number) => number;
  ticks: { y: number; words: string }[];
  unit: string;
}

/** @param from, to the least and the greatest value to be seen, SI */
export function upright(quantity: Quantity, from: number, to: number): Upright {
  const { factor, unit } = shown(quantity);
  const most = to > from ? to : from + 1;
  const scale = scaleLinear().domain([from * factor, most * factor]).nice(6).range([plot.above + plot.height, plot.above]);
  const write = scale.tickFormat(3);
  const ticks = scale.ticks(3).map((value) => ({ y: scale(value), words: write(value) }));
  return { y: (value) => scale(value * factor), ticks, unit };
}

interface StripProps {
  id: string;
  title: string;
  axis: Upright;
  /** What is read off at the cursor. */
  read: ComponentChildren;
  /** What the drawing shows, for those who do not see it. */
  spoken: string;
  /** Behind the title: a way to an explanation. */
  why?: ComponentChildren;
  children: ComponentChildren;
}

const hand = pointing({
  down: () => undefined,
  drag: (x) => readOff(across.value.invert(x)),
  up: (x) => readOff(across.value.invert(x)),
  cancel: () => undefined,
});

export function Strip({ id, title, axis, read, spoken, why, children }: StripProps): JSX.Element {
  const left = margin.left;
  const right = left + plotWidth.value;
  return (
    <section class="strip" aria-labelledby={`strip-${id}`}>
      <div class="strip-head">
        <h3 id={`strip-${id}`}>{title} <span class="strip-unit">[{axis.unit}]</span></h3>
        {why}
        <p class="strip-read">{read}</p>
      </div>
      <svg class="strip-drawing" width={width.value} height={stripHeight} role="img" aria-label={spoken} {...hand}>
        <clipPath id={`strip-clip-${id}`}>
          <rect x={left} y={0} width={plotWidth.value} height={stripHeight} />
        </clipPath>
        {axis.ticks.map(({ y, words }) => (
          <g key={words}>
            <line class="strip-tick" x1={left} x2={right} y1={y} y2={y} />
            <text class="strip-tick-words" x={left - 6} y={y + 4}>{words}</text>
          </g>
        ))}
        <g clip-path={`url(#strip-clip-${id})`}>{children}</g>
        <Cursor height={stripHeight} />
      </svg>
    </section>
  );
}

/** A limit with hatching on the side that is not wanted, and a word on it. */
export function LimitBelow({ id, axis, limit, words }: { id: string; axis: Upright; limit: number; words: string }): JSX.Element {
  const bottom = plot.above + plot.height;
  const y = Math.min(bottom, axis.y(limit));
  const left = margin.left;
  return (
    <>
      <pattern id={`strip-hatch-${id}`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line class="strip-hatch" x1="0" x2="0" y1="0" y2="6" />
      </pattern>
      <rect x={left} y={y} width={plotWidth.value} height={bottom - y} fill={`url(#strip-hatch-${id})`} />
      <line class="strip-limit" x1={left} x2={left + plotWidth.value} y1={y} y2={y} />
      <text class="strip-limit-words" x={left + 4} y={Math.min(bottom - 3, y + 12)}>{words}</text>
    </>
  );
}
