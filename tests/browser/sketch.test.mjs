// The sketch under a finger.

import assert from "node:assert/strict";
import { describe } from "node:test";
import { PHONE, code, number, onPagesOf, readout, runningBrowser, settled, spot } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

const HEIGHT = "Frame height";

/** A finger, by the browser's own touch path. */
async function finger(page) {
  const session = await page.createCDPSession();
  const send = async (type, ...points) => {
    await session.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y], id) => ({ x, y, id, radiusX: 8, radiusY: 8, force: 1 })) });
    await settled(page);
  };
  return {
    down: (x, y) => send("touchStart", [x, y]),
    to: (x, y) => send("touchMove", [x, y]),
    up: () => send("touchEnd"),
    gone: () => send("touchCancel"),
    away: () => session.detach(),
  };
}

/** What the bubble beside the finger says; nothing where there is none. */
const bubble = (page) => page.$$eval("#sketch-Front text", (all) => all.filter((one) => /d-text-tag/.test(one.getAttribute("class") ?? "")).map((one) => one.textContent).join(" "));
const slow = (page) => page.waitForFunction(() => [...document.querySelectorAll("#sketch-Front text")].some((one) => /slow/.test(one.textContent)));

describe("a drag that is held still", () => {
  on({ viewport: PHONE }, "goes on at a quarter of its speed, says so, and does not jump", async (page) => {
    const touch = await finger(page);
    const { x, y } = await spot(page, "wheel-centre");
    const before = number(await readout(page, HEIGHT));
    const fallen = async () => number(await readout(page, HEIGHT)) - before;
    await touch.down(x, y);
    await touch.to(x, y + 20);
    await touch.to(x, y + 40);
    const fast = await fallen();
    assert.ok(fast > 1, `a pin that is pulled down by 40 px: ${fast} in`);
    await slow(page);
    assert.equal(await fallen(), fast, "nothing jumps as it begins");
    assert.match(await bubble(page), /^Spindle .*slow$/);
    await touch.to(x, y + 60);
    await touch.to(x, y + 80);
    const further = (await fallen()) - fast;
    // A quarter of the same way, to a sixteenth.
    assert.ok(Math.abs(further - fast / 4) <= 1 / 16 + 1e-9, `${further} of ${fast}`);
    // Half a pixel of the screen is less than a sixteenth: a pixel moves by one step at most.
    let last = await fallen();
    for (let by = 81; by < 90; by += 1) {
      await touch.to(x, y + by);
      const now = await fallen();
      assert.ok(now - last <= 1 / 16 + 1e-9, `${by} px: ${now - last} in`);
      last = now;
    }
    await touch.up();
    assert.equal(await fallen(), last, "let go, it is what it was");
    await touch.away();
  });

  on({ viewport: PHONE }, "is at its start exactly where it comes back to its pixel", async (page) => {
    const start = await code(page);
    const touch = await finger(page);
    const { x, y } = await spot(page, "wheel-centre");
    await touch.down(x, y);
    await touch.to(x + 1, y + 17);
    await touch.to(x, y + 37);
    await slow(page);
    for (const by of [70, 12, -30, 0]) await touch.to(x, y + by);
    await touch.up();
    await touch.away();
    assert.equal(await code(page), start);
    assert.equal(await page.$eval('[aria-label="Undo"]', (undo) => undo.disabled), true);
  });
});
