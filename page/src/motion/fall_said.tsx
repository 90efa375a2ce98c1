// What a fall says, the worst first: who is not held, who hits the ground, what breaks; numbers only after that.
import type { Check } from "../engine/api";
import { VerdictWord, worst } from "../frame/verdict";
import { CheckLines } from "./check_lines";
import type { FallFilmed } from "./fall_films";
import { fallWords, happenedWords, hitWords, hits, holds, lostWords } from "./fall_words";
import { worstChecksFirst } from "./told_falls";

/** What needs no number. */
function Ends({ filmed }: { filmed: FallFilmed }) {
  if (filmed.film.numbers.lost) return <p><VerdictWord verdict="stop" /> <strong>{lostWords}</strong></p>;
  if (!hits(filmed)) return null;
  return (
    <>
      <p><VerdictWord verdict="stop" /> <strong>Hits the ground.</strong></p>
      <p>{hitWords(filmed)}</p>
    </>
  );
}

/** Where no check says stop. */
function NoStop({ checks }: { checks: readonly Check[] }) {
  const verdict = worst(checks);
  if (verdict === null || verdict === "stop") return null;
  const cautions = checks.filter((check) => check.verdict === "caution").length;
  return (
    <p>
      <VerdictWord verdict={verdict} /> No check of this fall says stop
      {cautions > 0 && `; ${cautions} of ${checks.length} say caution: read them below`}.
    </p>
  );
}

/** All that is said above the film. */
export function FallSaid({ filmed }: { filmed: FallFilmed }) {
  const { checks } = filmed.film;
  const stops = worstChecksFirst(checks.filter(({ verdict }) => verdict === "stop"));
  return (
    <>
      <Ends filmed={filmed} />
      {stops.length > 0 && <CheckLines checks={stops} />}
      {holds(filmed) && <NoStop checks={checks} />}
      <p>{happenedWords(filmed)} {holds(filmed) && fallWords(filmed.film)}</p>
    </>
  );
}

/** All checks of the fall, to open. */
export function FallChecks({ filmed }: { filmed: FallFilmed }) {
  const { checks } = filmed.film;
  if (checks.length === 0) return null;
  return (
    <details class="motion-table">
      <summary>The {checks.length} checks of this fall</summary>
      <CheckLines checks={worstChecksFirst(checks)} />
    </details>
  );
}
