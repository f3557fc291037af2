// The page holds no more after long use than after a short one. `cargo xtask bench --minutes 10` watches it for longer.

import assert from "node:assert/strict";
import { test } from "node:test";
import { linear, noteTheMemory } from "../bench/memory.mjs";
import { DESK, open, runningBrowser, turnTo } from "./driver.mjs";

const running = runningBrowser();

/** Memory of WebAssembly grows by pages of this many bytes, and never shrinks. */
const PAGE = 65536;

test("all panels opened and left twenty times leave no element and no listener behind", async () => {
  const { context, page, faults } = await open(running.browser, { viewport: DESK });
  const session = await page.createCDPSession();
  const panels = await page.$$eval("nav[aria-label=Panels] button:not(.more)", (buttons) => buttons.map((button) => button.textContent));
  assert.ok(panels.length >= 11, panels.join());
  const rounds = async (count) => {
    for (let round = 0; round < count; round += 1) for (const panel of panels) await turnTo(page, panel);
    await turnTo(page, "Parts");
    // What was under way when a panel was left has ended.
    await new Promise((done) => setTimeout(done, 1000));
    await session.send("HeapProfiler.collectGarbage");
    const { Nodes, JSEventListeners } = await page.metrics();
    return { Nodes, JSEventListeners };
  };
  const early = await rounds(2);
  assert.ok(early.Nodes > 1000 && early.JSEventListeners > 100, JSON.stringify(early));
  assert.deepEqual(await rounds(20), early);
  assert.deepEqual(faults, []);
  await context.close();
});

test("panels that are opened and left a hundred times leave nothing behind", async () => {
  const { context, page, faults } = await open(running.browser, { viewport: DESK, first: noteTheMemory });
  const turns = async (count) => {
    for (let turn = 0; turn < count; turn += 1) for (const panel of ["My truck", "Compare", "Parts"]) await turnTo(page, panel);
    return linear(page);
  };
  const early = await turns(20);
  const late = await turns(100);
  assert.ok(early > 10 * PAGE, `${early} bytes`);
  assert.ok(late - early <= PAGE, `${(late - early) / PAGE} pages more`);
  assert.deepEqual(faults, []);
  await context.close();
});
