// How long a shake is filmed.

const roundTrips = 5;
const periods = 3;
const shortest_s = 2.5;
const longest_s = 10;
/** At full speed a smooth film; longer films take every second frame so that they stay small. */
const frame_s = 1 / 60;
const longFrame_s = 1 / 30;

interface FilmLength {
  seconds: number;
  frame_s: number;
  /** Why so long, for people. */
  words: string;
}

/** When the measuring of what comes back is over, from the start of the shake [s]. See engine/motion/shake.h. */
export function measuredUntil(round_trip_s: number, period_s: number): number {
  return period_s + 2 * round_trip_s + Math.max(round_trip_s, period_s);
}

/** @param round_trip_s of a wave on the rig's main [s] @param frequency_Hz of the shake */
export function filmLength(round_trip_s: number, frequency_Hz: number): FilmLength {
  const period_s = 1 / frequency_Hz;
  const wanted_s = Math.min(longest_s, Math.max(shortest_s, roundTrips * round_trip_s + periods * period_s));
  const seconds = Math.max(wanted_s, measuredUntil(round_trip_s, period_s) + round_trip_s);
  const trips = (seconds - period_s) / round_trip_s;
  return {
    seconds,
    frame_s: seconds > longest_s ? longFrame_s : frame_s,
    words:
      `The film lasts ${seconds.toFixed(1)}\u00a0s: the shake of ${period_s.toFixed(2)}\u00a0s, and then time for a wave to go to the far ` +
      `anchor and back ${trips < 2 ? "once" : `${Math.floor(trips)} times`} (${round_trip_s.toFixed(2)}\u00a0s each).`,
  };
}
