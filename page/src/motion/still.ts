// Whether the reader wants things to stand still.
import { signal } from "@preact/signals";

const asked = typeof matchMedia === "function" ? matchMedia("(prefers-reduced-motion: reduce)") : null;

/** True where the device says that motion is not wanted. */
export const wantsStill = signal(asked?.matches ?? false);
asked?.addEventListener("change", (event) => (wantsStill.value = event.matches));
