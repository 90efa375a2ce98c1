// Checks of falls, each with its mark, its amounts and the engine's sentence.
import type { Check } from "../engine/api";
import { amounts } from "../frame/checks";
import { VerdictWord } from "../frame/verdict";
import { breaks } from "./told_falls";

/** One after the other, in the order given. */
export function CheckLines({ checks }: { checks: readonly Check[] }) {
  return (
    <ul class="fall-checks">
      {checks.map((check) => (
        <li key={check.name}>
          <VerdictWord verdict={check.verdict} /> <strong>{breaks(check) && "Breaks. "}{check.title}: {amounts(check)}.</strong> {check.words}
        </li>
      ))}
    </ul>
  );
}
