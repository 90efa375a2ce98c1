// The browser that tests and bench run the page in: Debian's Chromium.
import { chromium } from "playwright-core";

/** Starts one. Whoever starts it closes it. */
export function launch() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    chromiumSandbox: false, // which root cannot have
    args: ["--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
}
