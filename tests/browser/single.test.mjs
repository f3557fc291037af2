// The page as one file, opened from a disk: no server, no network.

import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { DESK, PHONE, URL_, code, drag, launch, number, open, openIn, press, readout, ready, settled, spot, swipe, turnTo, type } from "./driver.mjs";
import { pageAsOneFile } from "./site.mjs";

let browser;
let folder;
let url;
before(async () => {
  browser = await launch();
  folder = await mkdtemp(join(tmpdir(), "scrubline-"));
  const file = join(folder, "scrubline.html");
  await writeFile(file, await pageAsOneFile());
  url = pathToFileURL(file).href;
});
after(async () => {
  await browser?.close();
  await rm(folder, { recursive: true, force: true });
});

const HEIGHT = "Frame height";

/** A test on the file in a context of its own, at whose end nothing was refused, broken or asked for. */
function on(name, viewport, body) {
  test(name, async () => {
    const { context, page, faults } = await open(browser, { url, viewport });
    try {
      assert.equal(await page.evaluate(() => location.protocol), "file:");
      await body(page, context);
      assert.deepEqual([...faults, ...await page.evaluate(() => window.refusals)], []);
      const asked = await page.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name));
      assert.deepEqual(asked.filter((address) => !/^(data|blob):/.test(address)), []);
    } finally {
      await context.close();
    }
  });
}

on("a thumb drags the spindle, and the work is there again", PHONE, async (page) => {
  assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  await swipe(page, await spot(page, "wheel-centre"), [0, 24]);
  const height = await readout(page, HEIGHT);
  assert.ok(number(height) > 9.9, `a pin that is pulled down lifts the frame: ${height}`);
  const own = await code(page);
  await page.goto("about:blank");
  await page.goto(url);
  await ready(page);
  assert.equal(await readout(page, HEIGHT), height, "kept by the browser");
  assert.equal(await code(page), own);
});

on("a link made on it opens on it and on the page of a server", DESK, async (page, context) => {
  await type(page, "Drop, pin higher", "3");
  const link = await code(page);
  for (const place of [url, URL_]) {
    const { page: other, faults } = await openIn(context, { url: place, at: `#${link}` });
    assert.equal(await readout(other, HEIGHT), "8 13/16 in", place);
    assert.deepEqual(faults, []);
    await other.close();
  }
  await drag(page, "upper-ball", [[0, -9]]);
  assert.notEqual(await code(page), link);
  await page.evaluate((text) => { location.hash = text; }, link);
  await page.waitForFunction((wanted) => [...document.querySelectorAll(".readout b")].some((b) => b.textContent === wanted), {}, "8 13/16 in");
});

on("every panel opens, and all ways to share work", DESK, async (page) => {
  await page.evaluate(() => {
    window.saved = [];
    const make = URL.createObjectURL;
    URL.createObjectURL = (blob) => { window.saved.push(blob.type); return make.call(URL, blob); };
  });
  const panels = await page.$$eval("nav[aria-label=Panels] button:not(.more)", (buttons) => buttons.map((button) => button.textContent));
  for (const panel of panels) {
    await turnTo(page, panel);
    assert.ok((await page.$eval(".panel", (found) => found.textContent)).length > 40, panel);
  }
  await turnTo(page, "Send");
  assert.match(await page.$eval("textarea.code", (area) => area.value), /^[1-9A-HJ-NP-Za-km-z]+$|#/);
  await press(page, "QR code");
  await page.waitForSelector("qr-code svg path");
  for (const way of ["Picture, PNG", "Picture, SVG", "Table, CSV", "Save file"]) await press(page, way);
  await page.waitForFunction(() => window.saved.includes("image/png"));
  const saved = await page.evaluate(() => window.saved);
  for (const kind of [/svg/, /csv/, /json/]) assert.ok(saved.some((one) => kind.test(one)), `${kind} in ${saved}`);
});

on("what others wrote of it is told in place", DESK, async (page) => {
  await press(page, "Safety", "nav");
  await page.click(".panel details summary");
  const told = await page.$eval(".panel details[open] pre", (text) => text.textContent);
  // Whoever grants MIT asks that it be handed on in these words.
  for (const part of ["leptos 0", "Greg Johnston", "Permission is hereby granted", "the Scrubline authors"]) assert.ok(told.includes(part), part);
  assert.equal(await page.$eval(".panel", (panel) => panel.scrollWidth > panel.clientWidth + 1), false, "no wider than its panel");
});

test("the page on a server links to what others wrote of it, and keeps none of it", async () => {
  const { context, page, faults } = await open(browser, { viewport: DESK });
  await press(page, "Safety", "nav");
  const { href, kind, told } = await page.$eval('.panel a[href$="notices.txt"]', async (link) => {
    const answer = await fetch(link.href);
    return { href: link.href, kind: answer.headers.get("content-type"), told: await answer.text() };
  });
  assert.equal(href, `${URL_}notices.txt`);
  assert.match(kind, /^text\/plain; charset=utf-8/);
  for (const part of ["leptos 0", "Greg Johnston", "Permission is hereby granted", "the Scrubline authors"]) assert.ok(told.includes(part), part);
  const worker = await page.evaluate(() => fetch("sw.js").then((answer) => answer.text()));
  assert.ok(!worker.includes("notices.txt"));
  assert.deepEqual(faults, []);
  await context.close();
});

test("the page on a server offers it", async () => {
  const { context, page, faults } = await open(browser, { viewport: DESK });
  await turnTo(page, "Safety");
  const { href, name } = await page.$eval(".panel a[download]", (link) => ({ href: link.href, name: link.textContent }));
  assert.equal(href, `${URL_}scrubline.html`);
  assert.match(name, /one file/);
  assert.deepEqual(faults, []);
  await context.close();
});

test("its policy lets nothing in and nothing out", async () => {
  const { context, page } = await open(browser, { url });
  const refused = await page.evaluate(async () => {
    const away = "https://elsewhere.invalid/";
    await fetch(away).catch(() => {});
    new Image().src = away;
    document.head.append(Object.assign(document.createElement("script"), { textContent: "window.inline = true" }));
    document.head.append(Object.assign(document.createElement("script"), { src: away }));
    document.head.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href: away }));
    for (let times = 0; times < 100 && new Set(window.refusals).size < 4; times += 1) await new Promise((done) => setTimeout(done, 50));
    return { broken: [...new Set(window.refusals)].sort(), ran: typeof window.inline };
  });
  assert.deepEqual(refused, { broken: ["connect-src", "img-src", "script-src-elem", "style-src-elem"], ran: "undefined" });
  await settled(page);
  await context.close();
});
