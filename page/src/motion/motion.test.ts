// What the stages reckon without a page. Bundled with esbuild for node and run by `node --test`.
import assert from "node:assert/strict";
import { test } from "node:test";
import type { CatchDocument, CatchMainFailure, Check, FallFilm, ShakeFilm } from "../engine/api";
import { chartShape } from "./chart_shape";
import { groundUnder, isAfterHit, nearestGround } from "./fall_ground";
import { fallWords } from "./fall_words";
import { filmLength, measuredUntil } from "./film_length";
import { momentOf } from "./film_places";
import { advanced, Player, speedToFollow, type Ticker } from "./player";
import { acrossProjection, enlargement, spread, trueProjection, type Window } from "./projection";
import { meanShare, moments, swingShares } from "./shake_series";
import { shades } from "./stripes";
import { foundIn } from "./told_falls";

class HandClock implements Ticker {
  private waiting: ((now_ms: number) => void) | null = null;
  ask(tick: (now_ms: number) => void): number {
    this.waiting = tick;
    return 1;
  }
  cancel(): void {
    this.waiting = null;
  }
  get asked(): boolean {
    return this.waiting !== null;
  }
  tick(now_ms: number): void {
    const tick = this.waiting;
    this.waiting = null;
    tick?.(now_ms);
  }
}

test("a player at a quarter of the speed goes a quarter of the clock and stops at the end", () => {
  const clock = new HandClock();
  const player = new Player(11, 0.01, clock);
  player.speed.value = 0.25;
  player.play();
  for (const now_ms of [1000, 1040, 1080]) clock.tick(now_ms);
  assert.ok(Math.abs(player.time_s.value - 0.02) < 1e-12);
  for (let now_ms = 1160; player.playing.value; now_ms += 80) clock.tick(now_ms);
  assert.equal(player.time_s.value, player.length_s);
  assert.equal(clock.asked, false);
});

test("a paused player asks for no tick, and stepping stays within the film", () => {
  const clock = new HandClock();
  const player = new Player(3, 0.5, clock);
  player.play();
  player.pause();
  assert.equal(clock.asked, false);
  player.step(-1);
  assert.equal(player.frame.value, 0);
  for (let times = 0; times < 5; ++times) player.step(1);
  assert.equal(player.time_s.value, 1);
});

test("playing stops where something hits, and goes on when it is asked again", () => {
  const clock = new HandClock();
  const player = new Player(11, 0.01, clock);
  player.haltAt_s = 0.05;
  player.play();
  for (const now_ms of [1000, 1040, 1080]) clock.tick(now_ms);
  assert.equal(player.time_s.value, 0.05);
  assert.equal(player.playing.value, false);
  player.play();
  for (const now_ms of [2000, 2080]) clock.tick(now_ms);
  assert.equal(player.time_s.value, player.length_s);
});

test("a page that was away for a minute goes on where it was", () => {
  assert.ok(advanced(1, 60_000, 1, 10) < 1.2);
});

test("what takes a third of a second is followed at a quarter of the speed", () => {
  assert.equal(speedToFollow(0.33), 0.25);
  assert.equal(speedToFollow(2), 1);
});

test("every film is long enough to see what comes back being measured", () => {
  for (const round_trip_s of [0.1, 0.28, 0.79, 2, 6]) {
    for (const frequency_Hz of [0.5, 1, 4]) {
      assert.ok(filmLength(round_trip_s, frequency_Hz).seconds > measuredUntil(round_trip_s, 1 / frequency_Hz));
    }
  }
});

test("between two frames a node is on the straight line between its places", () => {
  const strand = { nodes: 1, frames: 2, places_m: Float32Array.from([0, 0, 0, 4, 2, -1]) };
  assert.deepEqual([...momentOf(strand, 0.5)], [2, 1, -0.5]);
  assert.deepEqual([...momentOf(strand, 9)], [4, 2, -1]);
});

test("what lies across is drawn as large as it fits and no larger", () => {
  const chord = { gap_m: 60, near_z_m: 0, far_z_m: -2 };
  const strand = { nodes: 1, frames: 2, places_m: Float32Array.from([30, 0.1, -1, 30, -0.2, -1.3]) };
  const range = spread("above", chord, [strand]);
  assert.ok(Math.abs(range.high_m - range.low_m - 0.3) < 1e-6);
  const box = { left: 0, top: 0, width: 300, height: 100 };
  const times = enlargement(60, 0.3, box);
  assert.equal(times, 50); // 66 would just fit
  const project = acrossProjection("above", chord, box, times, range);
  for (const y_m of [0.1, -0.2]) {
    const [, y] = project(30, y_m, -1);
    assert.ok(y >= 0 && y <= 100);
  }
});

test("from the side a point on the straight line between uneven anchors is at rest", () => {
  const chord = { gap_m: 10, near_z_m: 0, far_z_m: 5 };
  const range = spread("side", chord, [{ nodes: 1, frames: 1, places_m: Float32Array.from([5, 0, 2.5]) }]);
  assert.deepEqual(range, { low_m: 0, high_m: 0 });
});

test("a fall is drawn in true proportions, and along the line left is left", () => {
  const window: Window = { seen: "along the line", from_m: -2, to_m: 2, low_m: -4, high_m: 0 };
  const { project, perMetre } = trueProjection(window, { left: 0, top: 0, width: 400, height: 800 });
  assert.equal(perMetre, 100);
  const [left] = project(7, 1, -1);
  const [right, y] = project(7, -1, -1);
  assert.ok(left < right);
  const [, lower] = project(7, -1, -2);
  assert.equal(lower - y, 100);
});

/** A main of three nodes whose middle swings sideways with an amplitude that halves after the shake. */
function film(): ShakeFilm {
  const frames = 401;
  const frame_s = 0.01;
  const main: number[] = [];
  const swing_m: number[] = [];
  for (let frame = 0; frame < frames; ++frame) {
    const time_s = frame * frame_s;
    const away_m = (time_s <= 1 ? 0.1 : 0.05) * Math.sin(2 * Math.PI * time_s);
    main.push(0, 0, 0, 5, away_m, 0, 10, 0, 0);
    swing_m.push(Math.abs(away_m));
  }
  const numbers = { round_trip_s: 0.5, late_from_s: 2, late_window_s: 1 } as ShakeFilm["numbers"];
  return {
    numbers, frame_s, frames, main_nodes: 3, backup_nodes: 0, main: Float32Array.from(main), backup: new Float32Array(), tapes: [0, 2],
    swing_m: Float32Array.from(swing_m), at_place_m: new Float32Array(), energy: new Float32Array(),
  };
}

test("a swing that has halved is half of its mean in the shake", () => {
  assert.ok(Math.abs(meanShare(film(), 1, 2, 3) - 0.5) < 0.01);
  assert.ok(Math.abs(swingShares(film(), 1)[25]! - Math.SQRT2) < 0.01); // the crest of a sine over its rms
});

test("the four moments are in order and within the film", () => {
  const times = moments(film(), 1).map(({ time_s }) => time_s);
  assert.equal(times.length, 4);
  assert.deepEqual([...times].sort((a, b) => a - b), times);
});

test("shades are darkest where the main is farthest from rest, whichever way, and the anchors stay white", () => {
  const { values, columns } = shades(film(), "sideways", 10, 0.1, 11);
  for (const crest of [25, 75]) {
    assert.ok(values[crest * columns + 5]! > 0.99);
    assert.ok(values[crest * columns + 5]! > values[crest * columns + 1]!);
  }
  assert.equal(values[5], 0);
});

test("a chart has its axis above all values and lines that start on the left margin", () => {
  const shape = chartShape({ width: 400, height: 190, length_s: 1, frame_s: 0.5, series: [{ name: "", look: "this", values: [0, 2.3, 1] }], atLeast: 1 });
  assert.ok(shape.y.domain()[1]! >= 2.3);
  assert.ok(shape.paths[0]!.startsWith(`M${shape.x(0)},`));
});

test("the ground under a place lies on the straight line between its points, and nowhere beyond them", () => {
  assert.equal(groundUnder([0, 0, 10, -5], 4), -2);
  assert.equal(groundUnder([0, 0, 10, -5], 11), null);
});

test("feet that meet the ground are told at the first frame below it", () => {
  const body = Float32Array.from([-0.5, -1.5, -2.5, -1].flatMap((hip_z) => [5, 0, hip_z, 5, 0, 0]));
  const fall = { body, frames: 4, frame_s: 0.1, foot_to_hip_m: 1, numbers: { lost: false, in_anchor_zone: false } } as FallFilm;
  const meets = nearestGround(fall, [0, -3, 10, -3]);
  assert.equal(meets?.meets, true);
  assert.ok(Math.abs(meets!.time_s - 0.2) < 1e-12);
  assert.equal(isAfterHit(meets, 0.2), false);
  assert.equal(isAfterHit(meets, 0.3), true);
  const clear = nearestGround(fall, [0, -4, 10, -4]);
  assert.equal(clear?.meets, false);
  assert.equal(clear!.feet_m - clear!.ground_m, 0.5);
});

test("nothing is told to be under the limit where a check says stop", () => {
  const numbers = { body_N: 5000, fall_m: 4, lowest_time_s: 1 };
  const check = (verdict: Check["verdict"]): Check => ({ verdict }) as Check;
  const fall = (checks: Check[]): FallFilm => ({ numbers, checks, body_limit_N: 6000, body_limit_assumed: false }) as FallFilm;
  assert.match(fallWords(fall([check("ok"), check("caution")])), /under the limit/);
  assert.doesNotMatch(fallWords(fall([check("ok"), check("stop")])), /under/);
});

test("whoever is not held and whoever hits the ground is listed first, and the worst rows stay theirs", () => {
  const row = (body_N: number, clearance_m: number | null, lost: boolean): CatchMainFailure =>
    ({ body_N, clearance_m, lost, wall_m: null, cut_m: 1 }) as CatchMainFailure;
  const worst = { body: 0, fall: 0, clearance: 2, wall: 0, near: 0, far: 0, backup: 0 };
  const rows = [row(5000, 2, false), row(4000, null, true), row(3000, -0.1, false)];
  const found = { main_failure: rows, worst_main_failure: worst, leash_fall: [], worst_leash_fall: null, checks: [] };
  const told = foundIn({ catch: found } satisfies CatchDocument).mainFailure;
  assert.deepEqual(told.map(({ ending }) => ending), ["lost", "hits the ground", "held"]);
  assert.deepEqual(told[1]!.worstBy, ["clearance"]);
});
