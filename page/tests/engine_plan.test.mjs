// The plan in WebAssembly against the plan of the command, number by number.
import assert from "node:assert/strict";
import { test } from "node:test";
import { ask } from "./support/engine.mjs";
import { examplePath, heronGorge, practiceLine, spanloom } from "./support/project.mjs";

// Both run the same source without fused multiply-adds, but native adds four lanes side by side where WebAssembly has two,
// so a sum may be rounded in another order: some 1e-16 of it.
const relative = 1e-12;

// How a solve got there, not where it ended: steps taken, what was left over, bounds of rounding.
const leftOut = new Set(["certificate"]);

/** What a difference is small against: a value near zero, such as the sag beside an anchor, has no size of its own. */
function scaleOf(key, forces) {
  if (key.endsWith("_N")) return forces;
  return 1; // m, s, shares, slopes
}

/** All leaves of a document with their paths. */
function leaves(value, path = "", key = "", out = []) {
  if (leftOut.has(key)) return out;
  if (Array.isArray(value)) value.forEach((each, i) => leaves(each, `${path}[${i}]`, key, out));
  else if (value !== null && typeof value === "object") for (const [name, each] of Object.entries(value)) leaves(each, `${path}.${name}`, name, out);
  else out.push({ path, key, value });
  return out;
}

for (const [name, files] of [["practice-line", practiceLine], ["heron-gorge", heronGorge]]) {
  const told = JSON.parse(spanloom("plan", examplePath(name), "--json"));
  const { document, whole, picture } = ask("plan", { files, units: "metric", whole: true });
  const forces = told.plan.standing.certificate.greatest_force_N;

  test(`${name}: every number of the plan is the command's`, (t) => {
    const theirs = leaves(told);
    const ours = leaves(document);
    assert.deepEqual(ours.map(({ path }) => path), theirs.map(({ path }) => path));
    let worst = 0;
    let numbers = 0;
    theirs.forEach(({ path, key, value }, i) => {
      const our = ours[i].value;
      if (typeof value !== "number" || typeof our !== "number") return assert.equal(our, value, path);
      const away = Math.abs(our - value) / Math.max(Math.abs(value), scaleOf(key, forces));
      worst = Math.max(worst, away);
      ++numbers;
      assert.ok(away <= relative, `${path}: ${our} in WebAssembly, ${value} by the command`);
    });
    assert.ok(numbers > 300, `only ${numbers} numbers`);
    t.diagnostic(`${numbers} numbers, the farthest ${worst.toExponential(1)} apart`);
  });

  test(`${name}: the picture is drawn from the same plan`, () => {
    const { bays } = told.plan;
    assert.ok(whole);
    assert.equal(picture.tapes.length, 2 * (bays.length + 1));
    assert.equal(picture.loops.length, bays.length);
    bays.forEach((bay, i) => assert.ok(Math.abs(picture.tapes[2 * (i + 1)] - bay.to_m) < 1e-9, `tape ${i + 1}`));
    const drawn = picture.main.filter((_, i) => i % 2 === 0);
    assert.ok(Math.abs(drawn[0]) < 1e-9 && Math.abs(drawn.at(-1) - picture.gap_m) < 1e-9, "from anchor to anchor");
    // The picture's own nodes are a mesh: its deepest is at most a bar beside the deepest of the line.
    const chord = (x) => (picture.rise_m * x) / picture.gap_m;
    const sag = Math.max(...drawn.map((x, i) => chord(x) - picture.main[2 * i + 1]));
    assert.ok(sag > 0.98 * told.plan.standing.sag_m && sag < told.plan.standing.sag_m + 1e-9, `drawn ${sag}, told ${told.plan.standing.sag_m}`);
  });

  test(`${name}: the quick plan of a drag has the same standing line`, () => {
    const quick = ask("plan", { files, units: "metric", whole: false });
    assert.equal(quick.whole, false);
    const ours = leaves(quick.document.plan.bays);
    leaves(document.plan.bays).forEach(({ path, value }, i) => {
      if (typeof value === "number") assert.ok(Math.abs(ours[i].value - value) <= relative * Math.max(1, Math.abs(value)), path);
    });
  });
}
