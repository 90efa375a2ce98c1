// The walker: a plain figure balancing with both arms out, feet at the origin.
import type { JSX } from "preact";

/** Height of the figure at scale 1 [px]. */
export const figureHeight = 46;

/** @param scale 1 draws it figureHeight high */
export function Figure({ scale }: { scale: number }): JSX.Element {
  return (
    <g class="figure" transform={`scale(${scale.toFixed(3)})`}>
      <path class="figure-leash" d="M0,-21 C8,-16 12,-8 11,0" />
      <path class="figure-body" d="M-6,-1 L-2,-11 L0,-21 L4,-11 L6,-1 M0,-21 L0,-35 M-19,-38 L-11,-32 L0,-34 L11,-31 L18,-40" />
      <circle class="figure-head" cx="0" cy="-41" r="4.6" />
    </g>
  );
}
