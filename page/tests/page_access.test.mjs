// For everyone: screen readers, keys, small screens, those whom motion makes ill. And pictures to look at.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { test } from "node:test";
import { calm, desk, onPage, pageWith, phone, section, sections, settled, tape, withBrowser } from "./support/browser.mjs";
import { builtPage, examplePath, root } from "./support/project.mjs";

const held = withBrowser();
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const pictures = join(root, "out/page");
mkdirSync(pictures, { recursive: true });

/** Faults of WCAG 2.1 A and AA and of good practice that axe finds serious or worse. */
async function seriousFaults(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.target.join(" ")}: ${node.failureSummary}`));
}

async function openAll(page) {
  for (const title of sections) await section(page, title);
  await (await section(page, "Sheet to print")).getByRole("img").first().waitFor();
  await settled(page);
}

const screens = [{ name: "phone", viewport: phone, isMobile: true, hasTouch: true }, { name: "desk", viewport: desk }];

for (const { name, ...options } of screens) {
  test(`axe finds nothing serious on a ${name}, with every section open`, async () => {
    await onPage(held, builtPage, options, async (page) => {
      assert.deepEqual(await seriousFaults(page), []);
      await page.getByRole("button", { name: "Put a walker on" }).click();
      await openAll(page);
      assert.deepEqual(await seriousFaults(page), []);
      await tape(page, 3).click();
      assert.deepEqual(await seriousFaults(page), []);
      await page.getByRole("button", { name: "Open", exact: true }).click();
      await page.getByRole("dialog").waitFor();
      assert.deepEqual(await seriousFaults(page), []);
    });
  });

  test(`nothing scrolls sideways on a ${name}, with every section open`, async () => {
    for (const rig of ["practice-line", "heron-gorge"]) {
      await onPage(held, pageWith(held, examplePath(rig)), options, async (page) => {
        await openAll(page);
        const [inside, outside] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
        assert.ok(inside <= outside, `${rig}: ${inside} px in ${outside} px`);
      });
    }
  });

  test(`pictures of the page on a ${name} are in out/page`, async () => {
    for (const rig of ["practice-line", "heron-gorge"]) {
      await onPage(held, pageWith(held, examplePath(rig)), options, async (page) => {
        await settled(page);
        await page.evaluate(() => scrollTo(0, 0));
        await page.screenshot({ path: join(pictures, `${rig}-${name}.png`) });
        await openAll(page);
        const whole = join(pictures, `${rig}-${name}-all.png`);
        await page.screenshot({ path: whole, fullPage: true });
        assert.ok(statSync(whole).size > 100_000, "an empty page takes a tenth of that");
      });
    }
  });
}

// WCAG 2.1, 2.5.5 Target Size: 44 by 44 CSS px. Links inside sentences are let be, as there.
test("what is pressed on a phone is large enough for a cold finger", async () => {
  await onPage(held, builtPage, { viewport: phone, isMobile: true, hasTouch: true }, async (page) => {
    await openAll(page);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("button, select, summary, input:not([hidden])")].flatMap((each) => {
        const box = each.getBoundingClientRect();
        // A small box in a label is pressed by its label.
        const label = each.closest("label")?.getBoundingClientRect() ?? box;
        const [wide, high] = [Math.max(box.width, label.width), Math.max(box.height, label.height)];
        return box.width > 0 && (wide < 43.5 || high < 43.5) ? [`${each.tagName} "${each.textContent.trim() || each.getAttribute("aria-label")}" ${wide.toFixed(0)} x ${high.toFixed(0)}`] : [];
      }));
    assert.deepEqual(small, []);
  });
});

/** Shakes the line and gives the section once the result is told. */
async function shaken(page) {
  const shake = await section(page, "Shake it");
  await shake.getByRole("button", { name: "Shake it", exact: true }).click();
  await shake.getByRole("button", { name: "Shake it again", exact: true }).waitFor({ timeout: 240_000 });
  return shake;
}

const breath = 1500; // long enough to see whether something moves [ms]

test("nothing moves by itself for those who want it still: the shake is a picture", async () => {
  await onPage(held, builtPage, { viewport: desk, reducedMotion: "reduce" }, async (page) => {
    await settled(page);
    const shake = await shaken(page);
    await shake.getByRole("status").filter({ hasText: "%" }).waitFor();
    // What else is computed meanwhile comes into the page above, and moves the section as a whole.
    const stop = calm(page).getByRole("button", { name: "Stop" });
    if (await stop.count()) await stop.click();
    const picture = await shake.screenshot();
    await page.waitForTimeout(breath);
    assert.ok(picture.equals(await shake.screenshot()), "the section looks the same a breath later");
    const moving = await page.evaluate(() => document.getAnimations().filter((each) => each.playState === "running" && each.effect.getComputedTiming().duration > 10).length);
    assert.equal(moving, 0);
  });
});

test("for everybody else the shake is a film that plays, pauses and is stepped by keys", async () => {
  await onPage(held, builtPage, { viewport: desk }, async (page) => {
    await settled(page);
    const shake = await shaken(page);
    const head = shake.getByRole("slider", { name: /^Moment of the shake/ });
    if (await shake.getByRole("button", { name: "Play", exact: true }).count()) await shake.getByRole("button", { name: "Play", exact: true }).click();
    const first = await head.inputValue();
    await page.waitForFunction(([element, old]) => element.value !== old, [await head.elementHandle(), first]);
    await shake.getByRole("button", { name: "Pause", exact: true }).click();
    const still = Number(await head.inputValue());
    await head.press("ArrowRight");
    assert.equal(Number(await head.inputValue()), still + 1);
    await shake.getByRole("button", { name: "Frame back" }).click();
    assert.equal(Number(await head.inputValue()), still);
  });
});

test("keys alone take out a tape and read what came of it", async () => {
  await onPage(held, builtPage, { viewport: desk }, async (page) => {
    await settled(page);
    await page.evaluate(() => scrollTo(0, 0));
    for (let i = 0; i < 40; ++i) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(() => /^Tape \d+$/.test(document.activeElement?.getAttribute("aria-label") ?? ""))) break;
    }
    const name = await page.evaluate(() => document.activeElement.getAttribute("aria-label"));
    assert.match(name, /^Tape \d+$/);
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
    const shownBy = await page.evaluate(() => document.activeElement.matches(":focus-visible"));
    assert.ok(shownBy || outline !== "none");
    await page.keyboard.press("Delete");
    await page.getByRole("button", { name: `Undo taking out ${name.toLowerCase()}` }).waitFor();
    await page.getByRole("status").filter({ hasText: `${name} taken out` }).waitFor();
    await page.keyboard.press("Control+Z");
    await tape(page, 8).waitFor();
    assert.ok(await calm(page).isVisible());
  });
});
