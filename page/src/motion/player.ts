// What plays a film: a playhead that goes with the clock, slower if asked. It knows no picture and no page; who looks
// at `time_s` draws. The clock is given, so that it can be played without a screen.
import { batch, computed, signal, type ReadonlySignal } from "@preact/signals";

/** Asks for the next tick of the screen; `now_ms` goes on evenly. */
export interface Ticker {
  ask(tick: (now_ms: number) => void): number;
  cancel(asked: number): void;
}

const screenTicker: Ticker = {
  ask: (tick) => requestAnimationFrame(tick),
  cancel: (asked) => cancelAnimationFrame(asked),
};

/** How fast film time passes, as share of the clock. */
export const speeds = [
  { share: 1, words: "full speed" },
  { share: 0.25, words: "1/4" },
  { share: 0.1, words: "1/10" },
] as const;

/** A page that was away does not jump on: at most so much of the clock counts at once [ms]. */
const longestTick_ms = 100;
/** What must be followed by eye should last so long on the screen [s]. */
const followable_s = 1;

/** The playhead after a tick [s]. @param speed share of the clock @param length_s where the film ends [s] */
export function advanced(time_s: number, elapsed_ms: number, speed: number, length_s: number): number {
  const counted_ms = Math.min(Math.max(elapsed_ms, 0), longestTick_ms);
  return Math.min(length_s, time_s + (counted_ms / 1000) * speed);
}

/** The fastest speed at which something that takes `event_s` can still be followed [share of the clock]. */
export function speedToFollow(event_s: number): number {
  const slowEnough = speeds.find(({ share }) => event_s / share >= followable_s);
  return (slowEnough ?? speeds[speeds.length - 1]!).share;
}

/** A playhead over a film of equal frames. */
export class Player {
  readonly time_s = signal(0);
  readonly playing = signal(false);
  readonly speed = signal<number>(1);
  readonly frame: ReadonlySignal<number>;
  readonly length_s: number;
  /** Playing stops here once; whoever plays on from here sees the rest. Null: nowhere [s]. */
  haltAt_s: number | null = null;
  private asked: number | null = null;
  private last_ms: number | null = null;

  constructor(
    readonly frames: number,
    readonly frame_s: number,
    private readonly ticker: Ticker = screenTicker,
  ) {
    this.length_s = Math.max(0, frames - 1) * frame_s;
    this.frame = computed(() => Math.round(this.time_s.value / this.frame_s));
  }

  /** From where it stands; at the end, from the start. */
  play(): void {
    if (this.playing.value || this.length_s <= 0) return;
    batch(() => {
      if (this.time_s.value >= this.length_s) this.time_s.value = 0;
      this.playing.value = true;
    });
    this.last_ms = null;
    this.asked = this.ticker.ask(this.tick);
  }

  pause(): void {
    if (this.asked !== null) this.ticker.cancel(this.asked);
    this.asked = null;
    this.playing.value = false;
  }

  /** Puts the playhead on a frame and stops there. */
  seek(frame: number): void {
    this.pause();
    this.time_s.value = Math.min(Math.max(frame, 0), Math.max(0, this.frames - 1)) * this.frame_s;
  }

  step(frames: number): void {
    this.seek(this.frame.value + frames);
  }

  private readonly tick = (now_ms: number): void => {
    const elapsed_ms = this.last_ms === null ? 0 : now_ms - this.last_ms;
    this.last_ms = now_ms;
    const from_s = this.time_s.value;
    const to_s = advanced(from_s, elapsed_ms, this.speed.value, this.length_s);
    const halts = this.haltAt_s !== null && from_s < this.haltAt_s && to_s >= this.haltAt_s;
    this.time_s.value = halts ? this.haltAt_s! : to_s;
    if (halts || this.time_s.value >= this.length_s) this.pause();
    else this.asked = this.ticker.ask(this.tick);
  };
}
