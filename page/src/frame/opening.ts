// Opening, adding and saving files. What needs an answer from people is a signal that a dialog shows (frame/dialogs.tsx).
import { signal } from "@preact/signals";
import type { RigFiles } from "../engine/api";
import { change, faults, files, hand, markSaved, open, unsaved } from "../state/rig";
import { kindOf, missingNames, sorted, withSide, type CsvKind, type NamedText } from "./file_kinds";

/** What people are asked just now; null: nothing. */
export type Question =
  | { kind: "open" }
  | { kind: "unsaved"; next: RigFiles }
  | { kind: "save" }
  | { kind: "csv"; csv: NamedText; looksLike: CsvKind };
export const question = signal<Question | null>(null);

/** What was done or refused last, in words; an object each time, so that the same can be told twice. */
export const told = signal({ words: "" });

/** Tells it. */
export const tell = (words: string): void => void (told.value = { words });

/** CSV files that wait for an answer. */
let waiting: NamedText[] = [];

/** Opens other files, asking first while changes are not saved. */
export function openAsked(next: RigFiles): void {
  if (unsaved.value.length > 0) question.value = { kind: "unsaved", next };
  else openNow(next);
}

/** Opens other files; what was not saved is gone. */
export function openNow(next: RigFiles): void {
  question.value = null;
  open(next);
  tell(`Opened ${next.name}.`);
}

const largestFile = 1_000_000; // bytes; the engine takes no more either

/** Says so of the first that is. */
function areTooLarge(list: readonly File[]): boolean {
  const tooLarge = list.find((file) => file.size > largestFile);
  if (tooLarge) tell(`${tooLarge.name} is larger than 1 MB: it is no file of a rig.`);
  return tooLarge !== undefined;
}

/** Takes files that were chosen or dropped: a rig file with its CSV files, or CSV files for the rig that is open. */
export async function take(list: Iterable<File>): Promise<void> {
  const all = [...list];
  if (areTooLarge(all)) return;
  const chosen = await Promise.all(all.map(async (file) => ({ name: file.name, text: await file.text() })));
  const { rig, csvs } = sorted(chosen);
  if (rig) openAsked({ ...rig, sides: csvs });
  else if (csvs.length > 0) takeSides(csvs);
  else tell("There was no file to open.");
}

/** Side files that the rig names are taken at once; of each of the others it is asked what it is for. */
function takeSides(csvs: readonly NamedText[]): void {
  const known = [...missingNames(faults.value), ...files.value.sides.map((side) => side.name)];
  // The rig file may name a folder too: "data/ground.csv".
  const nameOf = (csv: NamedText): string | undefined => known.find((name) => baseName(name) === csv.name);
  const named = csvs.flatMap((csv) => {
    const name = nameOf(csv);
    return name === undefined ? [] : [{ name, text: csv.text }];
  });
  takeNamed(named);
  for (const side of named) markSaved(side.name); // they come from where they are kept
  waiting = csvs.filter((csv) => nameOf(csv) === undefined);
  askNext();
}

function takeNamed(named: readonly NamedText[]): void {
  if (named.length === 0) return;
  const names = named.map((side) => side.name).join(", ");
  change(named.reduce(withSide, files.value), `taking in ${names}`);
  tell(`Taken in: ${names}.`);
}

/** Takes a file as the side file that the rig names so, whatever its own name is. */
export async function takeAs(name: string, file: File): Promise<void> {
  if (areTooLarge([file])) return;
  takeNamed([{ name, text: await file.text() }]);
  if (file.name === baseName(name)) markSaved(name);
}

/** Asks about the next CSV file that waits, if one does. */
export function askNext(): void {
  const csv = waiting.shift();
  question.value = csv ? { kind: "csv", csv, looksLike: kindOf(csv) } : null;
}

const bareKey = /^[A-Za-z0-9_-]+$/;
const keyOf = (webbing: string): string => `webbing.${bareKey.test(webbing) ? webbing : JSON.stringify(webbing)}.stretch_csv`;

/**
 * Uses a CSV file as the ground, or as the curve of a webbing.
 * @returns what went wrong in words; empty when it was done
 */
export async function useCsv(csv: NamedText, webbing: string | null): Promise<string> {
  const from = files.value;
  const withFile = withSide(from, csv);
  const key = webbing === null ? "site.ground" : keyOf(webbing);
  const answer = await hand.call("edit", { files: withFile, edit: { kind: "value", key, toml: JSON.stringify(csv.name) } });
  if (!answer.ok) return answer.words;
  if (files.value !== from) return "The rig was changed meanwhile. Try again.";
  const use = webbing === null ? "as the ground" : `as the curve of ${webbing}`;
  change({ ...withFile, text: answer.value }, `using ${csv.name} ${use}`);
  markSaved(csv.name);
  tell(`${csv.name} is used ${use}.`);
  return "";
}

const baseName = (name: string): string => name.split(/[\\/]/).pop() ?? name;

const settleTime = 60_000; // [ms] a slow browser may still be reading what it saves

/** Hands a text to the browser to be kept under its name. With a type of its own a phone may change the name. */
export function download(name: string, content: string, type = "application/octet-stream"): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = baseName(name);
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), settleTime);
}

/** Saves one of the files as it stands. */
export function save({ name, text }: NamedText): void {
  download(name, text);
  markSaved(name);
  tell(`${name} is saved where your browser keeps downloads.`);
}

/** Saves the rig file, or asks which of the files, where there are several. */
export function saveAsked(): void {
  if (files.value.sides.length === 0) save(files.value);
  else question.value = { kind: "save" };
}

/** The browser asks before the page is left with changes that are not saved. Called once. */
export function guardUnsaved(): void {
  window.addEventListener("beforeunload", (event) => {
    if (unsaved.value.length === 0) return;
    event.preventDefault();
    event.returnValue = true; // browsers of some years ago ask for this
  });
}
