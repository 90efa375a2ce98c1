// What a chart over time is made of, without a page: scales, ticks and lines.
import { scaleLinear, type ScaleLinear } from "d3-scale";
import { line } from "d3-shape";

/** Values at equal times from the start of the film. */
export interface Series {
  name: string;
  values: ArrayLike<number>;
  /** This layout: thick and solid. The one compared with: dashed. */
  look: "this" | "other";
}

/** Room around the plot for its writing [px]; left and right are those of the pictures of the line, so that they line up. */
export const plotMargin = { left: 46, right: 12, top: 22, bottom: 34 } as const;

export interface ChartShape {
  x: ScaleLinear<number, number>;
  y: ScaleLinear<number, number>;
  xTicks: number[];
  yTicks: number[];
  /** By series: an SVG path. */
  paths: string[];
}

interface Asked {
  width: number;
  height: number;
  length_s: number;
  frame_s: number;
  series: readonly Series[];
  /** The axis goes at least so high. */
  atLeast: number;
}

/** Greatest finite value of all series. */
function greatestOf(series: readonly Series[]): number {
  let greatest = 0;
  for (const { values } of series) {
    for (let index = 0; index < values.length; ++index) {
      const value = values[index]!;
      if (Number.isFinite(value) && value > greatest) greatest = value;
    }
  }
  return greatest;
}

/** About one tick for so many points of the page [px]. */
const tickEvery = { x: 70, y: 35 };

export function chartShape({ width, height, length_s, frame_s, series, atLeast }: Asked): ChartShape {
  const right = Math.max(plotMargin.left + 1, width - plotMargin.right);
  const x = scaleLinear([0, length_s], [plotMargin.left, right]);
  const y = scaleLinear([0, Math.max(atLeast, greatestOf(series))], [height - plotMargin.bottom, plotMargin.top]).nice(4);
  const path = line<number>()
    .defined((value) => Number.isFinite(value))
    .x((_, index) => x(index * frame_s))
    .y((value) => y(value));
  return {
    x,
    y,
    xTicks: x.ticks(Math.max(2, Math.floor(width / tickEvery.x))),
    yTicks: y.ticks(Math.max(2, Math.floor(height / tickEvery.y))),
    paths: series.map(({ values }) => path(Array.from(values)) ?? ""),
  };
}
