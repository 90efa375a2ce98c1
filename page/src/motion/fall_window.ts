// What is shown while somebody falls: the whole line, what is around the walker, or the view along the line.
import type { FallFilm, PlanPicture } from "../engine/api";
import { bodyNumbers, lowestGround } from "./fall_ground";
import type { Window } from "./projection";

export type Closeness = "around the walker" | "whole line" | "along the line";

/** Hip to crown of the figure [m]; a little less than that of most people. */
export const hipToCrown_m = 0.8;

const beside_m = 3;
/** Where the body goes farther along the line than this, the picture goes with it and is so wide [m]. */
export const widest_m = 10;
const beyondAnchors_m = 1;
const above_m = 0.4;
const below_m = 0.6;
/** Ground that lies deeper below the lowest feet than this share of what is shown is only told. */
const groundWithin = 1;
/** Whoever is held by nothing is followed so far down [m]. */
const lostFollowed_m = 8;

/** Where hip and ring go along the gap and to the right of it, lowest feet, highest crown [m]. */
interface Way {
  from_m: number;
  to_m: number;
  left_m: number;
  right_m: number;
  feet_m: number;
  crown_m: number;
}

export function wayOf({ body, frames, foot_to_hip_m, numbers }: FallFilm): Way {
  const way: Way = { from_m: Infinity, to_m: -Infinity, left_m: Infinity, right_m: -Infinity, feet_m: Infinity, crown_m: -Infinity };
  const deepest_m = numbers.lost ? body[2]! - lostFollowed_m : -Infinity;
  for (let frame = 0; frame < frames; ++frame) {
    const at = frame * bodyNumbers;
    const [hip_x, hip_y, hip_z, ring_x, ring_y, ring_z] = body.subarray(at, at + bodyNumbers) as unknown as number[] as SixNumbers;
    if (hip_z < deepest_m) break;
    way.from_m = Math.min(way.from_m, hip_x, ring_x);
    way.to_m = Math.max(way.to_m, hip_x, ring_x);
    way.left_m = Math.min(way.left_m, -hip_y, -ring_y);
    way.right_m = Math.max(way.right_m, -hip_y, -ring_y);
    way.feet_m = Math.min(way.feet_m, hip_z - foot_to_hip_m);
    way.crown_m = Math.max(way.crown_m, hip_z + hipToCrown_m, ring_z);
  }
  return way;
}
type SixNumbers = [number, number, number, number, number, number];

/** From where to where across the screen [m]. */
function acrossOf(way: Way, picture: PlanPicture, closeness: Closeness): { from_m: number; to_m: number } {
  const end_m = picture.gap_m + beyondAnchors_m;
  if (closeness === "whole line") return { from_m: -beyondAnchors_m, to_m: end_m };
  if (closeness === "along the line") return { from_m: way.left_m - beside_m, to_m: way.right_m + beside_m };
  return { from_m: Math.max(-beyondAnchors_m, way.from_m - beside_m), to_m: Math.min(end_m, way.to_m + beside_m) };
}

/** What is shown, and whether it goes along with the hip. */
export interface FallView {
  window: Window;
  follows: boolean;
}

/** What is shown at a moment. @param hip_x_m where the hip is along the gap [m] */
export function windowAt({ window, follows }: FallView, hip_x_m: number): Window {
  if (!follows) return window;
  const half_m = (window.to_m - window.from_m) / 2;
  return { ...window, from_m: hip_x_m - half_m, to_m: hip_x_m + half_m };
}

/** What of a fall is to be seen. */
export function viewOf(film: FallFilm, picture: PlanPicture, closeness: Closeness): FallView {
  const window = windowOf(film, picture, closeness);
  const follows = closeness === "around the walker" && window.to_m - window.from_m > widest_m;
  return { window: follows ? { ...window, from_m: -widest_m / 2, to_m: widest_m / 2 } : window, follows };
}

function windowOf(film: FallFilm, picture: PlanPicture, closeness: Closeness): Window {
  const way = wayOf(film);
  const whole = closeness === "whole line";
  const { from_m, to_m } = acrossOf(way, picture, closeness);
  const high_m = (whole ? Math.max(way.crown_m, picture.rise_m, 0) : way.crown_m) + above_m;
  const feet_m = way.feet_m - below_m;
  const ground_m = lowestGround(picture.ground, whole ? from_m : way.from_m, whole ? to_m : way.to_m);
  const reach_m = groundWithin * Math.max(high_m - feet_m, (to_m - from_m) / 2);
  const grounded = ground_m !== null && ground_m > feet_m - reach_m;
  const low_m = grounded ? Math.min(feet_m, ground_m - below_m) : feet_m;
  return { seen: closeness === "along the line" ? "along the line" : "from the side", from_m, to_m, low_m, high_m };
}
