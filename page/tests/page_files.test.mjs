// Opening, mending and saving rig files.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { test } from "node:test";
import { calm, onPage, pageWith, phone, rigFile, saved, section, settled, tape, textOf, withBrowser } from "./support/browser.mjs";
import { builtPage, command, examplePath, practiceLine } from "./support/project.mjs";

const held = withBrowser();
const button = (page, name) => page.getByRole("button", { name, exact: typeof name === "string" });

/** Gives files to "Open". */
async function openFiles(page, files) {
  await button(page, "Open").click();
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), button(page, "Choose files").click()]);
  await chooser.setFiles(files);
}

/** Drops files on the page, as from a folder. */
const dropFiles = (page, files) =>
  page.evaluate((all) => {
    const transfer = new DataTransfer();
    for (const { name, text } of all) transfer.items.add(new File([text], name));
    for (const kind of ["dragover", "drop"]) window.dispatchEvent(new DragEvent(kind, { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, files);

/** Puts a text into the editor, whatever stood there. */
async function write(page, text) {
  const content = (await section(page, "Rig file")).getByRole("textbox", { name: "Text of the file" });
  await content.click();
  await page.keyboard.press("Control+A");
  await page.keyboard.insertText(text);
}

test("a rig saved without a change is the file that was opened, to the byte", async () => {
  const path = pageWith(held, examplePath("practice-line"));
  await onPage(held, path, {}, async (page) => {
    const file = await saved(page, () => button(page, /^Save/).first().click());
    assert.equal(file.name, "rig.toml");
    assert.equal(file.text, practiceLine.text);
  });
});

test("a rig saved after a change keeps its comments, and opens again as it was", async () => {
  await onPage(held, pageWith(held, examplePath("practice-line")), { viewport: phone }, async (page) => {
    await tape(page, 4).click();
    await button(page, "Take this tape out").click();
    await button(page, /^Undo taking out tape 4/).waitFor();
    const text = await textOf(page);
    // A comment behind a value goes with the value; those on lines of their own and behind what was not changed stay.
    const alone = (all) => all.split("\n").filter((line) => line.startsWith("#") || /^\[webbing\..*#/.test(line));
    assert.deepEqual(alone(text), alone(practiceLine.text));
    assert.notEqual(text, practiceLine.text);
    const path = rigFile(held, text, "changed.toml");
    await openFiles(page, [path]);
    await page.getByText("Opened changed.toml.").waitFor();
    await settled(page);
    assert.equal(await tape(page, 8).count(), 0);
    assert.equal(await tape(page, 7).count(), 1);
    assert.equal(await textOf(page), text);
    assert.ok(await button(page, /^Undo/).isDisabled(), "another file, another history");
  });
});

test("faults of a file are those of the command, at its lines and columns, and the picture stays", async () => {
  const bad = practiceLine.text.replace('tension = "2.5 kN"', 'tension = "2.5"').replace('mass = "62 kg"', 'mass = "62 kilo"');
  const path = rigFile(held, bad, "bad.toml");
  const ran = spawnSync(command, ["plan", path], { encoding: "utf8" });
  assert.equal(ran.status, 2);
  const told = ran.stderr.trim().split("\n").map((line) => /bad\.toml:(\d+):(\d+): (.*)/.exec(line));
  assert.equal(told.length, 2);
  await onPage(held, builtPage, {}, async (page) => {
    await settled(page);
    await write(page, bad);
    await page.getByText("The file has 2 faults.").waitFor();
    await page.getByText("The picture is of the last good text.").waitFor();
    const file = await section(page, "Rig file");
    const rows = await file.getByRole("listitem").getByRole("button").allInnerTexts();
    assert.deepEqual(rows, told.map(([, line, column, words]) => `line ${line}, column ${column}: ${words}`));
    assert.equal(await tape(page, 8).count(), 1);
    // A press on the fault goes to its place in the text.
    await file.getByRole("listitem").getByRole("button").first().click();
    const line = bad.split("\n")[told[0][1] - 1];
    await page.waitForFunction((text) => {
      const at = getSelection()?.anchorNode;
      return (at instanceof Element ? at : at?.parentElement)?.closest(".cm-line")?.textContent === text;
    }, line);
    await write(page, practiceLine.text);
    await settled(page);
    assert.equal(await page.getByText(/The file has/).count(), 0);
  });
});

test("a ground dropped as a CSV file becomes the ground of the rig", async () => {
  await onPage(held, builtPage, {}, async (page) => {
    await settled(page);
    await dropFiles(page, [{ name: "meadow.csv", text: "distance [m],height [m]\n0,-1.2\n8,-9\n16,-1.2\n" }]);
    await page.getByRole("heading", { name: "What is meadow.csv for?" }).waitFor();
    await button(page, "Use it as the ground").click();
    await page.getByText("meadow.csv is used as the ground.").waitFor();
    await settled(page);
    const dialog = page.getByRole("dialog");
    await button(page, /^Save/).first().click();
    await dialog.getByRole("heading", { name: "Save" }).waitFor();
    const rig = await saved(page, () => dialog.getByRole("button", { name: /^Save .*\.toml/ }).click());
    const ground = await saved(page, () => dialog.getByRole("button", { name: "Save meadow.csv" }).click());
    assert.match(rig.text, /^ground = "meadow\.csv"/m);
    assert.equal(ground.text, "distance [m],height [m]\n0,-1.2\n8,-9\n16,-1.2\n");
  });
});

test("a rig dropped with the files that it names opens, and one without them asks for them", async () => {
  const { heronGorge } = await import("./support/project.mjs");
  await onPage(held, builtPage, {}, async (page) => {
    await settled(page);
    await dropFiles(page, [{ name: "heron.toml", text: heronGorge.text }, ...heronGorge.sides]);
    await page.getByRole("heading", { level: 1, name: "Heron gorge, west window" }).waitFor();
    await settled(page);
    await dropFiles(page, [{ name: "alone.toml", text: heronGorge.text }, heronGorge.sides[0]]);
    await page.getByText(/The file has/).waitFor();
    const file = await section(page, "Rig file");
    await file.getByRole("button", { name: "Add file brook.csv" }).waitFor();
    await dropFiles(page, [heronGorge.sides[1]]);
    await settled(page);
    assert.equal(await page.getByText(/The file has/).count(), 0);
  });
});

test("a value typed with its unit changes the file and the plan", async () => {
  await onPage(held, builtPage, {}, async (page) => {
    await settled(page);
    const values = await section(page, "Values");
    const field = values.getByRole("textbox", { name: /^Standing tension/ });
    await field.fill("3 kN");
    await field.press("Enter");
    await button(page, /^Undo changing the standing tension/).waitFor();
    await settled(page);
    const numbers = await section(page, "Numbers");
    assert.match(await numbers.getByRole("row", { name: /^Tension, near/ }).first().innerText(), /3\.00\s*kN/);
    assert.match(await textOf(page), /^tension = "3 kN"$/m);
    await field.fill("3 bananas");
    await field.press("Enter");
    await values.getByRole("alert").filter({ hasText: /expected/ }).waitFor();
    assert.match(await textOf(page), /^tension = "3 kN"$/m);
    assert.ok(await calm(page).isVisible());
  });
});
