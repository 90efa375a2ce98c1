// Outlines for SVG of the main, the loops and the ground. The main is drawn against the straight line between the anchors,
// the loops against the main: two factors, or loops of a hand's width could not be seen on a long line.
import { computed } from "@preact/signals";
import { line } from "d3-shape";
import { view } from "../state/rig";
import { walkerView } from "../state/walker";
import { across, loopPixels, room, sagPixels } from "./scales";
import { look } from "./state";

type Point = [number, number];
const outline = line<Point>().digits(1);

/** Height of a line of x, z pairs over a place [m]; x must rise. Beyond its ends: that of the end. */
export function heightAt(points: readonly number[], at_m: number): number {
  let low = 0;
  let high = points.length / 2 - 1;
  if (high < 0) return 0;
  if (at_m <= points[0]!) return points[1]!;
  if (at_m >= points[2 * high]!) return points[2 * high + 1]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (points[2 * middle]! <= at_m) low = middle;
    else high = middle;
  }
  const [x0, z0, x1, z1] = [points[2 * low]!, points[2 * low + 1]!, points[2 * high]!, points[2 * high + 1]!];
  return x1 > x0 ? z0 + ((at_m - x0) / (x1 - x0)) * (z1 - z0) : z0;
}

/** Main and loops that are shown: under the walker when there is one. */
export const shownMain = computed(() => walkerView.value?.main ?? view.value?.picture.main ?? []);
const shownLoops = computed(() => walkerView.value?.loops ?? view.value?.picture.loops ?? []);

const risePerMetre = computed(() => {
  const picture = view.value?.picture;
  return picture ? picture.rise_m / picture.gap_m : 0;
});

/** Where a height of the main lies in the picture of line and loops [px]. */
function mainY(at_m: number, z_m: number): number {
  return room.value.chord - sagPixels.value * (z_m - risePerMetre.value * at_m);
}

/** Where the shown main lies over a place [px]. */
export function yOnMain(at_m: number): number {
  return mainY(at_m, heightAt(shownMain.value, at_m));
}

/** x, z pairs to pixels, those near the stretch that is looked at. */
function drawn(points: readonly number[], y: (at_m: number, z_m: number) => number): Point[] {
  const scale = across.value;
  const [from = 0, to = 0] = scale.domain();
  const spare = (to - from) / 10;
  const out: Point[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) {
    const at_m = points[i]!;
    if (at_m >= from - spare && at_m <= to + spare) out.push([scale(at_m), y(at_m, points[i + 1]!)]);
  }
  return out;
}

const mainOutline = (points: readonly number[]): string => outline(drawn(points, mainY)) ?? "";
function loopOutline(loop: readonly number[], main: readonly number[]): string {
  const perMetre = loopPixels.value;
  return outline(drawn(loop, (at_m, z_m) => {
    const onMain = heightAt(main, at_m);
    return mainY(at_m, onMain) - perMetre * (z_m - onMain);
  })) ?? "";
}

export const mainPath = computed(() => mainOutline(shownMain.value));
/** The line with nobody on it, while somebody is. */
export const standingPath = computed(() => (walkerView.value ? mainOutline(view.value?.picture.main ?? []) : ""));
export const loopPaths = computed(() => {
  const main = shownMain.value;
  return shownLoops.value.map((loop) => loopOutline(loop, main));
});
/** All loops in one. */
export const loopsPath = computed(() => loopPaths.value.join(""));

/** Tapes in the stretch that is looked at: number from 1 and place [m]. */
export const tapesInSight = computed(() => {
  const now = view.value;
  if (!now) return [];
  const { gap_m } = now.picture;
  const { bays } = now.document.plan;
  const { from, to } = look.value;
  const all = bays.slice(0, -1).map((bay) => ({ tape: bay.number, at_m: bay.to_m }));
  return all.filter(({ at_m }) => at_m >= from * gap_m - 1e-9 && at_m <= to * gap_m + 1e-9);
});
