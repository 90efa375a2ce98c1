// The tapes as numbered pins over the main: each a slider for the keyboard, all together one band for the finger.
import type { JSX } from "preact";
import { computed, signal } from "@preact/signals";
import { view } from "../state/rig";
import { text } from "../words/format";
import { armSpans } from "./limits";
import { tapeAt, tapeNatural } from "./places";
import { pointing } from "./pointer";
import { across } from "./scales";
import { tapesInSight, yOnMain } from "./shapes";
import { chosen, clamp, held } from "./state";
import { arrow, tapeFastKey, tapeKey } from "./steps";
import { choose, drop, hold, letGo, moveHeld, step, takeOut } from "./tapes";

const head = { y: 19, radius: 12, dotY: 38, dot: 4 } as const; // [px]
const touch = 44; // smallest side of what is touched [px]
const belowMain = 8; // the tape itself can be taken hold of, too [px]

const placeOf = (tape: number, at_m: number): number => (held.value?.tape === tape ? held.value.at_m : at_m);

/** The tape whose pin is nearest to a place across the drawing [px]. */
function nearestTape(x: number): number | null {
  let best: number | null = null;
  let least = touch / 2;
  for (const { tape, at_m } of tapesInSight.value) {
    const away = Math.abs(across.value(at_m) - x);
    if (away <= least) [best, least] = [tape, away];
  }
  return best;
}

/** A finger needs no frame around what it points at; browsers that do not know the second wish draw one. */
const quietly = { preventScroll: true, focusVisible: false } as FocusOptions;

function focusPin(tape: number, how: FocusOptions): void {
  document.querySelector<SVGElement>(`.tape-pin[data-tape="${tape}"]`)?.focus(how);
}

let grabbed: { tape: number; offset: number } | null = null;
const band = pointing({
  down: (x) => {
    const tape = nearestTape(x);
    const at_m = tape === null ? undefined : tapeAt(view.value?.document.plan.bays ?? [], tape);
    grabbed = tape === null || at_m === undefined ? null : { tape, offset: x - across.value(at_m) };
    if (grabbed) focusPin(grabbed.tape, quietly);
  },
  drag: (x) => {
    if (!grabbed) return;
    if (held.value?.tape !== grabbed.tape) hold(grabbed.tape);
    moveHeld(across.value.invert(x - grabbed.offset));
  },
  up: (_x, dragged) => {
    if (dragged) void drop();
    else if (grabbed) choose(grabbed.tape);
  },
  cancel: (dragged) => {
    if (dragged) letGo();
  },
});

/** Keys that go elsewhere have let go of the tape; a pointer has not. */
function onBlur(): void {
  if (held.value && held.value.tape !== grabbed?.tape) void drop();
}

function onKey(tape: number, event: KeyboardEvent): void {
  const way = arrow(event.key);
  if (way !== 0) {
    grabbed = null;
    step(tape, way * (event.shiftKey ? tapeFastKey() : tapeKey()).metres);
  } else if (event.key === "PageUp" || event.key === "PageDown") {
    const next = tape + (event.key === "PageUp" ? 1 : -1);
    if (next < 1 || next >= (view.value?.document.plan.bays.length ?? 0)) return event.preventDefault();
    choose(next);
    requestAnimationFrame(() => focusPin(next, { preventScroll: true }));
  } else if (event.key === "Delete" || event.key === "Backspace") {
    void takeOut(tape);
  } else if (event.key === "Escape" && held.value) {
    letGo();
  } else if (event.key === "Enter" || event.key === " ") {
    choose(tape);
  } else {
    return;
  }
  event.preventDefault();
}

/** Numbers are shown of all tapes, of every second, third, fifth ...: as many as have room. */
const strides = [1, 2, 3, 5, 10, 20, 50, 100] as const;
const numberRoom = 2 * head.radius + 2; // [px]
const mostLeftOut = 0.2; // of a stride, where single tapes stand close together

/** The pins with their number. */
const numbered = computed((): ReadonlySet<number> => {
  const pins = tapesInSight.value.map(({ tape, at_m }) => ({ tape, x: across.value(at_m) }));
  for (const stride of strides) {
    const wanted = pins.filter(({ tape }) => tape % stride === 0);
    let last = -Infinity;
    const kept = wanted.filter(({ x }) => {
      if (x - last < numberRoom) return false;
      last = x;
      return true;
    });
    if (kept.length >= (1 - mostLeftOut) * wanted.length) return new Set(kept.map(({ tape }) => tape));
  }
  return new Set();
});
/** True where tapes stand too close together for all of their numbers. */
export const crowded = computed(() => numbered.value.size < tapesInSight.value.length);

/** A number that would peep out from behind the pin in hand. */
function hidden(tape: number): boolean {
  const mine = chosen.value?.kind === "tape" ? chosen.value.tape : null;
  const at_m = tapesInSight.value.find((pin) => pin.tape === mine)?.at_m;
  const other = tapesInSight.value.find((pin) => pin.tape === tape);
  if (!crowded.value || tape === mine || at_m === undefined || !other) return false;
  return Math.abs(across.value(other.at_m) - across.value(at_m)) < numberRoom;
}

/** Marks on the main do not touch each other, however close the tapes are [px]. */
function footWidth(pins: readonly { at_m: number }[]): number {
  const least = Math.min(...pins.slice(1).map((pin, i) => across.value(pin.at_m) - across.value(pins[i]!.at_m)));
  return clamp(least * 0.45, 1.5, 6);
}

interface PinProps {
  tape: number;
  at_m: number;
  /** Else only a dot below the row of numbers. */
  withNumber: boolean;
  footWide: number;
  /** Reached by the tab key; the others by page up and down. */
  tabbed: boolean;
}

function Pin({ tape, at_m, withNumber, footWide, tabbed }: PinProps): JSX.Element {
  const bays = view.value?.document.plan.bays ?? [];
  const now_m = placeOf(tape, at_m);
  const x = across.value(now_m);
  const y = yOnMain(now_m);
  const mine = chosen.value?.kind === "tape" && chosen.value.tape === tape;
  const natural_m = held.value?.tape === tape ? held.value.natural_m : tapeNatural(bays, tape);
  const words = `${text(natural_m, "length")} along the main, ${armSpans(natural_m)}`;
  return (
    <g
      class={`tape-pin${mine ? " tape-pin-mine" : ""}`} data-tape={tape} role="slider" aria-label={`Tape ${tape}`}
      aria-valuemin={round(tapeNatural(bays, tape - 1))} aria-valuemax={round(tapeNatural(bays, tape + 1))} aria-valuenow={round(natural_m)}
      aria-valuetext={words} aria-describedby="tape-pins-keys" tabindex={tabbed ? 0 : -1}
      onKeyDown={(event) => onKey(tape, event)} onBlur={onBlur} transform={`translate(${x.toFixed(1)},0)`}
    >
      <rect class="tape-pin-touch" x={-touch / 2} y={0} width={touch} height={y + belowMain} />
      <path class="tape-pin-stem" d={`M0,${withNumber ? head.y : head.dotY} V${y.toFixed(1)}`} />
      <rect class="tape-pin-foot" x={-footWide / 2} y={y - 4} width={footWide} height={9} />
      <circle class="tape-pin-head" cx={0} cy={withNumber ? head.y : head.dotY} r={withNumber ? head.radius : Math.min(head.dot, footWide)} />
      {withNumber && <text class="tape-pin-number" x={0} y={head.y + 4.5}>{tape}</text>}
    </g>
  );
}

const round = (natural_m: number): number => Math.round(natural_m * 100) / 100;

/** The head of the pin in hand again, over its neighbours: moving the pin itself up would take focus and pointer from it. */
function PinInHand(): JSX.Element | null {
  const tape = chosen.value?.kind === "tape" ? chosen.value.tape : null;
  const pin = tapesInSight.value.find((one) => one.tape === tape);
  if (!pin) return null;
  return (
    <g class="tape-pin-over" aria-hidden="true" transform={`translate(${across.value(placeOf(pin.tape, pin.at_m)).toFixed(1)},0)`}>
      <circle class="tape-pin-head" cx={0} cy={head.y} r={head.radius + 2} />
      <text class="tape-pin-number" x={0} y={head.y + 4.5}>{pin.tape}</text>
    </g>
  );
}

/** All tapes in sight. */
export function TapePins(): JSX.Element {
  const pins = tapesInSight.value;
  const footWide = footWidth(pins);
  const mine = chosen.value?.kind === "tape" ? chosen.value.tape : null;
  const first = pins.some(({ tape }) => tape === mine) ? mine : pins[0]?.tape;
  return (
    <g class="tape-pins" {...band} onMouseDown={(event) => event.preventDefault()}>
      {pins.map(({ tape, at_m }) => (
        <Pin key={tape} tape={tape} at_m={at_m} tabbed={tape === first} withNumber={numbered.value.has(tape) && !hidden(tape)} footWide={footWide} />
      ))}
      <PinInHand />
    </g>
  );
}

/** True once keys were pressed that move through the page: there is a keyboard, then. */
const keysUsed = signal(false);
window.addEventListener("keydown", (event) => {
  if (event.key === "Tab" || event.key.startsWith("Arrow")) keysUsed.value = true;
});

/** The keys, said once for all pins; to those who only listen, always. */
export function PinKeys(): JSX.Element {
  return (
    <p id="tape-pins-keys" class={`line-view-keys${keysUsed.value ? " line-view-keys-used" : ""}`}>
      Keys on a tape: arrows move it by {tapeKey().words}, with shift by {tapeFastKey().words}; page up and page down go to the next tape;
      delete takes it out; escape leaves it where it was.
    </p>
  );
}
