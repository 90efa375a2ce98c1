// Where things lie, and the command that the page is compared with.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

export const root = resolve(dirname(fileURLToPath(import.meta.url)), "../../..");

/** The command: of the release build, or the one that SPANLOOM names. */
export const command = resolve(process.env.SPANLOOM ?? join(root, "build/release/cli/spanloom"));

/** The built page: beside the command, or the one that SPANLOOM_PAGE names. */
export const builtPage = resolve(process.env.SPANLOOM_PAGE ?? join(dirname(command), "spanloom.html"));

for (const needed of [command, builtPage]) {
  if (!existsSync(needed)) throw new Error(`no ${needed}: ./check builds it`);
}

/** Files of an example as the engine takes them. @returns {import("../../src/engine/api").RigFiles} */
export function example(name, sides = []) {
  const read = (file) => readFileSync(join(root, "examples", name, file), "utf8");
  return { name: "rig.toml", text: read("rig.toml"), sides: sides.map((side) => ({ name: side, text: read(side) })) };
}

export const examplePath = (name) => join(root, "examples", name, "rig.toml");

export const practiceLine = example("practice-line");
export const heronGorge = example("heron-gorge", ["ground.csv", "brook.csv"]);

/** Runs `spanloom` and gives what it printed. A check that says stop is an answer too. */
export function spanloom(...args) {
  const ran = spawnSync(command, args, { encoding: "utf8", maxBuffer: 64e6 });
  if (ran.status !== 0 && ran.status !== 1) throw new Error(`spanloom ${args.join(" ")}: exit ${ran.status}\n${ran.stderr}`);
  return ran.stdout;
}

/** The words of a PDF in reading order, ligatures as letters. */
export function wordsOfPdf(path) {
  return execFileSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8" }).normalize("NFKC").split(/\s+/).filter(Boolean);
}

export function pagesOfPdf(path) {
  return Number(/^Pages:\s+(\d+)$/m.exec(execFileSync("pdfinfo", [path], { encoding: "utf8" }))?.[1]);
}
