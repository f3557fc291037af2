// A first visit asks for no more files than the budget has.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { DESK, PHONE, launch, openIn } from "./driver.mjs";
import { filesOfPage, serve } from "./site.mjs";

let browser;
let site;
before(async () => {
  browser = await launch();
  site = await serve(await filesOfPage());
});
after(async () => {
  await browser?.close();
  await site?.stop();
});

/** The most requests of a first visit, from the budget's part that holds. */
async function limit() {
  const budget = await readFile(new URL("../../web/budget.toml", import.meta.url), "utf8");
  const [, part] = budget.split("[limit]");
  return Number(part.match(/^requests = (\d+)$/m)[1]);
}

for (const [name, viewport] of [["desktop", DESK], ["phone", PHONE]]) {
  test(`a first visit on a ${name} keeps to its number of requests`, async () => {
    const context = await browser.createBrowserContext();
    const asked = [];
    context.on("targetcreated", async (target) => {
      // What the service worker fetches for later is no part of the visit.
      if (target.type() !== "page") return;
      const page = await target.page();
      page.on("request", (request) => asked.push(request.url()));
    });
    const { faults } = await openIn(context, { viewport, url: site.url });
    // Icons and the manifest are asked for when all else is there.
    await new Promise((done) => setTimeout(done, 500));
    const files = asked.filter((url) => url.startsWith(site.url)).map((url) => url.slice(site.url.length));
    assert.ok(files.some((file) => file.endsWith(".packed")), "what is asked for is heard");
    assert.ok(files.length <= await limit(), `${files.length} requests: ${files}`);
    assert.deepEqual(faults, []);
    await context.close();
  });
}
