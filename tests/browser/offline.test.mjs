// The release page where there is no network, and when a newer one is put in its place.

import assert from "node:assert/strict";
import { after, before, describe } from "node:test";
import { DESK, PHONE, code, drag, launch, number, openIn, readout, ready, said, spot, swipe, settled, type } from "./driver.mjs";
import { filesKept, filesOfPage, nextVersion, onSitesOf } from "./site.mjs";

let browser;
let files;
before(async () => {
  browser = await launch();
  files = await filesOfPage();
});
after(() => browser?.close());

const HEIGHT = "Frame height";
const NEWER = /newer Scrubline/;

const on = onSitesOf(() => ({ browser, files }));

/** Waits for the attempt at a newer version to end: with one that waits, or none. */
const tried = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  await registration.update().catch(() => {});
  while (registration.installing) await new Promise((done) => setTimeout(done, 20));
  return Boolean(registration.waiting);
});

const caches = (page) => page.evaluate(async () => (await window.caches.keys()).filter((name) => name.startsWith("scrubline:")));
const SECOND = "5ec09d5ec09d5ec0";
const version = (page) => page.$eval("meta[name=scrubline-version]", (meta) => meta.content);
/** Waits until the page is of the second version. */
const second = (page) => page.waitForFunction((name) => document.querySelector("meta[name=scrubline-version]")?.content === name, { timeout: 4000 }, SECOND);

async function again(page) {
  await page.reload({ waitUntil: "load" });
  await ready(page);
}

/** Closes the page and starts it anew, as a person does between two visits. */
async function restart(context, site, page) {
  const empty = await context.newPage();
  await page.close();
  // With no page left the browser lets the newer version take over by itself, within a moment.
  await new Promise((done) => setTimeout(done, 1000));
  const { page: next } = await openIn(context, { url: site.url });
  await empty.close();
  return next;
}

describe("without a network", () => {
  on("the page opens after one visit, and a thumb drags the spindle", async (context, site) => {
    const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
    await filesKept(page);
    await site.stop();
    const asked = site.asked.length;
    const later = site.asked.filter((path) => /later-\w+\.packed$/.test(path));
    assert.equal(later.length, 1, "what the page has not shown yet comes to it from what is kept: asked for once, to be kept");
    await again(page);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    await swipe(page, await spot(page, "wheel-centre"), [0, 24]);
    assert.ok(number(await readout(page, HEIGHT)) > 9.9, "a pin that is pulled down lifts the frame");
    const own = await code(page);
    await again(page);
    assert.equal(await code(page), own, "the work is kept");
    assert.equal(site.asked.length, asked, "the server was indeed gone");
    assert.deepEqual(faults, []);
  });

  on("what every start waits for is kept as it was unpacked", async (context, site) => {
    const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
    await filesKept(page);
    const kept = (wanted) => page.evaluate(async (pattern) => {
      const name = new RegExp(pattern);
      for (const cache of await Promise.all((await window.caches.keys()).map((key) => window.caches.open(key)))) {
        const found = (await cache.keys()).find((request) => name.test(request.url));
        if (found) return (await cache.match(found)).headers.get("Content-Type");
      }
    }, wanted);
    const CODE = "/web_bg-\\w+\\.packed$";
    const until = Date.now() + 4000;
    while (await kept(CODE) !== "application/wasm" && Date.now() < until) await new Promise((done) => setTimeout(done, 20));
    assert.equal(await kept(CODE), "application/wasm");
    assert.notEqual(await kept("/later-\\w+\\.packed$"), "application/wasm", "the page takes it by its digest");
    await site.stop();
    await again(page);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    assert.deepEqual(faults, []);
  });

  on("a link opens, in a new tab too", async (context, site) => {
    const { page } = await openIn(context, { viewport: DESK, url: site.url });
    await filesKept(page);
    await type(page, "Drop, pin higher", "3");
    const link = await code(page);
    await type(page, "Drop, pin higher", "1");
    await code(page);
    await site.stop();
    await page.close();
    for (const at of [`#${link}`, `?from=a-thread#${link}`, `index.html#${link}`]) {
      const { page: other } = await openIn(context, { viewport: PHONE, url: site.url, at });
      assert.equal(await readout(other, HEIGHT), "8 13/16 in", at);
      await other.close();
    }
  });

  on("what was never a file of the page is not made up", async (context, site) => {
    const { page } = await openIn(context, { url: site.url });
    await filesKept(page);
    const status = (name) => page.evaluate((file) => fetch(file).then((answer) => answer.status), name);
    assert.equal(await status("other/"), 404);
    assert.equal(await status("constructor"), 404);
  });

  on("a browser that refuses service workers shows the page all the same", async (context, site) => {
    const page = await context.newPage();
    const errors = [];
    page.on("pageerror", (error) => errors.push(error.message));
    await page.evaluateOnNewDocument(() => {
      Object.defineProperty(Navigator.prototype, "serviceWorker", { get: () => { throw new DOMException("refused", "SecurityError"); } });
      Object.defineProperty(window, "sessionStorage", { get: () => { throw new DOMException("refused", "SecurityError"); } });
    });
    await page.goto(site.url);
    await ready(page);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    assert.deepEqual(errors, []);
  });
});

describe("a newer version", () => {
  on("waits for the next start, never disturbs a drag, and is told once", async (context, site) => {
    const { page, faults } = await openIn(context, { url: site.url });
    await filesKept(page);
    site.files = nextVersion(files, SECOND);
    const from = await spot(page, "wheel-centre");
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 30, { steps: 4 });
    await settled(page);
    const dragged = await readout(page, HEIGHT);
    assert.equal(await tried(page), true, "it is there and waits");
    await page.mouse.move(from.x, from.y - 31);
    await page.mouse.move(from.x, from.y - 30);
    await settled(page);
    assert.equal(await readout(page, HEIGHT), dragged, "the drag goes on");
    await page.mouse.up();
    assert.notEqual(await version(page), SECOND);
    const own = await code(page);
    const next = await restart(context, site, page);
    assert.equal(await version(next), SECOND);
    assert.match(await said(next), NEWER);
    assert.equal(await code(next), own, "the design is as it was");
    assert.equal((await caches(next)).length, 1, "the old files are gone");
    await again(next);
    assert.doesNotMatch(await said(next), NEWER);
    await site.stop();
    await again(next);
    assert.equal(await version(next), SECOND);
    assert.deepEqual(faults, []);
  });

  on("is taken when the page is loaded again, with the link that is open", async (context, site) => {
    const { page } = await openIn(context, { url: site.url });
    await filesKept(page);
    await type(page, "Drop, pin higher", "3");
    const own = await code(page);
    site.files = nextVersion(files, SECOND);
    assert.equal(await tried(page), true);
    // Now and then Chromium does not let go of the old worker at once; the old version then goes on.
    for (let times = 0; times < 5 && (await version(page)) !== SECOND; times += 1) {
      await page.reload();
      await second(page).catch(() => {});
      await ready(page);
      assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    }
    assert.equal(await version(page), SECOND);
    assert.equal(await code(page), own);
  });

  on("leaves an older tab to finish its work", async (context, site) => {
    const { page: older } = await openIn(context, { url: site.url });
    await filesKept(older);
    const first = await version(older);
    site.files = nextVersion(files, SECOND);
    assert.equal(await tried(older), true);
    const newer = await context.newPage();
    await newer.goto(site.url);
    await ready(newer);
    await site.stop();
    await older.bringToFront();
    assert.equal(await version(older), first);
    await drag(older, "wheel-centre", [[0, -30]]);
    assert.ok(number(await readout(older, HEIGHT)) < 9.7, "a pin that is pushed up lets the frame down");
  });

  /** What may go wrong on the way: a file missing, cut, another under its name, one whose answer never ends. */
  const broken = {
    "is missing": (next, name) => next.delete(name),
    "is cut": (next, name) => next.set(name, next.get(name).subarray(0, -1)),
    "is answered for by a sign-in page": (next, name) => next.set(name, Buffer.from("<p>Sign in to go on.")),
    "never ends": (next, name, site) => site.endless.add(name),
  };
  /** The worker with another patience than two minutes, which no test has. */
  const hasty = (worker) => {
    // By its number: a script that was made smaller has it where it is used, and the name beside it means nothing.
    const [text, long] = [worker.toString(), /\b(120000|12e4)\b/g];
    assert.match(text, long);
    return Buffer.from(text.replace(long, "2000"));
  };
  /** One of each sort: the code, what starts it, the page itself. */
  const parts = { "WebAssembly": /\.packed$/, "glue": /^web-.*\.js$/, "script": /^boot-.*\.js$/, "front page": /^index\.html$/ };
  for (const [part, pattern] of Object.entries(parts)) for (const [name, breaks] of Object.entries(broken)) {
    on(`whose ${part} ${name} leaves the old one working, and is taken once it is whole`, async (context, site) => {
      const { page } = await openIn(context, { url: site.url });
      await filesKept(page);
      const first = await version(page);
      const next = nextVersion(files, SECOND);
      next.set("sw.js", hasty(next.get("sw.js")));
      const old = [...next.keys()].find((file) => pattern.test(file));
      // But for the front page, what is newer has a name of its own.
      const name2 = old.replace(/-[0-9a-f]{16}/, "-0123456789abcdef");
      const half = new Map(next);
      half.delete(old);
      half.set(name2, next.get(old));
      half.set("sw.js", Buffer.from(next.get("sw.js").toString().replace(old, name2)));
      breaks(half, name2, site);
      site.files = half;
      assert.equal(await tried(page), false);
      assert.equal((await caches(page)).length, 1, "nothing of the half version is kept");
      await again(page);
      assert.equal(await version(page), first);
      await site.stop();
      await again(page);
      assert.equal(await version(page), first);
      assert.equal(await readout(page, HEIGHT), "9 13/16 in");
      await site.start();
      site.files = next;
      site.endless.clear();
      assert.equal(await tried(page), true);
      assert.equal(await version(await restart(context, site, page)), SECOND);
    });
  }
});

describe("installing", () => {
  on("finds a manifest whose icons are there and as large as they say", async (context, site) => {
    const { page } = await openIn(context, { url: site.url });
    const session = await page.createCDPSession();
    const { url, errors, data } = await session.send("Page.getAppManifest");
    assert.deepEqual(errors, []);
    const manifest = JSON.parse(data);
    assert.equal(new URL(manifest.start_url, url).href, site.url);
    const sizes = await page.evaluate(async (base, icons) => Promise.all(icons.map(async (icon) => {
      const picture = new Image();
      picture.src = new URL(icon.src, base);
      await picture.decode();
      return `${picture.naturalWidth}x${picture.naturalHeight}`;
    })), url, manifest.icons.filter((icon) => icon.type === "image/png"));
    assert.deepEqual(sizes, ["192x192"]);
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    // A browser context of a test counts as private browsing, where nothing is installed.
    assert.deepEqual(installabilityErrors.map((error) => error.errorId).filter((id) => id !== "in-incognito"), []);
  });
});
