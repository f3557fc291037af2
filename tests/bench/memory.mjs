// What the page holds while it is dragged for a long time.

import { DESK, open, spot } from "../browser/driver.mjs";
import { heading, row } from "./table.mjs";

/** How many times what is held is read, after a first stretch in which every cache fills. */
const READINGS = 6;
/** Events of one drag; then it is let go, which is an edit, a step to undo and a new address. */
const EVENTS = 240;
/** What is dragged in turn, and how far, CSS px. */
const DRAGS = [["wheel-centre", 0, 16], ["upper-axis", 9, 0], ["lower-ball", 5, 5], ["tie-inner", 0, 6]];

/** Drags for a number of minutes and prints what is held on the way. */
export async function memory(browser, minutes) {
  heading(`Held while dragged for ${minutes} min`, ["script", "WebAssembly", "elements", "listeners"]);
  const { context, page, faults } = await open(browser, { viewport: DESK });
  const session = await page.createCDPSession();
  await session.send("Performance.enable");
  const begin = performance.now();
  const until = (part) => begin + part * minutes * 60_000;
  const readings = [];
  let drags = 0;
  for (let reading = 0; reading <= READINGS; reading += 1) {
    // The first stretch is a tenth of the time, the others share the rest.
    const end = until(reading === 0 ? 0.1 : 0.1 + (0.9 * reading) / READINGS);
    do {
      await dragged(page, DRAGS[drags % DRAGS.length]);
      drags += 1;
    } while (performance.now() < end);
    const now = await held(session);
    readings.push(now);
    row(`after ${((performance.now() - begin) / 60_000).toFixed(1)} min, ${drags} drags`, [kb(now.script), kb(now.wasm), `${now.nodes}`, `${now.listeners}`]);
  }
  const [first, last] = [readings[0], readings.at(-1)];
  const grown = (key) => `${(((last[key] - first[key]) / first[key]) * 100).toFixed(1)} %`;
  row("grown since the first", ["script", "wasm", "nodes", "listeners"].map(grown));
  for (const fault of faults) console.log(`    ${fault}`);
  await context.close();
}

/** One drag there and back and there, and where it came to as an edit. */
async function dragged(page, [key, dx, dy]) {
  const from = await spot(page, key, "Front");
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let event = 1; event <= EVENTS; event += 1) {
    const part = Math.sin((event * Math.PI) / 30);
    await page.mouse.move(from.x + dx * part, from.y + dy * part);
  }
  await page.mouse.up();
  // Back again, so that ten minutes do not drive the truck apart.
  await page.keyboard.down("Control");
  await page.keyboard.press("z");
  await page.keyboard.up("Control");
}

/** What is held once all that nobody needs is gone. */
async function held(session) {
  await session.send("HeapProfiler.collectGarbage");
  const { usedSize } = await session.send("Runtime.getHeapUsage");
  const { nodes, jsEventListeners: listeners } = await session.send("Memory.getDOMCounters");
  return { script: usedSize, wasm: await linear(session), nodes, listeners };
}

/** The size of the page's own memory, which no script but its own can name: bytes. */
export async function linear(session) {
  const { result: kind } = await session.send("Runtime.evaluate", { expression: "WebAssembly.Memory.prototype" });
  const { objects } = await session.send("Runtime.queryObjects", { prototypeObjectId: kind.objectId });
  const { result } = await session.send("Runtime.callFunctionOn", {
    objectId: objects.objectId,
    functionDeclaration: "function () { return this.reduce((sum, memory) => sum + memory.buffer.byteLength, 0); }",
  });
  await session.send("Runtime.releaseObject", { objectId: objects.objectId });
  return result.value;
}

function kb(bytes) {
  return `${(bytes / 1000).toFixed(0)} kB`;
}
