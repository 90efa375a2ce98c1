// The page as it opens: from a file, without a network, with the numbers of the command.
import assert from "node:assert/strict";
import { test } from "node:test";
import { desk, onPage, open, pageWith, phone, section, settled, withBrowser } from "./support/browser.mjs";
import { builtPage, examplePath, heronGorge, spanloom } from "./support/project.mjs";

const held = withBrowser();

test("opens with the practice line and asks no network for anything", async () => {
  await onPage(held, builtPage, {}, async (page) => {
    await page.getByRole("heading", { level: 1, name: "Practice line, willow bank" }).waitFor();
    await settled(page);
  });
});

test("could not ask a network if it wanted to: the page forbids it", async () => {
  const { page, asked, complaints, close } = await open(held);
  assert.ok(await page.evaluate(() => fetch("https://example.org/").then(() => false, () => true)));
  assert.ok(complaints.every((words) => words.includes("Content Security Policy") || words.includes("example.org")), complaints.join("\n"));
  assert.deepEqual(asked.filter((url) => url.startsWith("http")), []);
  await close();
});

test("opens with the rig that the command put into it, side files too", async () => {
  const path = pageWith(held, examplePath("heron-gorge"));
  await onPage(held, path, { viewport: phone }, async (page) => {
    await page.getByRole("heading", { level: 1, name: "Heron gorge, west window" }).waitFor();
    assert.equal(await page.title(), "Heron gorge, west window - Spanloom");
    const file = await section(page, "Rig file");
    for (const { name } of heronGorge.sides) assert.equal(await file.getByRole("option", { name }).count(), 1, name);
  });
});

const shown = (value, factor, digits) => (value * factor).toFixed(digits).replace("-", "\u2212");
const kN = (value) => `${shown(value, 1e-3, 2)}\u00a0kN`;
const m = (value) => `${shown(value, 1, 2)}\u00a0m`;

/** What stands in a row of a table of numbers. */
async function row(part, table, name) {
  const rows = part.getByRole("table", { name: table }).getByRole("row").filter({ has: part.page().getByRole("rowheader", { name: new RegExp(`^${name}`) }) });
  return (await rows.first().getByRole("cell").innerText()).replace(/\s*\n\s*/g, " ");
}

for (const name of ["practice-line", "heron-gorge"]) {
  test(`shows the numbers of the command for ${name}`, async () => {
    const { plan } = JSON.parse(spanloom("plan", examplePath(name), "--json"));
    await onPage(held, pageWith(held, examplePath(name)), { viewport: desk }, async (page) => {
      await settled(page);
      const numbers = await section(page, "Numbers");
      const standing = "Standing, nobody on the line";
      assert.match(await row(numbers, standing, "Tension, near"), new RegExp(`^${kN(plan.standing.tension_near_N)}`));
      assert.match(await row(numbers, standing, "Load on the near anchor"), new RegExp(`^${kN(plan.standing.anchor_near_N)}`));
      assert.match(await row(numbers, standing, "Greatest sag"), new RegExp(`^${m(plan.standing.sag_m)}`));
      const walking = "With the worst place of a walker";
      const worst = (key) => Math.max(...plan.walker.map((place) => place[key]));
      assert.match(await row(numbers, walking, "Greatest tension of the main"), new RegExp(`^${kN(worst("tension_max_N"))}`));
      assert.match(await row(numbers, walking, "Load on the far anchor"), new RegExp(`^${kN(worst("anchor_far_N"))}`));
      assert.match(await row(numbers, "Lengths", "Main in all"), new RegExp(`^${m(plan.standing.main_natural_length_m)}`));
    });
  });

  test(`shows every bay and every check of the command for ${name}`, async () => {
    const { plan } = JSON.parse(spanloom("plan", examplePath(name), "--json"));
    await onPage(held, pageWith(held, examplePath(name)), { viewport: desk }, async (page) => {
      await settled(page);
      const rows = (await section(page, "Bays")).getByRole("row");
      assert.equal(await rows.count(), plan.bays.length + 1);
      const cells = await rows.evaluateAll((all) => all.slice(1).map((each) => [...each.querySelectorAll("th, td")].map((cell) => cell.textContent)));
      plan.bays.forEach((bay, i) => {
        const [, , main, spans, backup, drop] = cells[i];
        const told = [shown(bay.main_natural_m, 1, 2), shown(bay.arm_spans, 1, 2), shown(bay.backup_natural_m, 1, 2), shown(bay.drop_m, 1e3, 0)];
        assert.deepEqual([main, spans, backup, drop], told, `bay ${bay.number}`);
      });
      const checks = await section(page, "Checks");
      const items = await checks.getByRole("heading", { level: 3 }).allInnerTexts();
      for (const check of plan.checks) {
        assert.ok(items.some((item) => item.toLowerCase().startsWith(check.verdict) && item.endsWith(check.title)), `${check.verdict}: ${check.title}`);
      }
      assert.equal(await checks.getByRole("listitem").filter({ has: page.getByRole("heading", { level: 3 }) }).count(), plan.checks.length);
    });
  });
}

test("shows feet, inches and pounds-force on wish, and remembers the wish", async () => {
  const { plan } = JSON.parse(spanloom("plan", examplePath("practice-line"), "--json"));
  await onPage(held, builtPage, {}, async (page) => {
    await page.getByRole("combobox", { name: "Units" }).selectOption("us");
    await settled(page);
    const numbers = await section(page, "Numbers");
    // NIST SP 811 (2008), Appendix B: 1 lbf = 4.448 221 615 2605 N, 1 ft = 0.3048 m.
    const lbf = `${(plan.standing.tension_near_N / 4.4482216152605).toFixed(0)}\u00a0lbf`;
    const feet = `${(plan.standing.sag_m / 0.3048).toFixed(2)}\u00a0ft`;
    assert.match(await row(numbers, "Standing, nobody on the line", "Tension, near"), new RegExp(`^${lbf}`));
    assert.match(await row(numbers, "Standing, nobody on the line", "Greatest sag"), new RegExp(`^${feet}`));
    await page.reload();
    assert.equal(await page.getByRole("combobox", { name: "Units" }).inputValue(), "us");
  });
});

test("says what it is not, without a press", async () => {
  for (const viewport of [phone, desk]) {
    await onPage(held, builtPage, { viewport }, async (page) => {
      const line = page.getByText(/planning aid, not a certificate/i).first();
      await line.waitFor();
      assert.ok(await line.isVisible());
    });
  }
});
