// Long work on an engine of its own: how far it is, how it ended, and a way to stop it.
import { batch, signal } from "@preact/signals";
import type { Answer, PlanView, RigFiles } from "../engine/api";
import { Engine } from "../engine/client";

/** Tells the share that is done, 0 to 1. */
export type Tell = (share: number) => void;

/** Before that nothing is said about how long it will take yet [share, s]. */
const tellingShare = 0.02;
const telling_s = 8;
const inMinutesFrom_s = 90;

/** "about 3 minutes" */
export function durationWords(time_s: number): string {
  if (time_s < inMinutesFrom_s) return `about ${Math.max(5, 5 * Math.round(time_s / 5))}\u00a0seconds`;
  return `about ${Math.round(time_s / 60)}\u00a0minutes`;
}

/** "about 3 minutes left"; empty while that cannot be known. */
function leftWords(elapsed_s: number, share: number): string {
  if (share < tellingShare || elapsed_s < telling_s) return "";
  const left_s = (elapsed_s * (1 - share)) / share;
  return `${durationWords(left_s)} left`;
}

/** One piece of work at a time. */
export class Work {
  readonly running = signal(false);
  /** Share that is done; null: not known. */
  readonly share = signal<number | null>(null);
  /** How long it will still take, in words. */
  readonly left = signal("");
  /** Why there is no answer, in words. */
  readonly trouble = signal("");
  private readonly engine = new Engine();
  private round = 0;

  /** Runs it after ending what ran before. @returns null where there is no answer; then `trouble` says why */
  async run<T>(what: (engine: Engine, tell: Tell) => Promise<Answer<T>>): Promise<T | null> {
    if (this.running.value) this.stop();
    const mine = ++this.round;
    const began_ms = performance.now();
    batch(() => {
      this.running.value = true;
      this.left.value = "";
      this.share.value = null;
      this.trouble.value = "";
    });
    let value: T | null = null;
    let trouble = "";
    try {
      const answer = await what(this.engine, (share) => {
        if (mine !== this.round) return;
        batch(() => {
          this.share.value = share;
          this.left.value = leftWords((performance.now() - began_ms) / 1000, share);
        });
      });
      if (answer.ok) value = answer.value;
      else trouble = answer.words;
    } catch (fault) {
      trouble = `The program has a fault: ${fault instanceof Error ? fault.message : String(fault)}`;
    }
    if (mine !== this.round) return null;
    this.engine.stop(); // gives back the memory that it grew
    batch(() => {
      this.running.value = false;
      this.trouble.value = trouble;
    });
    return value;
  }

  /** Ends what runs and says nothing of it. */
  forget(): void {
    this.stop();
    this.trouble.value = "";
  }

  /** Ends what runs. */
  stop(): void {
    if (!this.running.value) return;
    ++this.round;
    this.engine.stop();
    batch(() => {
      this.running.value = false;
      this.trouble.value = "Stopped.";
    });
  }
}

/** The plan of the very files that a film is made of: what the page shows may be of other ones by then. */
export async function planOf(engine: Engine, files: RigFiles): Promise<Answer<PlanView>> {
  return engine.call("plan", { files, units: "metric", whole: false });
}
