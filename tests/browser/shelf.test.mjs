// Kept work: every design that was touched, over reloads, tabs, refusals and crashes.

import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, test } from "node:test";
import { DESK, PHONE, URL_, code, onPagesOf, open, openIn, press, readout, ready, runningBrowser, said, settled, turnTo, type } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

const HEIGHT = "Frame height";
const SECOND = 1000;

const wait = (ms) => new Promise((done) => setTimeout(done, ms));
const drop = (page, inches) => type(page, "Drop, pin higher", inches);
const kept = (page) => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("scrubline:kept:")).length);

/** The names and parts on the shelf, last touched first. */
async function shelf(page) {
  await turnTo(page, "My trucks");
  await settled(page);
  return page.$$eval(".kept .card", (cards) => cards.map((card) => card.querySelector("h3")?.textContent ?? card.textContent));
}

async function titled(page, title) {
  await turnTo(page, "Send");
  await type(page, "Name of this truck", title);
}

/** Another design of one's own, begun from the demo. */
async function another(page, title, inches) {
  await turnTo(page, "My trucks");
  await press(page, "Begin anew");
  await turnTo(page, "Parts");
  await drop(page, inches);
  await titled(page, title);
  await wait(SECOND);
}

describe("the shelf", () => {
  on({ viewport: PHONE }, "keeps nothing that was only looked at", async (page) => {
    await page.$eval("#travel", (slider) => {
      slider.value = "20";
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    });
    await wait(SECOND);
    assert.equal(await kept(page), 0);
    assert.match((await shelf(page)).join() + await page.$eval(".kept", (panel) => panel.textContent), /Nothing yet/);
  });

  on({ viewport: DESK }, "keeps several designs, opens them, and undo goes back", async (page) => {
    await another(page, "One", "1");
    await another(page, "Three", "3");
    assert.deepEqual(await shelf(page), ["Three", "One"]);
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    const open = await page.$$eval(".kept .card button", (buttons) => buttons.map((button) => button.getAttribute("aria-label")));
    await press(page, open.find((label) => label.startsWith("Open One")));
    assert.equal(await readout(page, HEIGHT), "10 13/16 in");
    await wait(SECOND);
    await page.goto("about:blank");
    await page.goto(URL_);
    await ready(page);
    assert.equal(await readout(page, HEIGHT), "10 13/16 in", "the one that was last open is there");
    await turnTo(page, "Parts");
    await drop(page, "1 1/2");
    await wait(SECOND);
    assert.deepEqual(await shelf(page), ["One", "Three"], "an edit goes into its own entry");
    await page.waitForFunction(() => document.querySelectorAll(".kept .small svg path").length > 20);
  });

  on({ viewport: DESK }, "undo over an opened design changes neither", async (page) => {
    await another(page, "One", "1");
    await another(page, "Three", "3");
    await shelf(page);
    const labels = await page.$$eval(".kept .card button", (buttons) => buttons.map((button) => button.getAttribute("aria-label")));
    await press(page, labels.find((label) => label.startsWith("Open One")));
    await press(page, "Undo");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await turnTo(page, "Parts");
    await drop(page, "2 1/2");
    await wait(SECOND);
    assert.deepEqual(await shelf(page), ["Three", "One"]);
    assert.equal(await kept(page), 2);
  });

  on({ viewport: PHONE }, "deletes, and brings back", async (page) => {
    await another(page, "One", "1");
    await another(page, "Three", "3");
    await shelf(page);
    const labels = await page.$$eval(".kept .card button", (buttons) => buttons.map((button) => button.getAttribute("aria-label")));
    await press(page, labels.find((label) => label.startsWith("Delete One")));
    assert.equal(await kept(page), 1);
    assert.equal(await page.evaluate(() => document.activeElement.textContent), "Bring back", "the way back has the focus");
    await press(page, "Bring back One");
    assert.deepEqual(await shelf(page), ["Three", "One"]);
    // What is on the sketch can be deleted too: it stays there, and is kept again once it is touched.
    await press(page, labels.find((label) => label.startsWith("Delete Three")));
    await wait(SECOND);
    assert.equal(await kept(page), 1);
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await turnTo(page, "Parts");
    await drop(page, "2 1/4");
    await wait(SECOND);
    assert.equal(await kept(page), 2);
  });

  on({ viewport: DESK }, "goes as one file into another browser", async (page) => {
    await another(page, "One", "1");
    await another(page, "Three", "3");
    await shelf(page);
    await page.evaluate(() => {
      const make = URL.createObjectURL;
      URL.createObjectURL = (blob) => {
        window.saved = blob;
        return make.call(URL, blob);
      };
      HTMLAnchorElement.prototype.click = () => {};
    });
    await press(page, "Save all as a file");
    const text = await page.evaluate(() => window.saved.text());
    const list = JSON.parse(text);
    assert.deepEqual(list.map((design) => design.title), ["Three", "One"]);
    list.splice(1, 0, { scrubline: 1, wings: 2 });
    const folder = await mkdtemp(join(tmpdir(), "shelf-"));
    const { context, page: other, faults } = await open(running.browser, { viewport: PHONE });
    try {
      const file = join(folder, "designs.json");
      await writeFile(file, JSON.stringify(list));
      await shelf(other);
      await (await other.$(".kept input[type=file]")).uploadFile(file);
      await other.waitForSelector(".notice");
      assert.match(await said(other), /Taken in: 2\..*Number 2 is left out: .*wings/);
      assert.deepEqual(await shelf(other), ["Three", "One"]);
      await turnTo(other, "Send");
      await (await other.$(".panel input[type=file]")).uploadFile(file);
      await other.waitForFunction(() => document.querySelector(".notices").textContent.includes("There already: 2"));
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
      await rm(folder, { recursive: true });
    }
  });

  test("two tabs at one design keep both, and say so", async () => {
    const { context, page: a } = await open(running.browser);
    try {
      await drop(a, "1");
      await wait(SECOND);
      const { page: b } = await openIn(context);
      assert.equal(await readout(b, HEIGHT), "10 13/16 in", "another tab begins where the last one is");
      await drop(b, "3");
      await wait(SECOND);
      assert.equal(await kept(b), 1, "and goes on with the same entry");
      await a.bringToFront();
      await drop(a, "1 1/2");
      await wait(SECOND);
      assert.match(await said(a), /changed in another tab too\. Both are kept/);
      assert.equal(await kept(a), 2);
      for (const page of [b, a]) {
        await page.bringToFront();
        await drop(page, page === a ? "1 1/4" : "3 1/4");
        await wait(SECOND);
        assert.equal(await kept(page), 2, "from then on each has its own");
      }
    } finally {
      await context.close();
    }
  });

  for (const [name, refuse] of [
    ["throws when it is asked for", () => Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } })],
    ["is not there", () => Object.defineProperty(window, "localStorage", { value: null })],
    ["throws at every text", () => { Storage.prototype.setItem = () => { throw new DOMException("no", "InvalidStateError"); }; }],
  ]) {
    test(`storage that ${name} is said once, and the page goes on`, async () => {
      const { context, page, faults } = await open(running.browser);
      try {
        await page.evaluateOnNewDocument(refuse);
        await page.reload();
        await ready(page);
        await drop(page, "1");
        await wait(SECOND);
        assert.match(await said(page), /keeps nothing for this page/);
        await press(page, "Close", ".notices");
        await drop(page, "3");
        await wait(SECOND);
        assert.equal(await said(page), "", "once is enough");
        assert.equal(await readout(page, HEIGHT), "8 13/16 in");
        await shelf(page);
        await press(page, "Undo");
        assert.equal(await readout(page, HEIGHT), "10 13/16 in");
        assert.deepEqual(faults, []);
      } finally {
        await context.close();
      }
    });
  }

  test("a full disk takes the oldest, never the one that is worked on, and says so", async () => {
    const { context, page, faults } = await open(running.browser);
    try {
      for (const [title, inches] of [["One", "1"], ["Two", "2 1/2"], ["Three", "3"]]) await another(page, title, inches);
      await page.evaluate(() => {
        const set = Storage.prototype.setItem;
        const used = () => Object.entries(localStorage).reduce((sum, [key, text]) => sum + key.length + text.length, 0);
        const room = used() + 20;
        Storage.prototype.setItem = function setItem(key, text) {
          if (used() - (this.getItem(key)?.length ?? 0) + text.length > room) throw new DOMException("no", "QuotaExceededError");
          set.call(this, key, text);
        };
      });
      await titled(page, "Three, under a name that is a good deal longer than the others");
      await wait(SECOND);
      assert.match(await said(page), /no room left\. The oldest kept designs went to make some: One/);
      assert.ok((await shelf(page))[0].startsWith("Three, under"));
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
    }
  });

  test("what a full disk refused is kept once there is room, without another edit", async () => {
    const { context, page, faults } = await open(running.browser);
    try {
      await page.evaluate(() => {
        const set = Storage.prototype.setItem;
        window.makeRoom = () => { Storage.prototype.setItem = set; };
        Storage.prototype.setItem = () => { throw new DOMException("no", "QuotaExceededError"); };
      });
      await drop(page, "1");
      await wait(SECOND);
      assert.match(await said(page), /no room left, and what you do is not kept/);
      assert.equal(await kept(page), 0);
      await page.evaluate(() => window.makeRoom());
      await page.waitForFunction(() => Object.keys(localStorage).some((key) => key.startsWith("scrubline:kept:")), { timeout: 10000 });
      await settled(page);
      assert.equal(await said(page).then((text) => text.replace("×", "")), "There is room again, and what you do is kept.");
      await page.goto("about:blank");
      await page.goto(URL_);
      await ready(page);
      assert.equal(await readout(page, HEIGHT), "10 13/16 in");
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
    }
  });

  test("a second after an edit a crash loses nothing, whether or not more is being done", async () => {
    const { context, page } = await open(running.browser);
    try {
      await drop(page, "1");
      await wait(SECOND);
      // Edits without a rest: each is a new reason to wait.
      const { page: busy } = await openIn(context);
      await busy.$eval('[data-handle="wheel-centre"]', (handle) => handle.focus());
      const until = Date.now() + 1500;
      while (Date.now() < until) await busy.keyboard.press("ArrowUp");
      const shown = await readout(busy, HEIGHT);
      const written = await busy.evaluate(() => Object.entries(localStorage).find(([key]) => key.startsWith("scrubline:kept:"))[1]);
      assert.ok(Number(written.split(" ")[0]) >= Math.floor((Date.now() - 2000) / 1000), "it was written in between");
      await wait(SECOND);
      await busy.close({ runBeforeUnload: false });
      const { page: next } = await openIn(context);
      assert.equal(await readout(next, HEIGHT), shown);
    } finally {
      await context.close();
    }
  });

  test("leaving the page at once loses nothing either", async () => {
    const { context, page } = await open(running.browser);
    try {
      await drop(page, "1");
      await page.goto("about:blank");
      await page.goto(URL_);
      await ready(page);
      assert.equal(await readout(page, HEIGHT), "10 13/16 in");
    } finally {
      await context.close();
    }
  });

  test("what an earlier version kept is taken over, and damage is shown", async () => {
    const { context, page, faults } = await open(running.browser);
    try {
      await drop(page, "1");
      const own = await code(page);
      await page.evaluate((text) => {
        localStorage.clear();
        localStorage.setItem("scrubline:last", text);
        localStorage.setItem("scrubline:kept:17", "17 1damaged");
        location.hash = "";
      }, own);
      await page.goto("about:blank");
      await page.goto(URL_);
      await ready(page);
      assert.equal(await readout(page, HEIGHT), "10 13/16 in");
      assert.equal(await page.evaluate(() => localStorage.getItem("scrubline:last")), null);
      assert.deepEqual(await shelf(page), ["Juniper pickup", "A design that cannot be read"]);
      assert.match(await page.$eval(".kept .card:last-child", (card) => card.textContent), /cut off or mistyped/);
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
    }
  });
});
