// Strips with one value a bay: drop and ankle margin.
import type { JSX } from "preact";
import { view } from "../state/rig";
import type { Bay } from "../engine/api";
import { text } from "../words/format";
import { Why } from "../words/why";
import { bayAt } from "./places";
import { across } from "./scales";
import { LimitBelow, Strip, upright, type Upright } from "./strip";
import { chosen, readAt_m } from "./state";

const narrow = 8; // bars that touch [px]

function Bars({ bays, value, axis, base, short }: {
  bays: readonly Bay[];
  value: (bay: Bay) => number;
  axis: Upright;
  base: number;
  /** Drawn as wanting. */
  short: (bay: Bay) => boolean;
}): JSX.Element {
  const mine = chosen.value?.kind === "bay" ? chosen.value.bay : 0;
  const from = axis.y(base);
  return (
    <>
      {bays.map((bay) => {
        const between = across.value(bay.to_m) - across.value(bay.from_m) > narrow ? 1 : 0;
        const x0 = across.value(bay.from_m) + between;
        const x1 = across.value(bay.to_m) - between;
        const to = axis.y(value(bay));
        const look = `strip-bar${short(bay) ? " strip-bar-short" : ""}${bay.number === mine ? " strip-bar-mine" : ""}`;
        return <path key={bay.number} class={look} d={`M${x0.toFixed(1)},${from.toFixed(1)} V${to.toFixed(1)} H${x1.toFixed(1)} V${from.toFixed(1)}`} />;
      })}
    </>
  );
}

const readBay = (bay: Bay | undefined, value: (bay: Bay) => number): string =>
  bay ? `bay ${bay.number}: ${text(value(bay), "small length")}` : "";
const range = (values: readonly number[]): string =>
  `from ${text(Math.min(...values), "small length")} to ${text(Math.max(...values), "small length")}`;

export function DropStrip(): JSX.Element | null {
  const now = view.value;
  if (!now) return null;
  const { bays } = now.document.plan;
  const drops = bays.map((bay) => bay.drop_m);
  const limit = now.picture.least_drop_m;
  const axis = upright("small length", 0, Math.max(...drops, limit));
  return (
    <Strip
      id="drop" title="Loop drop" why={<Why of="drop" />} axis={axis} read={readBay(bayAt(bays, readAt_m.value), (bay) => bay.drop_m)}
      spoken={`Drop bay by bay, ${range(drops)}. Least wanted: ${text(limit, "small length")}.`}
    >
      <Bars bays={bays} value={(bay) => bay.drop_m} axis={axis} base={0} short={(bay) => bay.drop_m < limit} />
      <LimitBelow id="drop" axis={axis} limit={limit} words="too little" />
    </Strip>
  );
}

export function AnkleStrip(): JSX.Element | null {
  const now = view.value;
  if (!now) return null;
  const { bays } = now.document.plan;
  const margins = bays.map((bay) => bay.ankle_margin_m);
  const limit = now.picture.least_ankle_margin_m;
  const spare = 0.02; // so that the limit is not the edge of the drawing [m]
  const axis = upright("small length", Math.min(...margins, limit - spare), Math.max(...margins, limit + spare));
  return (
    <Strip
      id="ankle" title="Ankle margin" why={<Why of="ankle margin" />} axis={axis} read={readBay(bayAt(bays, readAt_m.value), (bay) => bay.ankle_margin_m)}
      spoken={`Ankle margin bay by bay, ${range(margins)}. Least wanted: ${text(limit, "small length")}.`}
    >
      <Bars bays={bays} value={(bay) => bay.ankle_margin_m} axis={axis} base={limit} short={(bay) => bay.ankle_margin_m < limit} />
      <LimitBelow id="ankle" axis={axis} limit={limit} words="backup at the ankles" />
    </Strip>
  );
}
