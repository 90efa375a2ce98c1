// A verdict as shape and word, the shapes being those of the printed sheet.
import type { Check, Verdict } from "../engine/api";
import "./verdict.css";

/** Worst first. */
export const verdicts = ["stop", "caution", "ok"] as const satisfies readonly Verdict[];

/** The worst verdict of a list; null: there are no checks. */
export function worst(checks: readonly Check[]): Verdict | null {
  return verdicts.find((verdict) => checks.some((check) => check.verdict === verdict)) ?? null;
}

function Mark({ verdict }: { verdict: Verdict }) {
  return (
    <svg class="verdict-mark" viewBox="0 0 20 20" aria-hidden="true">
      {verdict === "stop" ? (
        <>
          <rect x="1.5" y="1.5" width="17" height="17" fill="currentColor" />
          <path d="M5.5 5.5 14.5 14.5M14.5 5.5 5.5 14.5" stroke="var(--paper)" stroke-width="2.6" />
        </>
      ) : (
        <circle cx="10" cy="10" r="8" fill="none" stroke="currentColor" stroke-width="2.4" />
      )}
      {verdict === "caution" && <path d="M2 10a8 8 0 0 0 16 0z" fill="currentColor" />}
    </svg>
  );
}

/** Shape and word, in the colour of the verdict. */
export function VerdictWord({ verdict }: { verdict: Verdict }) {
  return (
    <span class={`verdict verdict-${verdict}`}>
      <Mark verdict={verdict} />
      {verdict}
    </span>
  );
}
