// Words about bays that stand in more than one place: arm spans, and which limit of the plan a bay breaks.
import type { JSX } from "preact";
import type { Bay, PlanView } from "../engine/api";
import { VerdictWord } from "../frame/verdict";
import { view } from "../state/rig";
import { text } from "../words/format";

/** @param natural_m a length along the unloaded main [m] @return in arm spans of the rig's rigger, with the unit */
export function armSpans(natural_m: number): string {
  return `${(natural_m / (view.value?.picture.arm_span_m ?? 1)).toFixed(1)}\u00a0arm spans`;
}

/** The limits that the plan's checks of a bay would say stop to. */
function broken(bay: Bay, { least_drop_m, least_ankle_margin_m }: PlanView["picture"]): string[] {
  const say = (name: string, value_m: number, least_m: number): string[] =>
    value_m < least_m ? [`bay ${bay.number}: ${name} ${text(value_m, "small length")}, under the least of ${text(least_m, "small length")}`] : [];
  return [...say("drop", bay.drop_m, least_drop_m), ...say("ankle margin", bay.ankle_margin_m, least_ankle_margin_m)];
}

/** What is broken, by what, bay by bay; nothing where all is kept. @param bays their numbers, from 1 */
export function Limits({ bays, now }: { bays: readonly number[]; now: PlanView }): JSX.Element {
  const all = bays.flatMap((number) => {
    const bay = now.document.plan.bays[number - 1];
    return bay ? broken(bay, now.picture) : [];
  });
  return <>{all.map((words) => <p key={words} class="tape-bar-limit"><VerdictWord verdict="stop" /> {words}.</p>)}</>;
}
