// Looking closer at a part of the line, and moving along it.
import type { JSX } from "preact";
import { closer, gap_m, look, lookAt, readAt_m } from "./state";

const nearer = 0.5; // each press shows half as much
const stepAlong = 0.6; // of what is seen

export function Looking(): JSX.Element {
  const { from, to } = look.value;
  const share = to - from;
  const middle = (from + to) / 2;
  return (
    <div class={`looking${closer.value ? " looking-closer" : ""}`} role="group" aria-label="How much of the line is drawn">
      <button type="button" class="button" onClick={() => lookAt(share * nearer, readAt_m.value / gap_m.value)}>Look closer</button>
      {closer.value && (
        <>
          <button type="button" class="button" onClick={() => lookAt(1, 0.5)}>Whole line</button>
          <button type="button" class="button" disabled={from <= 0} onClick={() => lookAt(share, middle - stepAlong * share)}>Towards near</button>
          <button type="button" class="button" disabled={to >= 1} onClick={() => lookAt(share, middle + stepAlong * share)}>Towards far</button>
        </>
      )}
    </div>
  );
}
