// Moments of a film as stills, for whoever wants no motion.
import type { ComponentChildren } from "preact";

/** A moment worth a still picture. */
export interface Moment {
  time_s: number;
  words: string;
}

interface Props {
  /** What was filmed: "fall". */
  of: "fall" | "shake";
  moments: readonly Moment[];
  still: (moment: Moment, label: string) => ComponentChildren;
  /** Shows it moving all the same. */
  show: () => void;
}

export function Stills({ of, moments, still, show }: Props) {
  return (
    <>
      <div class={`motion-stills motion-stills-${of}`}>
        {moments.map((moment) => (
          <figure key={moment.time_s}>
            {still(moment, `The ${of} at ${moment.time_s.toFixed(2)} seconds: ${moment.words}`)}
            <figcaption>{moment.time_s.toFixed(2)}&nbsp;s: {moment.words}</figcaption>
          </figure>
        ))}
      </div>
      <p class={`${of}-small`}>
        Your device asks for little motion, so here are stills.{" "}
        <button type="button" class="button" onClick={show}>Show it moving</button>
      </p>
    </>
  );
}
