// Strips with a walker at each place in turn: tension of the main, and what is free over the ground.
import type { JSX } from "preact";
import { line } from "d3-shape";
import type { WalkerPlace } from "../engine/api";
import { SectionLink } from "../frame/section";
import { view } from "../state/rig";
import { text } from "../words/format";
import { Why } from "../words/why";
import { across, margin, plotWidth } from "./scales";
import { LimitBelow, plot, Strip, upright, type Upright } from "./strip";
import { readAt_m } from "./state";

type Value = (place: WalkerPlace) => number | null;

function curve(places: readonly WalkerPlace[], value: Value, axis: Upright): string {
  return line<WalkerPlace>()
    .defined((place) => value(place) !== null)
    .x((place) => across.value(place.position_m))
    .y((place) => axis.y(value(place) ?? 0))
    .digits(1)([...places]) ?? "";
}

/** Between the two computed places beside it. */
function at(places: readonly WalkerPlace[], value: Value, at_m: number): number | null {
  const after = places.findIndex((place) => place.position_m >= at_m);
  const right = places[after];
  const left = places[after - 1] ?? right;
  if (!right || !left) return null;
  const [a, b] = [value(left), value(right)];
  if (a === null || b === null) return null;
  const wide = right.position_m - left.position_m;
  return wide > 0 ? a + ((at_m - left.position_m) / wide) * (b - a) : b;
}

/** While a hand drags, the quick plan has walkers in the middle of bays only. */
const coarse = (): string => (view.value?.whole === false ? ", of places between tapes only" : "");

const finite = (places: readonly WalkerPlace[], value: Value): number[] => places.map(value).filter((one): one is number => one !== null);

export function TensionStrip(): JSX.Element | null {
  const plan = view.value?.document.plan;
  if (!plan || plan.walker.length === 0) return null;
  const value: Value = (place) => place.tension_max_N;
  const all = finite(plan.walker, value);
  const standing = Math.max(plan.standing.tension_near_N, plan.standing.tension_far_N);
  const axis = upright("force", Math.min(standing, ...all), Math.max(standing, ...all));
  return (
    <Strip
      id="tension" title="Tension under a walker" why={<Why of="tension" />} axis={axis} read={text(at(plan.walker, value, readAt_m.value), "force")}
      spoken={`Greatest tension of the main with a walker at each place, up to ${text(Math.max(...all), "force")}${coarse()}. Nobody on the line: ${text(standing, "force")}.`}
    >
      <line class="strip-standing" x1={margin.left} x2={margin.left + plotWidth.value} y1={axis.y(standing)} y2={axis.y(standing)} />
      <text class="strip-words strip-words-mid" x={margin.left + plotWidth.value / 2} y={axis.y(standing) - 4}>nobody on it</text>
      <path class="strip-line" d={curve(plan.walker, value, axis)} />
    </Strip>
  );
}

/** Where a fall reaches the ground anyway, the reserve is not asked for. */
function Zones({ zone_m, gap_m }: { zone_m: number; gap_m: number }): JSX.Element {
  const bottom = plot.height;
  const x0 = across.value(0);
  const x1 = across.value(gap_m);
  const a = Math.min(across.value(zone_m), x1);
  const b = Math.max(across.value(gap_m - zone_m), x0);
  return (
    <>
      <rect class="strip-zone" x={x0} y={plot.above} width={Math.max(0, a - x0)} height={bottom} />
      <rect class="strip-zone" x={b} y={plot.above} width={Math.max(0, x1 - b)} height={bottom} />
    </>
  );
}

export function GroundStrip(): JSX.Element | null {
  const now = view.value;
  if (!now) return null;
  const { walker } = now.document.plan;
  const hang: Value = (place) => place.hang_clearance_m;
  const whole: Value = (place) => place.line_clearance_m;
  const all = [...finite(walker, hang), ...finite(walker, whole)];
  if (all.length === 0) {
    return <p class="strip-none">Ground clearance: no ground is given in the rig file, so it is not known.</p>;
  }
  const { reserve_m, anchor_zone_m, gap_m } = now.picture;
  const axis = upright("length", Math.min(0, ...all), Math.max(reserve_m, ...all));
  const read = (value: Value): string => text(at(walker, value, readAt_m.value), "length");
  const least_m = Math.min(...finite(walker, hang));
  const spoken =
    `Height over the ground with a walker at each place. Hanging still on the leash: at least ${text(least_m, "length")}${coarse()}; a fall goes lower. ` +
    `Reserve: ${text(reserve_m, "length")}, outside of the first and last ${text(anchor_zone_m, "length")}.`;
  return (
    <>
      <Strip
        id="ground" title="Ground clearance" why={<Why of="clearance" />} axis={axis}
        read={<><Key kind="line" /> hanging still on the leash {read(hang)} <Key kind="dashes" /> line {read(whole)}</>}
        spoken={spoken}
      >
        <Zones zone_m={anchor_zone_m} gap_m={gap_m} />
        <LimitBelow id="ground" axis={axis} limit={reserve_m} words="within the reserve" />
        <path class="strip-line" d={curve(walker, hang, axis)} />
        <path class="strip-line strip-line-dashes" d={curve(walker, whole, axis)} />
      </Strip>
      <p class="strip-note">A fall goes lower than a body that hangs still: see <SectionLink to="fall">Let it fall</SectionLink>.</p>
    </>
  );
}

/** A piece of the line itself before its words: what it looks like, not what colour it has. */
function Key({ kind }: { kind: "line" | "dashes" }): JSX.Element {
  return (
    <svg class="strip-key" width="26" height="10" aria-hidden="true">
      <line class={`strip-line${kind === "dashes" ? " strip-line-dashes" : ""}`} x1="1" x2="25" y1="5" y2="5" />
    </svg>
  );
}
