// Shakes and falls in WebAssembly against those of the command.
import assert from "node:assert/strict";
import { test } from "node:test";
import { ask, floats } from "./support/engine.mjs";
import { examplePath, heronGorge, practiceLine, spanloom } from "./support/project.mjs";

const asked = (shake) => ({ line: shake.line, frequency_Hz: shake.frequency_Hz, place: shake.place_share, direction: shake.direction });
const mean = (values) => values.reduce((a, b) => a + b, 0) / values.length;

/** The shakes of `spanloom shake --quick`, each beside the same one in WebAssembly. */
function pairs(path, files) {
  const told = JSON.parse(spanloom("shake", path, "--quick", "--json")).shake.shakes;
  return told.map((shake) => ({ told: shake, ours: ask("shake", { files, shake: asked(shake) }) }));
}

// Where loops snap tight the last digit decides which way they go, and grows to points of the return (docs/motion.md). So
// sine, exponential and the order of sums are the engine's own, the same in every build (engine/base/same_everywhere.h):
// page and command shake one and the same line.
for (const [name, files] of [["practice-line", practiceLine], ["heron-gorge", heronGorge]]) {
  test(`every full-size shake of ${name} returns what the command says`, (t) => {
    const both = pairs(examplePath(name), files);
    assert.equal(both.length, 30);
    for (const { told, ours } of both) {
      const where = `${told.frequency_Hz} Hz at ${told.place_share}`;
      for (const [is, was] of [[ours.return_, told.return], [ours.force_N, told.force_N], [ours.swing_m, told.first_swing_m]]) {
        assert.ok(Math.abs(is / was - 1) < 1e-9, `${where}: ${is} and ${was}`);
      }
    }
    const away = Math.max(...both.map(({ told, ours }) => Math.abs(ours.return_ / told.return - 1)));
    t.diagnostic(`mean ${mean(both.map(({ ours }) => ours.return_)).toFixed(4)}, the farthest ${away.toExponential(1)} apart`);
  });
}

test("a film of a shake begins at rest, swings as far as its numbers say and fills its columns", () => {
  const film = ask("shake_film", {
    files: practiceLine, shake: { line: "rig", frequency_Hz: 2, place: 0.5, direction: "sideways" }, seconds: 2, frame_s: 0.02,
  });
  assert.equal(floats("main").length, film.frames * film.main_nodes * 3);
  assert.equal(floats("backup").length, film.frames * film.backup_nodes * 3);
  const atPlace = floats("at_place_m");
  assert.equal(atPlace.length, film.frames);
  assert.ok(Math.abs(atPlace[0]) < 1e-9);
  const greatest = Math.max(...atPlace.map(Math.abs));
  // Frames lie 20 ms apart: of a half swing of 250 ms the highest is at most 10 ms beside the top, 0.8 % below it.
  const first = Math.abs(film.numbers.swing_m);
  assert.ok(greatest < 1.05 * first && greatest > 0.97 * first, `${greatest} of ${first}`);
});

// A fall is over within seconds, before rounding has grown to be seen.
test("the worst falls of the practice line are the command's", (t) => {
  const told = JSON.parse(spanloom("catch", examplePath("practice-line"), "--quick", "--json")).catch;
  let steps = 0;
  const ours = ask("falls", { files: practiceLine, units: "metric" }, () => ++steps).catch;
  assert.ok(steps > 100, "progress is told");
  let worst = 0;
  for (const kind of ["main_failure", "leash_fall"]) {
    assert.ok(told[kind].length >= 6);
    assert.equal(ours[kind].length, told[kind].length);
    told[kind].forEach((fall, i) => {
      assert.equal(ours[kind][i].lost, fall.lost);
      for (const key of ["walker_m", "cut_m", "fall_m", "body_N", "near_N", "far_N", "clearance_m"]) {
        if (typeof fall[key] !== "number") {
          assert.equal(ours[kind][i][key], fall[key], `${kind} ${i}, ${key}`);
          continue;
        }
        const away = Math.abs(ours[kind][i][key] - fall[key]) / Math.max(1, Math.abs(fall[key]));
        worst = Math.max(worst, away);
        assert.ok(away < 1e-6, `${kind} ${i}, ${key}: ${ours[kind][i][key]} and ${fall[key]}`);
      }
    });
  }
  assert.deepEqual(ours.checks.map(({ verdict }) => verdict), told.checks.map(({ verdict }) => verdict));
  t.diagnostic(`the farthest ${worst.toExponential(1)} apart`);
});
