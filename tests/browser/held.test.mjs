// The page holds no more after long use than after a short one. `cargo xtask bench --minutes 10` watches it for longer.

import assert from "node:assert/strict";
import { test } from "node:test";
import { linear } from "../bench/memory.mjs";
import { DESK, open, runningBrowser, turnTo } from "./driver.mjs";

const running = runningBrowser();

/** Memory of WebAssembly grows by pages of this many bytes, and never shrinks. */
const PAGE = 65536;

test("panels that are opened and left a hundred times leave nothing behind", async () => {
  const { context, page, faults } = await open(running.browser, { viewport: DESK });
  const session = await page.createCDPSession();
  const turns = async (count) => {
    for (let turn = 0; turn < count; turn += 1) for (const panel of ["Measure", "Compare", "Parts"]) await turnTo(page, panel);
    await session.send("HeapProfiler.collectGarbage");
    return linear(session);
  };
  const early = await turns(20);
  const late = await turns(100);
  assert.ok(early > 10 * PAGE, `${early} bytes`);
  assert.ok(late - early <= PAGE, `${(late - early) / PAGE} pages more`);
  assert.deepEqual(faults, []);
  await context.close();
});
