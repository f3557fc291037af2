// When the page's code breaks: what is said, and what is left.

import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { DESK, PHONE, code, open, readout, ready, runningBrowser, turnTo, type } from "./driver.mjs";
import { pageAsOneFile } from "./site.mjs";

const running = runningBrowser();
const HEIGHT = "Frame height";

/** Refuses the page's code one element, which it takes for impossible: its WebAssembly traps. */
const breakIt = () => {
  const make = Document.prototype.createElement;
  Document.prototype.createElement = function createElement(...words) {
    Document.prototype.createElement = make;
    throw new DOMException(`no ${words}`, "NotSupportedError");
  };
};

/** What is said in sight where the page begins, and whether it is announced. */
const told = (page) => page.evaluate(() => {
  const words = document.querySelector("#boot p");
  const box = words?.getBoundingClientRect();
  const seen = Boolean(box) && box.top >= 0 && box.bottom <= innerHeight && document.elementFromPoint(box.x + 5, box.y + 5) === words;
  return { seen, role: words?.getAttribute("role"), text: words?.textContent };
});

for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
  test(`a trap is said in plain words, and the work is there again: ${name}`, async () => {
    const { context, page } = await open(running.browser, { viewport });
    try {
      await type(page, "Drop, pin higher", "1");
      const own = await code(page);
      await page.evaluate(() => scrollTo(0, 1e6));
      await page.evaluate(breakIt);
      await turnTo(page, "My truck");
      await page.waitForSelector("#boot");
      assert.deepEqual(await told(page), {
        seen: true, role: "alert",
        text: "Something in Scrubline broke, and it has stopped. Reload the page: your work is kept, but for its last second.",
      });
      await page.reload();
      await ready(page);
      assert.equal(await page.$("#boot"), null);
      assert.equal(await readout(page, HEIGHT), "10 13/16 in");
      assert.equal(await code(page), own);
    } finally {
      await context.close();
    }
  });
}

test("an error of something else beside the page stops nothing", async () => {
  const { context, page } = await open(running.browser, { viewport: DESK });
  try {
    await page.evaluate(() => new Promise((done) => {
      setTimeout(() => { throw new Error("an extension's own"); });
      Promise.reject(new Error("another's"));
      setTimeout(done, 100);
    }));
    assert.equal(await page.$("#boot"), null);
    await type(page, "Drop, pin higher", "1");
    assert.equal(await readout(page, HEIGHT), "10 13/16 in");
  } finally {
    await context.close();
  }
});

test("a trap on the page that is one file is said too", async () => {
  const folder = await mkdtemp(join(tmpdir(), "scrubline-"));
  const file = join(folder, "scrubline.html");
  await writeFile(file, await pageAsOneFile());
  const { context, page } = await open(running.browser, { viewport: DESK, url: pathToFileURL(file).href });
  try {
    await page.evaluate(breakIt);
    await turnTo(page, "My truck");
    await page.waitForSelector("#boot");
    const { seen, role, text } = await told(page);
    assert.deepEqual([seen, role], [true, "alert"]);
    assert.match(text, /it has stopped\. Open the file again: your work is kept/);
  } finally {
    await context.close();
    await rm(folder, { recursive: true, force: true });
  }
});
