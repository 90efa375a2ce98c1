// The cautions: one line of them always in reach, all of them in a section of their own.
import { view } from "../state/rig";
import { SectionLink } from "./section";
import "./cautions.css";

export function CautionLine() {
  return (
    <p class="caution-line">
      A planning aid, not a certificate. Have rig and anchors checked by a competent rigger.{" "}
      <SectionLink to="cautions">All cautions</SectionLink>
    </p>
  );
}

// What stands here while no plan could be made yet.
const always = [
  "This is a planning aid, not a certificate.",
  "Have the rig and its anchors checked by a competent rigger before anyone clips in.",
] as const;

export function Cautions() {
  const cautions: readonly string[] = view.value?.document.cautions ?? always;
  return (
    <ul class="cautions">
      {cautions.map((caution) => <li key={caution}>{caution}</li>)}
      <li>The demos are invented: places, webbings, strengths and limits. Do not rig from their numbers.</li>
      <li>
        This page works without a network and sends nothing away. What you do not save is gone when it closes. Only two things are
        remembered in the browser: the units that you chose, and that you have taken a tape out once and need no hint any more.
      </li>
    </ul>
  );
}
