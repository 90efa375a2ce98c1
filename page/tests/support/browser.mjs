// The built page in Chromium, opened from a file as on a phone without a network.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before } from "node:test";
import { pathToFileURL } from "node:url";
import { launch } from "./chromium.mjs";
import { builtPage, spanloom } from "./project.mjs";

export const phone = { width: 360, height: 740 };
export const desk = { width: 1280, height: 800 };

/** Longest that anything but shaking may take, on a machine that does other things too [ms]. */
const patience = 30_000;

/** One browser for a file of tests, and a folder that is gone afterwards. */
export function withBrowser() {
  const held = { browser: /** @type {import("playwright-core").Browser | null} */ (null), folder: "" };
  before(async () => {
    held.folder = mkdtempSync(join(tmpdir(), "spanloom-page-"));
    held.browser = await launch();
  });
  after(async () => {
    await held.browser?.close();
    rmSync(held.folder, { recursive: true, force: true });
  });
  return held;
}

/** Writes the page with a rig in it, as the command does. @returns its path */
export function pageWith(held, rig, name = "page.html") {
  const path = join(held.folder, name);
  spanloom("page", rig, "-o", path, "--template", builtPage);
  return path;
}

/** A rig file in the folder of the tests. @returns its path */
export function rigFile(held, text, name = "rig.toml") {
  const path = join(held.folder, name);
  writeFileSync(path, text);
  return path;
}

/**
 * Opens a page and notes all that it asks for and complains of.
 * @param options of Playwright's new context
 */
export async function open(held, path = builtPage, options = {}) {
  const context = await held.browser.newContext({ viewport: desk, acceptDownloads: true, locale: "en-GB", ...options });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  const asked = [];
  const complaints = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("console", (line) => line.type() === "error" && complaints.push(line.text()));
  page.on("pageerror", (fault) => complaints.push(String(fault)));
  page.on("crash", () => complaints.push("the page crashed"));
  await page.goto(pathToFileURL(path).href);
  await tape(page, 1).waitFor().catch((fault) => {
    throw new Error(`no line was drawn; complaints: ${complaints.join("; ") || "none"}`, { cause: fault });
  });
  return { page, asked, complaints, close: () => context.close() };
}

/** Opens, does something, and asserts that nothing was asked of a network and nothing complained. */
export async function onPage(held, path, options, work) {
  const opened = await open(held, path, options);
  try {
    await work(opened.page, opened);
    const outside = opened.asked.filter((url) => !/^(file|blob|data):/.test(url));
    assert.deepEqual(outside, [], "nothing is asked of a network");
    assert.deepEqual(opened.complaints, [], "nothing is complained of");
  } finally {
    await opened.close();
  }
}

/** Opens a section. @returns its element */
export async function section(page, title) {
  const part = page.locator("details", { has: page.getByRole("heading", { name: title, exact: true, level: 2 }) });
  if (!(await part.evaluate((details) => details.open))) await part.locator(":scope > summary").click();
  await part.locator(".section-body > *").first().waitFor();
  return part;
}

export const sections = ["Values", "Checks", "Numbers", "Bays", "Shake it", "Let it fall", "Rig file", "Sheet to print", "Cautions"];

export const tape = (page, number) => page.getByRole("slider", { name: `Tape ${number}`, exact: true });

/** The words of the return. */
export const calm = (page) => page.getByRole("region", { name: "How calm is it?" });

/** Until the whole plan of what is shown is there, with its checks. */
export async function settled(page) {
  await page.waitForTimeout(150); // a change has been asked for by then
  const checks = await section(page, "Checks");
  await checks.getByText(/checks of the rig as it stands/).waitFor();
}

/** The file that a press on a button saves. */
export async function saved(page, press) {
  const [download] = await Promise.all([page.waitForEvent("download"), press()]);
  const chunks = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk);
  return { name: download.suggestedFilename(), text: Buffer.concat(chunks).toString("utf8") };
}

/** The text of the rig file as it stands: what Save hands over. Of a rig without side files. */
export const textOf = async (page) => (await saved(page, () => page.getByRole("button", { name: /^Save( |$)/ }).first().click())).text;
