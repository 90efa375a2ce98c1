// The pages of the printed sheet, made ahead whenever the rig rests: a print that the browser begins cannot wait for them.
import { batch, computed, effect, signal } from "@preact/signals";
import type { RigFiles, Units } from "../engine/api";
import { Engine } from "../engine/client";
import { draft, files, opened, settled } from "../state/rig";
import { units } from "../state/units";

interface Pages {
  of: RigFiles;
  /** Counts the rigs that were opened: of which one. */
  rig: number;
  units: Units;
  date: string;
  /** Each page as an address that an image can show. */
  addresses: string[];
  /** Each page as an SVG document. */
  svgs: string[];
}

const made = signal<Pages | null>(null);
const hurried = signal(false);
const failed = signal({ of: null as RigFiles | null, words: "" });
/** Why there are none of the rig as it stands, in words. */
export const sheetTrouble = computed(() => (failed.value.of === files.value ? failed.value.words : ""));
/** The pages of the rig that is open made last, be they of its text as it stands or not. */
export const lastPages = computed(() => (made.value?.rig === opened.value ? made.value : null));
/** The pages of the rig as it stands; null while there are none. */
export const pages = computed(() => {
  const last = made.value;
  return last && last.of === files.value && last.units === units.value && last.date === today() ? last : null;
});

const engine = new Engine();
/** The sheet need not follow every step of the hand, and less so where nobody looks at it [ms]. */
const restAfter = { lookedAt: 300, ahead: 2000 } as const;
let timer: ReturnType<typeof setTimeout> | undefined;

/** The date here, as 2026-05-31. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

async function make(): Promise<void> {
  const asked = { files: files.value, units: units.value, date: today() };
  const rig = opened.value;
  if (engine.busy) engine.stop();
  const answer = await engine.call("sheet", asked);
  if (!engine.busy) engine.stop(); // its memory is better used by what moves
  if (asked.files !== files.value || asked.units !== units.value) return;
  batch(() => {
    for (const address of made.value?.addresses ?? []) URL.revokeObjectURL(address);
    failed.value = { of: asked.files, words: answer.ok ? "" : answer.words };
    const svgs = answer.ok ? answer.value : [];
    const addresses = svgs.map((svg) => URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })));
    made.value = answer.ok ? { of: asked.files, rig, units: asked.units, date: asked.date, svgs, addresses } : null;
  });
}

/** From now on somebody looks at the sheet. */
export function hurrySheet(): void {
  hurried.value = true;
}

/** Makes the sheet anew whenever the rig has come to rest. Called once. */
export function followSheet(): void {
  effect(() => {
    void files.value;
    void units.value;
    const rest = hurried.value ? restAfter.lookedAt : restAfter.ahead;
    clearTimeout(timer);
    if (settled.value && draft.value === null && !pages.value) timer = setTimeout(() => void make(), rest);
  });
  window.addEventListener("beforeprint", () => {
    // A page that lay open over midnight: the print itself cannot wait, the next one has the date.
    if (settled.value && made.value?.date !== today()) void make();
  });
}
