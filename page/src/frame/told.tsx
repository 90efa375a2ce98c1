// What was done last. On a wide screen it stands in the bar; on a phone at the foot of the window, until it is read.
import { effect, signal } from "@preact/signals";
import { told } from "./opening";
import "./told.css";

/** Long enough to read: for every sentence, for every letter, and at most [ms]. */
const reading = { least: 1500, letter: 45, most: 5000 } as const;
const shown = signal("");
let timer: ReturnType<typeof setTimeout> | undefined;

effect(() => {
  const { words } = told.value;
  shown.value = words;
  clearTimeout(timer);
  timer = setTimeout(() => (shown.value = ""), Math.min(reading.most, reading.least + reading.letter * words.length));
});

/** Whoever goes on has read it, or does not want to. */
export function listenForGoingOn(): void {
  for (const kind of ["pointerdown", "keydown"]) window.addEventListener(kind, () => (shown.value = ""), { capture: true });
}

export function Told() {
  return <p role="status" class="told">{shown.value}</p>;
}
