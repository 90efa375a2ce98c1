// The pages of the printed sheet, kept up with the rig from the first time that somebody looks at them.
import { batch, computed, effect, signal } from "@preact/signals";
import type { RigFiles, Units } from "../engine/api";
import { Engine } from "../engine/client";
import { files, settled } from "../state/rig";
import { units } from "../state/units";

interface Pages {
  of: RigFiles;
  units: Units;
  date: string;
  /** Each page as an address that an image can show. */
  addresses: string[];
  /** Each page as an SVG document. */
  svgs: string[];
}

const made = signal<Pages | null>(null);
const wanted = signal(false);
/** Why there are none, in words. */
export const sheetTrouble = signal("");
/** The pages made last, be they of the rig as it stands or not. */
export const lastPages = computed(() => made.value);
/** The pages of the rig as it stands; null while there are none. */
export const pages = computed(() => {
  const last = made.value;
  return last && last.of === files.value && last.units === units.value && last.date === today() ? last : null;
});

const engine = new Engine();
const restAfter = 300; // [ms] the sheet need not follow every step of the hand
let timer: ReturnType<typeof setTimeout> | undefined;

/** The date here, as 2026-05-31. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

async function make(): Promise<void> {
  const asked = { files: files.value, units: units.value, date: today() };
  if (engine.busy) engine.stop();
  const answer = await engine.call("sheet", asked);
  if (!engine.busy) engine.stop(); // its memory is better used by what moves
  if (asked.files !== files.value || asked.units !== units.value) return;
  batch(() => {
    for (const address of made.value?.addresses ?? []) URL.revokeObjectURL(address);
    sheetTrouble.value = answer.ok ? "" : answer.words;
    const svgs = answer.ok ? answer.value : [];
    const addresses = svgs.map((svg) => URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })));
    made.value = answer.ok ? { of: asked.files, units: asked.units, date: asked.date, svgs, addresses } : null;
  });
}

/** From now on there is a sheet. */
export function wantSheet(): void {
  wanted.value = true;
}

/** Makes the sheet anew whenever the rig has come to rest. Called once. */
export function followSheet(): void {
  effect(() => {
    void files.value;
    void units.value;
    clearTimeout(timer);
    if (wanted.value && settled.value && !pages.value) timer = setTimeout(() => void make(), restAfter);
  });
  window.addEventListener("beforeprint", () => {
    // A page that lay open over midnight: the print itself cannot wait, the next one has the date.
    if (wanted.value && settled.value && made.value?.date !== today()) void make();
  });
}
