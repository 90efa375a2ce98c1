// What stands beside a return that has changed: the loops, the bays, and what is known of falls.
import type { JSX } from "preact";
import { SectionLink } from "../frame/section";
import { VerdictWord, worst } from "../frame/verdict";
import { fallChecks } from "../motion/fall_verdicts";
import { before } from "../state/returns";
import { draft, undoLabel, view } from "../state/rig";
import { text, type Quantity } from "../words/format";
import { costOf } from "./cost";
import { earlierCost } from "./follow_returns";

/** What falls come to. While a hand drags, the falls that were searched are of another line. */
function Falls(): JSX.Element {
  const verdict = draft.value === null && fallChecks.value !== null ? worst(fallChecks.value) : null;
  if (verdict === null) {
    return <SectionLink to="fall" class="price-falls">What a failing main does now has not been looked at: let it fall.</SectionLink>;
  }
  return <span class="price-falls">Falls: <VerdictWord verdict={verdict} />, <SectionLink to="fall">see Let it fall</SectionLink>.</span>;
}

function withEarlier(now_m: number, earlier_m: number | undefined, quantity: Quantity): string {
  const now = text(now_m, quantity);
  if (earlier_m === undefined) return now;
  const earlier = text(earlier_m, quantity);
  return `${now} (${earlier === now ? "as before" : `before ${earlier}`})`;
}

/** Nothing until the line was changed. */
export function Price(): JSX.Element | null {
  const plan = view.value;
  const earlier = earlierCost.value;
  if (!plan || (undoLabel.value === null && draft.value === null && before.value === null)) return null;
  const now = costOf(plan);
  return (
    <p class="price">
      Its price: greatest drop {withEarlier(now.drop_m, earlier?.drop_m, "small length")}, longest
      bay {withEarlier(now.longest_m, earlier?.longest_m, "length")}. <Falls />
    </p>
  );
}
