// What the summary of the stage tells while it is closed.
import { VerdictWord, worst } from "../frame/verdict";
import { fallChecks, searched } from "./fall_verdicts";

/** The worst verdict of the last search, or that nobody has looked. */
export function FallBrief() {
  const checks = fallChecks.value;
  const verdict = checks && worst(checks);
  if (!checks || !verdict) return <>main failure, leash fall: {searched.value === null ? "not looked at" : "not looked at since the last change"}</>;
  const count = checks.filter((check) => check.verdict === verdict).length;
  return <>main failure, leash fall: <VerdictWord verdict={verdict} /> in {count} of {checks.length} checks</>;
}
