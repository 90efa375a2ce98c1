// From metres to points on the screen. A shaken line is far longer than it swings, so what lies across the line is drawn
// larger than what lies along it; a fall is drawn in true proportions.
import { coordinates, type Strand } from "./film_places";

/** From where a shaken line is seen. */
export type ViewFrom = "above" | "side" | "slanting";

/** A rectangle on the screen [px]. */
export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

export type ScreenPoint = readonly [x: number, y: number];
/** x along the gap, y to the left of it, z up [m]. */
export type Project = (x_m: number, y_m: number, z_m: number) => ScreenPoint;

/** The straight line from anchor to anchor that everything across is measured from. */
export interface Chord {
  gap_m: number;
  near_z_m: number;
  far_z_m: number;
}

/** What a view makes of a point beside the chord: how far up the screen, and how far along it, for each metre. */
const mix: Record<ViewFrom, { upOfSideways: number; upOfHeight: number; alongOfSideways: number }> = {
  above: { upOfSideways: 1, upOfHeight: 0, alongOfSideways: 0 },
  side: { upOfSideways: 0, upOfHeight: 1, alongOfSideways: 0 },
  slanting: { upOfSideways: 0.6, upOfHeight: 0.8, alongOfSideways: 0.15 },
};

/** How much of what lies across is drawn larger: steps that are easily said. */
const enlargements = [1, 2, 3, 5, 7, 10, 15, 20, 30, 50, 70, 100, 150, 200, 300, 500, 700, 1000];

const heightOver = (chord: Chord, x_m: number, z_m: number): number =>
  z_m - (chord.near_z_m + ((chord.far_z_m - chord.near_z_m) * x_m) / chord.gap_m);

/** How far up the screen a point lies, before it is enlarged [m]. */
function upOf(view: ViewFrom, chord: Chord, x_m: number, y_m: number, z_m: number): number {
  const { upOfSideways, upOfHeight } = mix[view];
  return upOfSideways * y_m + upOfHeight * heightOver(chord, x_m, z_m);
}

/** Lowest and highest point on the screen of strands in all their frames [m]; the chord itself is always within. */
export function spread(view: ViewFrom, chord: Chord, strands: readonly Strand[]): { low_m: number; high_m: number } {
  let low_m = 0;
  let high_m = 0;
  for (const { places_m } of strands) {
    for (let at = 0; at + 2 < places_m.length; at += coordinates) {
      const up = upOf(view, chord, places_m[at]!, places_m[at + 1]!, places_m[at + 2]!);
      if (up < low_m) low_m = up;
      if (up > high_m) high_m = up;
    }
  }
  return { low_m, high_m };
}

/**
 * How many times larger than along the line everything across it can be drawn.
 * @param spread_m from lowest to highest [m]
 * @param box where it must fit [px]
 */
export function enlargement(gap_m: number, spread_m: number, box: Box): number {
  const fits = spread_m > 0 ? (box.height * gap_m) / (box.width * spread_m) : 1;
  return enlargements.reduce((chosen, each) => (each <= fits ? each : chosen), 1);
}

/** Draws across the chord `times` larger than along it. @param range what must lie within the box [m] */
export function acrossProjection(view: ViewFrom, chord: Chord, box: Box, times: number, range: { low_m: number; high_m: number }): Project {
  const perMetre = box.width / chord.gap_m;
  const middle_m = (range.low_m + range.high_m) / 2;
  const { alongOfSideways } = mix[view];
  return (x_m, y_m, z_m) => [
    box.left + perMetre * (x_m + alongOfSideways * times * y_m),
    box.top + box.height / 2 - perMetre * times * (upOf(view, chord, x_m, y_m, z_m) - middle_m),
  ];
}

/** What is to be seen in true proportions [m]: from the side along the gap, or from the near anchor along the line. */
export interface Window {
  seen: "from the side" | "along the line";
  from_m: number;
  to_m: number;
  low_m: number;
  high_m: number;
}

/** Height that a window needs in true proportions at a width [px]. */
export function trueHeight(window: Window, width: number): number {
  return (width * (window.high_m - window.low_m)) / (window.to_m - window.from_m);
}

/** How far to the right on the screen a point lies [m]. Who looks along the line has the left of it on the left. */
const rightOf = (window: Window, x_m: number, y_m: number): number => (window.seen === "from the side" ? x_m : -y_m);

/** In true proportions: the window as large as the box lets it, in its middle. */
export function trueProjection(window: Window, box: Box): { project: Project; perMetre: number } {
  const wide_m = window.to_m - window.from_m;
  const high_m = window.high_m - window.low_m;
  const perMetre = Math.min(box.width / wide_m, box.height / high_m);
  const left = box.left + (box.width - perMetre * wide_m) / 2;
  const top = box.top + (box.height - perMetre * high_m) / 2;
  const project: Project = (x_m, y_m, z_m) => [
    left + perMetre * (rightOf(window, x_m, y_m) - window.from_m),
    top + perMetre * (window.high_m - z_m),
  ];
  return { project, perMetre };
}
