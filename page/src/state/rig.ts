// The rig: the texts of its files are all there is; every change is another text. Undo and redo walk through them.
import { batch, computed, signal } from "@preact/signals";
import type { FileFault, PlanView, RigFiles, TapeEdit, Units, ValueEdit } from "../engine/api";
import { Engine } from "../engine/client";
import { latest } from "./latest";
import { units } from "./units";

/** For what must follow the hand. Long work has engines of its own (state/returns.ts, state/work.ts). */
export const hand = new Engine();

interface Kept {
  files: RigFiles;
  /** What led to it, for the label of undo. */
  after: string;
}

const empty: RigFiles = { name: "rig.toml", text: "", sides: [] };
const history = signal<{ past: Kept[]; now: Kept; future: Kept[] }>({ past: [], now: { files: empty, after: "" }, future: [] });

/** The files as they stand. */
export const files = computed(() => history.value.now.files);
/** While a hand drags: what the line would be. Null: nobody drags. */
export const draft = signal<RigFiles | null>(null);
/** What is shown: the draft while there is one. */
export const shownFiles = computed(() => draft.value ?? files.value);

/** The last plan that could be computed; null before the first. */
export const view = signal<PlanView | null>(null);
/** What `view` is of. */
const viewOf = signal<{ files: RigFiles; units: Units } | null>(null);
/** What is wrong with the files as they stand; then `view` is of an earlier text. */
export const faults = signal<readonly FileFault[]>([]);
/** Why there is no plan, in words; empty when there is one. */
export const trouble = signal("");
/** True where the whole plan, checks included, is that of the text shown. */
export const settled = computed(
  () => viewOf.value?.files === shownFiles.value && viewOf.value.units === units.value && view.value?.whole === true && trouble.value === "",
);
/** The files that were saved or opened last. */
const saved = signal<RigFiles>(empty);
/** Names of the files that changed since. */
export const unsaved = computed((): readonly string[] => {
  const { name, text, sides } = files.value;
  const keptSide = (side: string): string | undefined => saved.value.sides.find((other) => other.name === side)?.text;
  const changed = sides.filter((side) => side.text !== keptSide(side.name)).map((side) => side.name);
  return text === saved.value.text ? changed : [name, ...changed];
});

export const undoLabel = computed(() => (history.value.past.length > 0 ? history.value.now.after : null));
export const redoLabel = computed(() => history.value.future[0]?.after ?? null);

const longestHistory = 200;

/** Counts the rigs that were opened: answers about an earlier one come too late. */
export const opened = signal(0);

/** Starts with other files: nothing to undo. */
export function open(other: RigFiles): void {
  batch(() => {
    ++opened.value;
    history.value = { past: [], now: { files: other, after: "" }, future: [] };
    saved.value = other;
    draft.value = null;
    // What is shown must never be another rig than the one that is open.
    view.value = null;
    viewOf.value = null;
    faults.value = [];
    trouble.value = "";
  });
}

/** @param name of the file that was saved */
export function markSaved(name: string): void {
  const { name: rig, text, sides } = files.value;
  if (name === rig) saved.value = { ...saved.value, text };
  const side = sides.find((each) => each.name === name);
  if (side) saved.value = { ...saved.value, sides: [...saved.value.sides.filter((each) => each.name !== name), side] };
}

/** Takes a step. @param after what led to it, as it stands after "Undo": "taking out tape 4" */
export function change(changed: RigFiles, after: string): void {
  const { past, now } = history.value;
  batch(() => {
    draft.value = null;
    if (changed === now.files) return;
    history.value = { past: [...past, now].slice(-longestHistory), now: { files: changed, after }, future: [] };
  });
}

export function undo(): void {
  const { past, now, future } = history.value;
  const before = past[past.length - 1];
  if (before) history.value = { past: past.slice(0, -1), now: before, future: [now, ...future] };
}

export function redo(): void {
  const { past, now, future } = history.value;
  const [next, ...rest] = future;
  if (next) history.value = { past: [...past, now], now: next, future: rest };
}

/**
 * Edits the text: tapes or one value.
 * @returns what went wrong in words; empty when it was done
 */
export async function edit(what: TapeEdit | ValueEdit, after: string): Promise<string> {
  const from = files.value;
  const answer = await hand.call("edit", { files: from, edit: what });
  if (!answer.ok) return answer.words;
  if (files.value !== from) return "The rig was changed meanwhile. Try again.";
  change({ ...from, text: answer.value }, after);
  return "";
}

/** An edit that is shown but not taken yet; the last one asked for wins. @returns as edit() */
export async function tryEdit(what: TapeEdit): Promise<string> {
  const from = files.value;
  const asked = ++lastTry;
  const answer = await hand.call("edit", { files: from, edit: what });
  if (asked !== lastTry || files.value !== from) return "";
  if (!answer.ok) return answer.words;
  draft.value = { ...from, text: answer.value };
  return "";
}
let lastTry = 0;

/** Takes the draft as a step, or leaves all as it was. */
export function endTry(after: string | null): void {
  ++lastTry;
  const shown = draft.value;
  if (after !== null && shown) change(shown, after);
  else draft.value = null;
}

// The plan follows what is shown: the quick one at once, the whole one when the hand rests.
let rest: ReturnType<typeof setTimeout> | undefined;
const restAfter = 200; // [ms]; sooner a whole plan would hold up a hand that only pauses

const soon = latest(() => plan(draft.value === null && view.value === null));
const settle = latest(() => (settled.value ? Promise.resolve() : plan(true)));

/** Keeps the plan up with what is shown. Called by an effect on `shownFiles` and `units`. */
export async function follow(): Promise<void> {
  clearTimeout(rest);
  await soon();
  clearTimeout(rest);
  if (!settled.value) rest = setTimeout(() => void settle(), draft.value ? restAfter : 0);
}

async function plan(whole: boolean): Promise<void> {
  const of = { files: shownFiles.value, units: units.value };
  if (of.files === empty) return; // nothing is open yet
  const rig = opened.value;
  const answer = await hand.call("plan", { ...of, whole });
  // A hand that drags is ahead of its plans; of another rig, or in place of a newer whole plan, an old one is wrong.
  if (rig !== opened.value || (whole && of.files !== shownFiles.value)) return;
  batch(() => {
    if (answer.ok) {
      view.value = answer.value;
      viewOf.value = of;
      faults.value = [];
      trouble.value = "";
    } else if (of.files === shownFiles.value) {
      faults.value = answer.faults;
      trouble.value = answer.words;
    }
  });
}
