// Steps of buttons and arrow keys, in lengths that are easy to say in the chosen units.
import { units } from "../state/units";

const inch = 0.0254; // m, exactly
const foot = 12 * inch;

interface Step {
  metres: number;
  words: string;
}
const us = (): boolean => units.value === "us";

/** Of the buttons under the picture, for a tape. */
export const tapeStep = (): Step => (us() ? { metres: 4 * inch, words: "4\u00a0in" } : { metres: 0.1, words: "10\u00a0cm" });
/** Of the arrow keys, for a tape. */
export const tapeKey = (): Step => (us() ? { metres: 2 * inch, words: "2\u00a0in" } : { metres: 0.05, words: "5\u00a0cm" });
/** With shift. */
export const tapeFastKey = (): Step => (us() ? { metres: 10 * inch, words: "10\u00a0in" } : { metres: 0.25, words: "25\u00a0cm" });
/** Of buttons and arrow keys, for the walker and for reading off. */
export const walkerStep = (): Step => (us() ? { metres: 2 * foot, words: "2\u00a0ft" } : { metres: 0.5, words: "50\u00a0cm" });
export const walkerFastStep = (): Step => (us() ? { metres: 10 * foot, words: "10\u00a0ft" } : { metres: 2.5, words: "2.5\u00a0m" });

/** What an arrow key asks for: 1 away from the near anchor, -1 towards it, 0: not an arrow. */
export function arrow(key: string): -1 | 0 | 1 {
  if (key === "ArrowRight" || key === "ArrowUp") return 1;
  return key === "ArrowLeft" || key === "ArrowDown" ? -1 : 0;
}
