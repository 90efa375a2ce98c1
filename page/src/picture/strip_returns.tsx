// What comes back of a shake at each of the strip's places: this rig, the same line evenly taped, and the rig before.
import type { JSX } from "preact";
import { line, symbol, symbolCircle, symbolSquare, symbolTriangle, type SymbolType } from "d3-shape";
import { before, returns, returnsTrouble, shaking, type LineReturns } from "../state/returns";
import { text } from "../words/format";
import { Why } from "../words/why";
import { nothingShaken, returnsStale, stoppedByHand } from "./follow_returns";
import { across } from "./scales";
import { plot, Strip, upright, type Upright } from "./strip";
import { gap_m, readAt_m } from "./state";

interface Shown {
  key: "rig" | "even" | "before";
  words: string;
  shape: SymbolType;
  of: LineReturns;
}
interface Mark {
  place: number;
  mean: number;
}

const markArea = 60; // [px2]
/** Places where all shakes are done: the fast ones come first and give back more, so that a mean of a few alarms. */
const marksOf = (of: LineReturns): Mark[] =>
  of.places.flatMap(({ place, mean, done, all }) => (mean === null || done < all ? [] : [{ place, mean }]));

function lines(): Shown[] {
  const now = returns.value;
  if (!now) return [];
  const all: Shown[] = [
    { key: "even", words: "evenly taped", shape: symbolSquare, of: now.even },
    { key: "rig", words: "this rig", shape: symbolCircle, of: now.rig },
  ];
  if (before.value) all.unshift({ key: "before", words: "before", shape: symbolTriangle, of: before.value.rig });
  return all.filter(({ of }) => marksOf(of).length > 0);
}

/** At the shaken place nearest to the cursor. */
function nearest(marks: readonly Mark[]): Mark | undefined {
  const share = readAt_m.value / gap_m.value;
  return [...marks].sort((a, b) => Math.abs(a.place - share) - Math.abs(b.place - share))[0];
}

function Line({ one, axis }: { one: Shown; axis: Upright }): JSX.Element {
  const marks = marksOf(one.of);
  const x = (mark: Mark): number => across.value(mark.place * gap_m.value);
  const path = line<Mark>().x(x).y((mark) => axis.y(mark.mean)).digits(1)(marks) ?? "";
  const shape = symbol(one.shape, markArea)() ?? "";
  return (
    <g class={`strip-return strip-return-${one.key}`}>
      <path class="strip-return-line" d={path} />
      {marks.map((mark) => (
        <path
          key={mark.place} class="strip-return-mark" d={shape}
          transform={`translate(${x(mark).toFixed(1)},${axis.y(mark.mean).toFixed(1)})`}
        />
      ))}
    </g>
  );
}

/** @param at the place that is read off; undefined: nothing is shaken there yet */
function Key({ one, at }: { one: Shown; at: Mark | undefined }): JSX.Element {
  const mark = marksOf(one.of).find(({ place }) => place === at?.place);
  return (
    <span class="strip-return-key">
      <svg class={`strip-key strip-return-${one.key}`} width="34" height="12" aria-hidden="true">
        <line class="strip-return-line" x1="0" x2="34" y1="6" y2="6" />
        <path class="strip-return-mark" d={symbol(one.shape, markArea * 0.8)() ?? ""} transform="translate(17,6)" />
      </svg>
      {one.words} {mark ? text(mark.mean, "return") : "not yet"}
    </span>
  );
}

/** How far the shakes are, or why there are none. */
function progressWords(): string {
  if (shaking.value) return `Being computed: shake ${shaking.value.done} of ${shaking.value.all}.`;
  if (nothingShaken.value) return "";
  if (returnsStale.value) return "Of an earlier state of the rig.";
  return returnsTrouble.value;
}

const labelApart = 11; // baselines of two labels [px]
const label: Record<Shown["key"], string> = { rig: "rig", even: "even", before: "before" };

/** What each line is, behind its last mark, one below the other where lines end alike. */
function Labels({ all, axis }: { all: readonly Shown[]; axis: Upright }): JSX.Element {
  const ends = all.flatMap((one) => {
    const last = marksOf(one.of).at(-1);
    return last ? [{ key: one.key, x: across.value(last.place * gap_m.value) + 9, y: axis.y(last.mean) + 4 }] : [];
  });
  ends.sort((a, b) => a.y - b.y);
  ends.forEach((end, i) => {
    const above = ends[i - 1];
    if (above) end.y = Math.max(end.y, above.y + labelApart);
  });
  const over = Math.max(0, (ends.at(-1)?.y ?? 0) - (plot.above + plot.height + plot.below - 2));
  return <>{ends.map(({ key, x, y }) => <text key={key} class="strip-words" x={x} y={y - over}>{label[key]}</text>)}</>;
}

const leastTop = 0.1; // the drawing goes at least so high, as a share

/** Its room is the same while shakes run and after: what stands below it stays where it is. */
export function ReturnStrip(): JSX.Element {
  const all = lines();
  const note = progressWords();
  const ended = !shaking.value && (stoppedByHand.value || returnsTrouble.value !== "");
  if (all.length === 0 && ended) return <p class="strip-none">What comes back of a shake: {note || "not shaken yet."}</p>;
  const most = Math.max(leastTop, ...all.flatMap(({ of }) => marksOf(of).map(({ mean }) => mean)));
  const axis = upright("share", 0, most);
  const at = nearest(all.flatMap(({ of }) => marksOf(of)));
  const spoken = all.map(({ words, of }) => `${words}: ${marksOf(of).map(({ place, mean }) => `${text(mean, "return")} at ${text(place, "return")} of the gap`).join(", ")}`);
  return (
    <>
      <Strip
        id="return" title="Comes back of a shake" why={<Why of="return" />} axis={axis} spoken={spoken.join(". ") || "Being computed."}
        read={<>{at && `shaken at ${text(at.place * gap_m.value, "length")}:`}{[...all].reverse().map((one) => <Key key={one.key} one={one} at={at} />)}</>}
      >
        {all.map((one) => <Line key={one.key} one={one} axis={axis} />)}
        <Labels all={all} axis={axis} />
      </Strip>
      <p class="strip-note">{note || "\u00a0"}</p>
    </>
  );
}
