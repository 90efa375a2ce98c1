// The whole gap: ground, anchors, edges, line and walker. When one looks closer it shows where, and moves the stretch.
import type { JSX } from "preact";
import { computed } from "@preact/signals";
import { area, line } from "d3-shape";
import { view } from "../state/rig";
import { walkerAt } from "../state/walker";
import { text } from "../words/format";
import { Figure, figureHeight } from "./figure";
import { pointing } from "./pointer";
import { acrossWhole, easyFactor, factorWords, margin, plotWidth, wide, width } from "./scales";
import { heightAt, shownMain } from "./shapes";
import { closer, gap_m, look, lookAt, readOff } from "./state";

const body_m = 1.75; // height of the figure where the drawing is large enough for it
const leastFigure = 18; // [px]
const spare = 8; // [px]
const tall = { wide: 170, narrow: 44 } as const; // most of the heights, by the width of the page [px]

type Point = [number, number];

function pairs(points: readonly number[]): Point[] {
  return Array.from({ length: Math.floor(points.length / 2) }, (_, i): Point => [points[2 * i]!, points[2 * i + 1]!]);
}

const ground = computed(() => pairs(view.value?.picture.ground ?? []));

/** Scale of heights: pixels a metre, the factor against lengths, and where the near anchor lies. */
const heights = computed(() => {
  const rise_m = view.value?.picture.rise_m ?? 0;
  const lowest_m = Math.min(0, rise_m, ...ground.value.map(([, z]) => z), -1);
  const highest_m = Math.max(0, rise_m, ...ground.value.map(([, z]) => z));
  const most = wide.value ? tall.wide : tall.narrow;
  const along = plotWidth.value / gap_m.value;
  const factor = Math.min(1, easyFactor(most / ((highest_m - lowest_m) * along)));
  const perMetre = along * factor;
  const figure = Math.max(leastFigure, body_m * perMetre);
  const top = figure + spare + highest_m * perMetre;
  return { factor, perMetre, figure, top, height: top - lowest_m * perMetre + spare };
});

const down = (z_m: number): number => heights.value.top - z_m * heights.value.perMetre;

const groundPath = computed(() => {
  const { height } = heights.value;
  const shape = area<Point>().x(([at]) => acrossWhole.value(at)).y0(height).y1(([, z]) => down(z)).digits(1);
  return shape(ground.value) ?? "";
});
const overviewMain = computed(() => line<Point>().x(([at]) => acrossWhole.value(at)).y(([, z]) => down(z)).digits(1)(pairs(shownMain.value)) ?? "");

/** The height over the ground that must stay free, between the anchor zones. */
const reservePath = computed(() => {
  const picture = view.value?.picture;
  if (!picture || ground.value.length === 0) return "";
  const from = picture.anchor_zone_m;
  const to = picture.gap_m - picture.anchor_zone_m;
  if (from >= to) return "";
  const inner = ground.value.filter(([at]) => at > from && at < to);
  const ends = (at: number): Point => [at, heightAt(picture.ground, at)];
  const raised = [ends(from), ...inner, ends(to)].map(([at, z]): Point => [acrossWhole.value(at), down(z + picture.reserve_m)]);
  return line<Point>().digits(1)(raised) ?? "";
});

const hand = pointing({
  down: (x) => seek(x),
  drag: (x) => seek(x),
  up: () => undefined,
  cancel: () => undefined,
});
function seek(x: number): void {
  const at_m = acrossWhole.value.invert(x);
  readOff(at_m);
  const { from, to } = look.value;
  if (closer.value) lookAt(to - from, at_m / gap_m.value);
}

function Edges(): JSX.Element {
  const picture = view.value?.picture;
  const z = (at_m: number): number => (picture && picture.ground.length > 0 ? heightAt(picture.ground, at_m) : 0);
  const mark = (at_m: number, key: string): JSX.Element => (
    <path key={key} class="overview-edge" d={`M${acrossWhole.value(at_m).toFixed(1)},${(down(z(at_m)) - 9).toFixed(1)} v9`} />
  );
  return (
    <>
      {picture?.edge_near_m != null && mark(picture.edge_near_m, "near")}
      {picture?.edge_far_m != null && mark(picture.gap_m - picture.edge_far_m, "far")}
    </>
  );
}

function Walker(): JSX.Element | null {
  const at_m = walkerAt.value;
  if (at_m === null) return null;
  const y = down(heightAt(shownMain.value, at_m));
  return (
    <g transform={`translate(${acrossWhole.value(at_m).toFixed(1)},${y.toFixed(1)})`}>
      <Figure scale={heights.value.figure / figureHeight} />
    </g>
  );
}

function Frame(): JSX.Element | null {
  if (!closer.value) return null;
  const x0 = acrossWhole.value(look.value.from * gap_m.value);
  const x1 = acrossWhole.value(look.value.to * gap_m.value);
  return <rect class="overview-frame" x={x0} y={1} width={x1 - x0} height={heights.value.height - 2} rx={3} />;
}

function Hatch(): JSX.Element {
  return (
    <pattern id="overview-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <line x1="0" x2="0" y1="0" y2="7" class="overview-hatch" />
    </pattern>
  );
}

function Anchor({ at_m, z_m, way }: { at_m: number; z_m: number; way: 1 | -1 }): JSX.Element {
  return <path class="loops-anchor" d={`M${acrossWhole.value(at_m)},${down(z_m)} l${9 * way},-6 v12 Z`} />;
}

/** The drawing with what it shows in words. */
export function Overview(): JSX.Element | null {
  const picture = view.value?.picture;
  if (!picture) return null;
  const { height, factor } = heights.value;
  const bare = ground.value.length === 0;
  const name = `The gap of ${text(picture.gap_m, "length")} from the side${bare ? "" : ", with the ground under it"}`;
  return (
    <figure class="overview">
      <svg class="overview-drawing" width={width.value} height={height} role="img" aria-label={name} {...hand}>
        <Hatch />
        <path class="overview-ground" d={groundPath.value} />
        <path class="overview-ground-hatch" d={groundPath.value} fill="url(#overview-hatch)" />
        <path class="overview-reserve" d={reservePath.value} />
        <Edges />
        <Anchor at_m={0} z_m={0} way={-1} />
        <Anchor at_m={picture.gap_m} z_m={picture.rise_m} way={1} />
        <path class="overview-main" d={overviewMain.value} />
        <Walker />
        <Frame />
        <text class="overview-end" x={margin.left} y={12}>near</text>
        <text class="overview-end overview-end-far" x={margin.left + plotWidth.value} y={12}>far</text>
      </svg>
      <figcaption>
        Heights {factorWords(factor)}{bare ? ". " : `; dashed: reserve ${text(picture.reserve_m, "length")}.`}
        {bare && "No ground is given: with ground under [site] in the rig file it is drawn here."}
        {closer.value && " The frame is what is drawn below; drag it along."}
      </figcaption>
    </figure>
  );
}
