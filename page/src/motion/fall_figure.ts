// Body, leash and ring on a canvas: a simple figure of our own.
import type { FallFilm } from "../engine/api";
import type { Drawing } from "./canvas";
import { bodyNumbers } from "./fall_ground";
import { hipToCrown_m } from "./fall_window";
import { coordinates, momentOf } from "./film_places";
import type { Project, ScreenPoint } from "./projection";

interface Place {
  x: number;
  y: number;
  z: number;
}

/** Hip and ring at a moment, and how far they are from each other [m]. */
interface BodyMoment {
  hip: Place;
  ring: Place;
  reach_m: number;
}

/** @param at in frames from the start */
export function bodyAt(film: FallFilm, at: number): BodyMoment {
  const moment = momentOf({ nodes: bodyNumbers / coordinates, frames: film.frames, places_m: film.body }, at);
  const place = (from: number): Place => ({ x: moment[from]!, y: moment[from + 1]!, z: moment[from + 2]! });
  const hip = place(0);
  const ring = place(coordinates);
  return { hip, ring, reach_m: Math.hypot(hip.x - ring.x, hip.y - ring.y, hip.z - ring.z) };
}

const ringSize = 4;
/** A slack leash hangs in a bow, a tight one is straight. */
export function drawLeash({ pen, ink }: Drawing, film: FallFilm, { hip, ring, reach_m }: BodyMoment, project: Project): void {
  const tight = reach_m >= film.leash_m;
  // The bow of a parabola that is as long as the leash: length = span + 8/3 bow^2 / span.
  const bow_m = tight ? 0 : Math.min(film.leash_m / 2, Math.sqrt((3 / 8) * Math.max(reach_m, 0.1) * (film.leash_m - reach_m)));
  const middle = project((hip.x + ring.x) / 2, (hip.y + ring.y) / 2, (hip.z + ring.z) / 2 - 2 * bow_m);
  pen.beginPath();
  pen.moveTo(...project(ring.x, ring.y, ring.z));
  pen.quadraticCurveTo(...middle, ...project(hip.x, hip.y, hip.z));
  pen.strokeStyle = ink.ink;
  pen.lineWidth = tight ? 2.5 : 1.25;
  pen.stroke();
  const [x, y] = project(ring.x, ring.y, ring.z);
  pen.beginPath();
  pen.arc(x, y, ringSize, 0, 2 * Math.PI);
  pen.fillStyle = ink.paper;
  pen.fill();
  pen.lineWidth = 2;
  pen.stroke();
}

const head_m = 0.13;
const legsApart_m = 0.13;
const shoulder_m = 0.48;
const arms_m = 0.32;
/** A simple figure, upright: how the body turns is not computed. */
export function drawBody({ pen, ink }: Drawing, foot_to_hip_m: number, { hip }: BodyMoment, project: Project, perMetre: number): void {
  const [hip_x, hip_y] = project(hip.x, hip.y, hip.z);
  const at = (right_m: number, up_m: number): ScreenPoint => [hip_x + perMetre * right_m, hip_y - perMetre * up_m];
  const strokes: readonly (readonly [number, number])[][] = [
    [[-legsApart_m, -foot_to_hip_m], [0, 0], [legsApart_m, -foot_to_hip_m]],
    [[0, 0], [0, hipToCrown_m - 2 * head_m]],
    [[-arms_m, shoulder_m + 0.1], [0, shoulder_m], [arms_m, shoulder_m + 0.1]],
  ];
  pen.strokeStyle = ink.ink;
  pen.lineWidth = 2.5;
  pen.lineCap = "round";
  for (const stroke of strokes) {
    pen.beginPath();
    for (const [x, z] of stroke) pen.lineTo(...at(x, z));
    pen.stroke();
  }
  pen.lineCap = "butt";
  const [cx, cy] = at(0, hipToCrown_m - head_m);
  const [, top] = at(0, hipToCrown_m);
  pen.beginPath();
  pen.arc(cx, cy, Math.max(2, cy - top), 0, 2 * Math.PI);
  pen.fillStyle = ink.ink;
  pen.fill();
}
