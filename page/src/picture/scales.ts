// From metres to pixels. Across: true lengths. Up: as drawn, with a factor that the picture states in words.
import { computed, signal } from "@preact/signals";
import { scaleLinear } from "d3-scale";
import { view } from "../state/rig";
import { walkerShare } from "../state/walker";
import { shown } from "../words/format";
import { gap_m, look } from "./state";

/** Width of every drawing [px]. */
export const width = signal(0);
/** Beside the plots: axes left, half a label right [px]. */
export const margin = { left: 46, right: 16 } as const;

export const plotWidth = computed(() => Math.max(1, width.value - margin.left - margin.right));

/** Gap axis to pixels, over the stretch that is looked at. */
export const across = computed(() => {
  const { from, to } = look.value;
  return scaleLinear().domain([from * gap_m.value, to * gap_m.value]).range([margin.left, margin.left + plotWidth.value]);
});
/** The same over the whole gap. */
export const acrossWhole = computed(() => scaleLinear().domain([0, gap_m.value]).range([margin.left, margin.left + plotWidth.value]));

const pixelsPerMetre = computed(() => plotWidth.value / (gap_m.value * (look.value.to - look.value.from)));

/** Ticks of a gap axis in the chosen units: where [m] and what is written. */
export function ticks(from_m: number, to_m: number, count: number): { at_m: number; words: string }[] {
  const { factor, unit } = shown("length");
  const scale = scaleLinear().domain([from_m * factor, to_m * factor]);
  const write = scale.tickFormat(count);
  const all = scale.ticks(count).map((value) => ({ at_m: value / factor, words: write(value) }));
  return all.map((tick, i) => (i === all.length - 1 ? { ...tick, words: `${tick.words}\u00a0${unit}` } : tick));
}

/** Factors that are easy to say. */
const factors = [
  0.05, 0.1, 0.2, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 150, 200, 250, 300, 400, 500,
] as const;
const parts: Record<number, string> = { 0.05: "1/20", 0.1: "1/10", 0.2: "1/5", 0.25: "1/4", 0.5: "1/2", 0.75: "3/4" };

/** @param fill the factor that would just fill the room */
export function easyFactor(fill: number): number {
  return [...factors].reverse().find((one) => one <= fill) ?? factors[0];
}

/** How heights are drawn against lengths, for behind what is drawn. */
export function factorWords(factor: number): string {
  if (factor === 1) return "true to scale";
  const part = parts[factor];
  return part ? `shrunk to ${part}` : `enlarged ${factor} times`;
}

/** A factor that changes only when what is drawn no longer fits or fills less than a third: no jumps under a moving hand. */
class Steady {
  private last = 0;
  at(fill: number): number {
    const spare = 0.85;
    const least = 0.33;
    if (this.last > fill || this.last < fill * least) this.last = easyFactor(fill * spare);
    return this.last;
  }
}

const wideFrom = 700; // [px]
export const wide = computed(() => width.value >= wideFrom);

/** Rooms of the picture of line and loops, from above [px]: pins down to the straight line between the anchors, sag, loops. */
export const room = computed(() => ({ chord: wide.value ? 76 : 66, sag: wide.value ? 84 : 56, loops: wide.value ? 130 : 92, below: 8 }));
/** Without a walker the room for the sag is not needed. */
export const loopsHeight = computed(() => {
  const { chord, sag, loops, below } = room.value;
  const standing = (view.value?.document.plan.standing.sag_m ?? 0) * sagPixels.value;
  return Math.ceil(chord + (walkerShare.value === null ? Math.min(sag, standing) : sag) + loops + below);
});

const steadySag = new Steady();
const steadyLoops = new Steady();

/** How much larger than lengths the sag of the main is drawn: the greatest under a walker fits. */
export const sagFactor = computed(() => {
  const plan = view.value?.document.plan;
  const most_m = Math.max(0.01, plan?.standing.sag_m ?? 0, ...(plan?.walker ?? []).map((place) => place.sag_m));
  return steadySag.at(room.value.sag / (most_m * pixelsPerMetre.value));
});
/** The same for the loops below the main. */
export const loopFactor = computed(() => {
  const bays = view.value?.document.plan.bays ?? [];
  const most_m = Math.max(0.01, ...bays.map((bay) => bay.drop_m));
  return steadyLoops.at(room.value.loops / (most_m * pixelsPerMetre.value));
});
export const sagPixels = computed(() => sagFactor.value * pixelsPerMetre.value);
export const loopPixels = computed(() => loopFactor.value * pixelsPerMetre.value);

/** A length for a scale bar of about so many pixels [m], in easy numbers of the chosen units. */
export function barLength(pixels: number, perMetre: number): number {
  const { factor } = shown("small length");
  const wanted = (pixels / perMetre) * factor;
  const decade = 10 ** Math.floor(Math.log10(wanted));
  const step = [5, 2, 1].find((one) => one * decade <= wanted) ?? 1;
  return (step * decade) / factor;
}
