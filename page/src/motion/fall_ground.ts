// The ground below a fall: how near the feet come to it, and when they meet it.
import type { FallFilm } from "../engine/api";
import { coordinates } from "./film_places";

/** Numbers a frame of `body`: hip, then ring. */
export const bodyNumbers = 2 * coordinates;

/** Height of the ground under a place [m]; null where it is not given. @param ground x, z pairs */
export function groundUnder(ground: readonly number[], x_m: number): number | null {
  for (let at = 0; at + 3 < ground.length; at += 2) {
    const [x0, z0, x1, z1] = ground.slice(at, at + 4) as [number, number, number, number];
    if (x0 <= x_m && x_m <= x1) return x1 > x0 ? z0 + ((z1 - z0) * (x_m - x0)) / (x1 - x0) : Math.min(z0, z1);
  }
  return null;
}

/** The lowest ground from one place to another [m]; null where none is given. */
export function lowestGround(ground: readonly number[], from_m: number, to_m: number): number | null {
  const ends = [groundUnder(ground, from_m), groundUnder(ground, to_m)].filter((z): z is number => z !== null);
  const between = ground.filter((_, index) => index % 2 === 1 && ground[index - 1]! >= from_m && ground[index - 1]! <= to_m);
  const all = [...ends, ...between];
  return all.length > 0 ? Math.min(...all) : null;
}

/** The feet where they are nearest over the ground, or where they first meet it. */
export interface NearestGround {
  at_m: number;
  feet_m: number;
  ground_m: number;
  time_s: number;
  meets: boolean;
}

/** Looks through the frames of a film. @returns null where no ground is given or nobody is held */
export function nearestGround({ body, frames, frame_s, foot_to_hip_m, numbers }: FallFilm, ground: readonly number[]): NearestGround | null {
  if (numbers.lost || numbers.in_anchor_zone) return null;
  let nearest: NearestGround | null = null;
  for (let frame = 0; frame < frames; ++frame) {
    const at_m = body[frame * bodyNumbers]!;
    const feet_m = body[frame * bodyNumbers + 2]! - foot_to_hip_m;
    const ground_m = groundUnder(ground, at_m);
    if (ground_m === null) continue;
    const meets = feet_m < ground_m;
    const nearer = !nearest || feet_m - ground_m < nearest.feet_m - nearest.ground_m;
    if (meets || nearer) nearest = { at_m, feet_m, ground_m, time_s: frame * frame_s, meets };
    if (meets) return nearest;
  }
  // Between two frames the feet may meet it all the same: the engine looks at every step.
  const { clearance_m } = numbers;
  return nearest && { ...nearest, meets: clearance_m !== null && clearance_m < 0 };
}

/** True where a moment means nothing: the feet have met the ground before. */
export const isAfterHit = (nearest: NearestGround | null, time_s: number): boolean =>
  nearest !== null && nearest.meets && time_s > nearest.time_s + sameMoment_s;
const sameMoment_s = 1e-6;
