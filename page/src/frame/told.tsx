// What was done last, said for a while at the foot of the window.
import { effect, signal } from "@preact/signals";
import { told } from "./opening";
import "./told.css";

const shownFor = 7000; // [ms]
const shown = signal("");
let timer: ReturnType<typeof setTimeout> | undefined;

effect(() => {
  shown.value = told.value.words;
  clearTimeout(timer);
  timer = setTimeout(() => (shown.value = ""), shownFor);
});

export function Told() {
  return <p role="status" class="told">{shown.value}</p>;
}
