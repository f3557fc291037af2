// The release page in Firefox: what differs between browsers is in the first minute on it.

import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { launch as start } from "puppeteer-core";
import { DESK, code, drag, number, press, readout, ready, settled, turnTo } from "./driver.mjs";
import { filesKept, filesOfPage, pageAsOneFile, serve } from "./site.mjs";

const HEIGHT = "Frame height";
const AT_FIRST = "9 13/16 in";

let browser;
let files;
before(async () => {
  const executablePath = process.env.SCRUBLINE_FIREFOX;
  assert.ok(executablePath, "SCRUBLINE_FIREFOX is not set: run this through cargo xtask");
  // By WebDriver BiDi; a profile of its own, which is removed again.
  browser = await start({ browser: "firefox", executablePath, protocolTimeout: 60000 });
  files = await filesOfPage();
});
after(() => browser?.close());

/** A page in this browser, ready to be dragged, with what went wrong on it. */
async function openAt(context, address) {
  const page = await context.newPage();
  await page.setViewport(DESK);
  const faults = [];
  page.on("pageerror", (error) => faults.push(`error: ${error.message}`));
  page.on("console", (line) => line.type() === "error" && faults.push(`console: ${line.text()}`));
  await page.evaluateOnNewDocument(() => {
    window.refusals = [];
    document.addEventListener("securitypolicyviolation", (event) => window.refusals.push(event.violatedDirective));
  });
  await page.goto(address, { waitUntil: "load" });
  await ready(page);
  return { page, faults };
}

const sound = async (page, faults) => assert.deepEqual([...faults, ...await page.evaluate(() => window.refusals)], []);

test("the spindle is dragged, the link opened, the work kept, and all of it without a network", async () => {
  const site = await serve(files);
  const context = await browser.createBrowserContext();
  try {
    const { page, faults } = await openAt(context, site.url);
    assert.equal(await readout(page, HEIGHT), AT_FIRST);
    await drag(page, "wheel-centre", [[0, -37], [2, -30]]);
    const height = await readout(page, HEIGHT);
    assert.ok(number(height) < number(AT_FIRST), `a pin that is pushed up lets the frame down: ${height}`);
    const own = await code(page);
    assert.ok(own, "the address holds the design");

    const stranger = await browser.createBrowserContext();
    const { page: theirs, faults: others } = await openAt(stranger, `${site.url}#${own}`);
    assert.equal(await readout(theirs, HEIGHT), height, "the link means the same to a stranger");
    await sound(theirs, others);
    await stranger.close();

    await page.goto("about:blank");
    await page.goto(site.url);
    await ready(page);
    assert.equal(await readout(page, HEIGHT), height, "the work is kept");
    assert.equal(await code(page), own);

    await filesKept(page);
    await site.stop();
    const asked = site.asked.length;
    await page.reload({ waitUntil: "load" });
    await ready(page);
    assert.equal(await readout(page, HEIGHT), height);
    await drag(page, "wheel-centre", [[0, 20]]);
    const back = await readout(page, HEIGHT);
    assert.ok(number(back) > number(height), `it is dragged without a network: ${back}`);
    assert.equal(site.asked.length, asked, "the server was indeed gone");
    await sound(page, faults);
  } finally {
    await context.close();
    await site.stop().catch(() => {});
  }
});

test("every panel opens", async () => {
  const site = await serve(files);
  const context = await browser.createBrowserContext();
  try {
    const { page, faults } = await openAt(context, site.url);
    const panels = await page.$$eval("nav[aria-label=Panels] button:not(.more)", (buttons) => buttons.map((button) => button.textContent));
    assert.ok(panels.length >= 10);
    for (const panel of panels) {
      await turnTo(page, panel);
      assert.ok((await page.$eval(".panel", (found) => found.textContent)).length > 40, panel);
    }
    await turnTo(page, "Send");
    await press(page, "QR code");
    await page.waitForSelector("qr-code svg path");
    await sound(page, faults);
  } finally {
    await context.close();
    await site.stop();
  }
});

test("the page as one file opens from a disk", async () => {
  const folder = await mkdtemp(join(tmpdir(), "scrubline-"));
  const context = await browser.createBrowserContext();
  try {
    const file = join(folder, "scrubline.html");
    await writeFile(file, await pageAsOneFile());
    const { page, faults } = await openAt(context, pathToFileURL(file).href);
    await drag(page, "wheel-centre", [[0, -37]]);
    const height = await readout(page, HEIGHT);
    assert.ok(number(height) < number(AT_FIRST), height);
    assert.ok(await code(page), "the address holds the design");
    const { page: again, faults: others } = await openAt(context, page.url());
    assert.equal(await readout(again, HEIGHT), height);
    await settled(again);
    await sound(page, faults);
    await sound(again, others);
  } finally {
    await context.close();
    await rm(folder, { recursive: true, force: true });
  }
});
