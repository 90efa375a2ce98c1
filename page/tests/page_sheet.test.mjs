// The sheet for the crew, printed from the page, beside the one that the command writes.
import assert from "node:assert/strict";
import { join } from "node:path";
import { test } from "node:test";
import { onPage, pageWith, phone, section, withBrowser } from "./support/browser.mjs";
import { examplePath, pagesOfPdf, spanloom, wordsOfPdf } from "./support/project.mjs";

const held = withBrowser();

for (const name of ["practice-line", "heron-gorge"]) {
  test(`prints the sheet of ${name}: the pages and the words of the command's`, async () => {
    const today = new Date();
    const two = (value) => String(value).padStart(2, "0");
    const date = `${today.getFullYear()}-${two(today.getMonth() + 1)}-${two(today.getDate())}`;
    spanloom("plan", examplePath(name), "-o", join(held.folder, name), "--date", date);
    const theirs = join(held.folder, name, "sheet.pdf");
    const ours = join(held.folder, `${name}.pdf`);
    await onPage(held, pageWith(held, examplePath(name), `${name}.html`), { viewport: phone }, async (page) => {
      const sheet = await section(page, "Sheet to print");
      await sheet.getByText(`${pagesOfPdf(theirs)} pages, A4`).waitFor();
      await page.evaluate(() => Promise.all([...document.querySelectorAll(".printed img")].map((image) => image.decode())));
      await page.pdf({ path: ours, preferCSSPageSize: true });
      assert.equal(pagesOfPdf(ours), pagesOfPdf(theirs));
      // What the page prints is an image of text: words may be set in another font and read in another order.
      assert.deepEqual(wordsOfPdf(ours).sort(), wordsOfPdf(theirs).sort());
    });
  });
}
