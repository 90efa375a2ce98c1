// Files dropped anywhere on the page.
import { signal } from "@preact/signals";
import { take } from "./opening";

const hovering = signal(false);

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;

/** Listens for files over the page, before the text editor does, which would put them into its text. Called once. */
export function listenForDrops(): void {
  const listen = (name: "dragover" | "drop", hear: (event: DragEvent) => void): void =>
    window.addEventListener(name, (event) => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      hear(event);
    }, { capture: true });
  listen("dragover", () => (hovering.value = true));
  listen("drop", (event) => {
    hovering.value = false;
    void take(event.dataTransfer?.files ?? []);
  });
  window.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) hovering.value = false; // left the window
  });
}

/** Says that a drop is taken. */
export function DropHint() {
  return hovering.value ? <div class="drop-hint">Drop to open</div> : null;
}
