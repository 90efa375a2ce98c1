// A verdict as shape and word, the shapes being those of the printed sheet. What is not known has a shape of its own.
import type { JSX } from "preact";
import type { Check, Verdict } from "../engine/api";
import "./verdict.css";

/** Worst first. */
export const verdicts = ["stop", "caution", "ok"] as const satisfies readonly Verdict[];

/** The worst verdict of a list; null: there are no checks. */
export function worst(checks: readonly Check[]): Verdict | null {
  return verdicts.find((verdict) => checks.some((check) => check.verdict === verdict)) ?? null;
}

/** How many checks have a verdict. */
export const countOf = (checks: readonly Check[], verdict: Verdict): number => checks.filter((check) => check.verdict === verdict).length;

/** Whether something that the check needs is missing, such as the ground or a strength. Its verdict is then caution. */
export const isNotKnown = (check: Check): boolean => check.value === null && check.verdict !== "stop";

const ring = <circle cx="10" cy="10" r="8" fill="none" stroke="currentColor" stroke-width="2.4" />;

const marks: Record<Verdict | "not-known", JSX.Element> = {
  stop: (
    <>
      <rect x="1.5" y="1.5" width="17" height="17" fill="currentColor" />
      <path d="M5.5 5.5 14.5 14.5M14.5 5.5 5.5 14.5" stroke="var(--paper)" stroke-width="2.6" />
    </>
  ),
  caution: <>{ring}<path d="M2 10a8 8 0 0 0 16 0z" fill="currentColor" /></>,
  ok: ring,
  "not-known": (
    <path d="M10 1.6 18.4 10 10 18.4 1.6 10z" fill="none" stroke="currentColor" stroke-width="2.2" stroke-dasharray="3.6 2.2" />
  ),
};

function Marked({ mark, words }: { mark: keyof typeof marks; words: string }) {
  return (
    <span class={`verdict verdict-${mark}`}>
      <svg class="verdict-mark" viewBox="0 0 20 20" aria-hidden="true">{marks[mark]}</svg>
      {words}
    </span>
  );
}

/** Shape and word, in the colour of the verdict. @param count how many checks have it, where that is told */
export function VerdictWord({ verdict, count }: { verdict: Verdict; count?: number }) {
  return <Marked mark={verdict} words={count === undefined ? verdict : `${count} ${verdict}`} />;
}

/** The mark of what is not known. @param count of how many checks, where that is told */
export function NotKnown({ count }: { count?: number }) {
  return <Marked mark="not-known" words={count === undefined ? "not known" : `${count} not known`} />;
}
