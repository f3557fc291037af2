// The second module: what a first minute shows goes without it, and where it does not come the page says so in its
// place, goes on, and tries again.

import assert from "node:assert/strict";
import { after, before, describe } from "node:test";
import { DESK, PHONE, code, drag, launch, openIn, press, readout, ready, settled, spot, swipe, turnTo, whole } from "./driver.mjs";
import { filesOfPage, onSitesOf } from "./site.mjs";

let browser;
let files;
let name;
before(async () => {
  browser = await launch();
  files = await filesOfPage();
  name = [...files.keys()].find((file) => /^later-[0-9a-f]{16}\.packed$/.test(file));
  assert.ok(name, "the page has a second module, and the worker keeps it");
});
after(() => browser?.close());

const HEIGHT = "Frame height";

const onSite = onSitesOf(() => ({ browser, files }));
/** Where the second module is what `broken` makes of it. */
const on = (title, broken, body) => onSite(title, body, broken);

const panels = (page) => page.$$eval("nav[aria-label=Panels] button:not(.more)", (buttons) => buttons.map((button) => button.textContent));
const told = (page) => page.$eval(".panels .body", (body) => body.textContent);

on("the first minute on a phone goes without it", (all) => all.delete(name), async (context, site) => {
  const page = await context.newPage();
  await page.setViewport(PHONE);
  const errors = [];
  page.on("pageerror", (error) => errors.push(error.message));
  await page.goto(site.url);
  await ready(page);
  assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  await swipe(page, await spot(page, "wheel-centre"), [0, 24]);
  assert.notEqual(await readout(page, HEIGHT), "9 13/16 in");
  await turnTo(page, "Parts");
  assert.match(await told(page), /could not be fetched/);
  const low = await readout(page, HEIGHT);
  await swipe(page, await spot(page, "wheel-centre"), [0, 24]);
  assert.notEqual(await readout(page, HEIGHT), low, "the sketch goes on");
  // From the side it is drawn by what did not come: that is said, and another press asks for it again.
  await press(page, "Lower", ".panels");
  const side = () => page.$eval('[data-aspect="Side"]', (pad) => pad.textContent);
  await press(page, "Side");
  assert.match(await side(), /once the rest of the page has come/);
  site.files = files;
  await press(page, "Side");
  await page.waitForFunction(() => /caster/.test(document.querySelector('[data-aspect="Side"]').textContent));
  assert.doesNotMatch(await side(), /once the rest/);
  assert.deepEqual(errors, []);
});

describe("where it does not come whole", () => {
  const other = (all) => Buffer.from(all.get([...all.keys()].find((file) => file.startsWith("web_bg-"))));
  const broken = {
    "is missing": (all) => all.delete(name),
    "is cut short": (all) => all.set(name, all.get(name).subarray(0, -100)),
    "is another's": (all) => all.set(name, other(all)),
    "is a sign-in page": (all) => all.set(name, Buffer.from("<p>Sign in to go on.")),
  };
  for (const [how, breaks] of Object.entries(broken)) {
    on(`it ${how}: the page says so in place, goes on, and tries again`, breaks, async (context, site) => {
      const page = await context.newPage();
      await page.setViewport(DESK);
      const errors = [];
      page.on("pageerror", (error) => errors.push(error.message));
      await page.goto(site.url);
      await ready(page);
      await drag(page, "wheel-centre", [[0, -12]]);
      const own = await code(page);
      const height = await readout(page, HEIGHT);
      for (const panel of ["Find a drop", "Parts"]) {
        await press(page, panel, "nav");
        assert.match(await told(page), /could not be fetched/, panel);
      }
      assert.equal(await code(page), own, "what was dragged is kept");
      await drag(page, "wheel-centre", [[0, -20]]);
      assert.notEqual(await readout(page, HEIGHT), height, "the sketch goes on");
      const moved = await code(page);
      await press(page, "Find a drop", "nav");
      await press(page, "Try again");
      assert.match(await told(page), /could not be fetched/, "still not there");
      site.files = files;
      await press(page, "Try again");
      assert.doesNotMatch(await told(page), /could not be fetched/);
      for (const panel of await panels(page)) {
        await press(page, panel, "nav");
        assert.doesNotMatch(await told(page), /could not be fetched/, panel);
        assert.ok((await told(page)).length > 40, panel);
      }
      assert.equal(await code(page), moved);
      assert.deepEqual(errors, []);
    });
  }
});

on("without a network after one visit every panel opens, and the sheet is printed", () => {}, async (context, site) => {
  const { page } = await openIn(context, { viewport: DESK, url: site.url });
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(async () => (await navigator.serviceWorker.ready).active.state === "activated");
  await site.stop();
  const asked = site.asked.length;
  await page.reload();
  await ready(page);
  for (const panel of await panels(page)) {
    await press(page, panel, "nav");
    assert.ok((await page.$eval(".panel", (found) => found.textContent)).length > 40, panel);
  }
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await settled(page);
  await whole(page);
  assert.match(await page.$eval(".sheet", (sheet) => sheet.textContent), /scale 1:/);
  assert.equal(site.asked.length, asked, "the server was indeed gone");
});

on("it is taken in once the page is kept, so that nothing is waited for", () => {}, async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: DESK, url: site.url });
  await page.waitForFunction((file) => performance.getEntriesByType("resource").some((entry) => entry.name.endsWith(file) && entry.responseEnd > 0), {}, name);
  await new Promise((done) => setTimeout(done, 500));
  await site.stop();
  await page.evaluate(async () => { for (const name of await caches.keys()) await caches.delete(name); });
  await press(page, "Find a drop", "nav");
  assert.doesNotMatch(await told(page), /could not be fetched/);
  assert.deepEqual(faults, []);
});
