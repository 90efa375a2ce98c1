// How fast the page is, in Chromium on this machine: a table for docs/performance.md. Nothing is asserted.
//   node page/bench/bench.mjs       (after ./check or scripts/build_page.sh; SPANLOOM names another command)
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { launch } from "../tests/support/chromium.mjs";
import { builtPage, command, practiceLine, root, spanloom } from "../tests/support/project.mjs";

const bench = fileURLToPath(new URL("r100.toml", import.meta.url));
const r100 = { name: "r100.toml", text: readFileSync(bench, "utf8"), sides: [] };
const folder = mkdtempSync(join(tmpdir(), "spanloom-bench-"));
const moves = 60;
const coldRuns = 5;
const rounds = 15;

const sorted = (values) => [...values].sort((a, b) => a - b);
const median = (values) => sorted(values)[Math.floor(values.length / 2)];
const range = (values) => `${sorted(values)[0].toFixed(1)} to ${sorted(values).at(-1).toFixed(1)}`;

function pageWith(rig, name) {
  const path = join(folder, name);
  spanloom("page", rig, "-o", path, "--template", builtPage);
  return pathToFileURL(path).href;
}

/** From a cold start of the browser and the beginning of the opening to the frame after the line was drawn [ms]. */
async function firstPicture(url) {
  const browser = await launch();
  const page = await browser.newPage();
  await page.addInitScript(() => {
    globalThis.drawn = new Promise((settle) => {
      const watch = new MutationObserver(() => {
        if (!document.querySelector(".loops-main")?.getAttribute("d")) return;
        watch.disconnect();
        requestAnimationFrame(() => settle(performance.now()));
      });
      watch.observe(document, { childList: true, subtree: true, attributes: true });
    });
  });
  await page.goto(url);
  const at = await page.evaluate(() => globalThis.drawn);
  await browser.close();
  return at;
}

/** From a move of the mouse to the loops and numbers of the new plan on the page [ms]. */
async function drags(url) {
  const browser = await launch();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(url);
  const pin = page.getByRole("slider", { name: "Tape 20", exact: true });
  await pin.evaluate((each) => each.scrollIntoView({ block: "center" }));
  await page.waitForTimeout(2000);
  const box = await pin.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + 19];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 6, y, { steps: 3 });
  await page.waitForTimeout(500);
  await page.evaluate(() => {
    addEventListener("pointermove", () => {
      const from = performance.now();
      globalThis.taken = new Promise((settle) => {
        // The loops are drawn from the plan, in the same step as its numbers; the pin alone follows the hand without it.
        const watch = new MutationObserver(() => {
          watch.disconnect();
          settle(performance.now() - from);
        });
        setTimeout(() => settle(null), 3000); // a move that changed nothing
        watch.observe(document.querySelector(".loops-backup"), { attributes: true });
      });
    }, true);
  });
  const times = [];
  for (let i = 0; i < moves; ++i) {
    await page.mouse.move(x + 6 + 3 * (i % 2), y);
    const took = await page.evaluate(() => globalThis.taken);
    if (took !== null) times.push(took);
    await page.waitForTimeout(120); // until the hand's rest has been answered too
  }
  await browser.close();
  return times;
}

/** The engine alone in an empty page of the browser. */
async function engineIn(browser) {
  const page = await browser.newPage();
  const source = readFileSync(join(root, "page/src/engine/engine.mjs"), "utf8");
  await page.evaluate(async (text) => {
    const { default: start } = await import(URL.createObjectURL(new Blob([text], { type: "text/javascript" })));
    globalThis.engine = await start();
  }, source);
  return (method, args) =>
    page.evaluate(([name, asked]) => {
      const from = performance.now();
      const answer = JSON.parse(globalThis.engine.call(name, asked, () => {}));
      if (!answer.ok) throw new Error(answer.words);
      return performance.now() - from;
    }, [method, JSON.stringify(args)]);
}

/** Time of a run of the command, reading and printing included [ms]. */
function run(...args) {
  const from = performance.now();
  spawnSync(command, args, { maxBuffer: 64e6 });
  return performance.now() - from;
}

const url = pageWith(bench, "r100.html");
const practiceUrl = pageWith(join(root, "examples/practice-line/rig.toml"), "practice.html");
const cold = [];
for (let i = 0; i < coldRuns; ++i) cold.push(await firstPicture(practiceUrl));
const drag = await drags(url);
const browser = await launch();
const call = await engineIn(browser);
const [whole, quick, byCommand] = [[], [], []];
for (let i = 0; i < rounds; ++i) {
  whole.push(await call("plan", { files: r100, units: "metric", whole: true }));
  quick.push(await call("plan", { files: r100, units: "metric", whole: false }));
  byCommand.push(run("plan", bench, "--json") - run("--version"));
}
const shake = { line: "rig", frequency_Hz: 2, place: 0.5, direction: "sideways" };
const film = [];
const single = [];
for (let i = 0; i < 3; ++i) {
  film.push(await call("shake_film", { files: practiceLine, shake, seconds: 10, frame_s: 1 / 60 }));
  single.push(await call("shake", { files: practiceLine, shake }));
}
const version = browser.version();
await browser.close();
rmSync(folder, { recursive: true });

const row = (what, values, more = "") => console.log(`| ${what} | ${median(values).toFixed(1)} ms | ${range(values)} ms | ${more} |`);
console.log(`Chromium ${version}, page of ${(readFileSync(builtPage).length / 1e6).toFixed(2)} MB.\n`);
console.log("| what | median | from, to | |\n|---|---|---|---|");
row("cold open to first picture, practice line", cold, `${coldRuns} starts of the browser`);
row("drag to new numbers, 100 m and 40 bays", drag, `${drag.length} moves of the mouse`);
row("whole plan of that line in WebAssembly", whole, `${(median(whole) / median(byCommand)).toFixed(1)} times the command`);
row("the same by the command, net of its start", byCommand, `${rounds} rounds in turns`);
row("quick plan of a drag in WebAssembly", quick);
row("one shake of the practice line, to its number", single);
row("film of 10 s of that shake, 60 frames a second", film, `${(10_000 / median(film)).toFixed(1)} s a second`);
