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
  const { context, page, faults } = await open(browser, { viewport: DESK, first: noteTheMemory });
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
    const now = await held(page, session);
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
async function held(page, session) {
  await session.send("HeapProfiler.collectGarbage");
  const { usedSize } = await session.send("Runtime.getHeapUsage");
  const { nodes, jsEventListeners: listeners } = await session.send("Memory.getDOMCounters");
  return { script: usedSize, wasm: await linear(page), nodes, listeners };
}

/** Keeps hold of the page's own memory, which no script but its own can name; runs before the page's scripts. */
export function noteTheMemory() {
  for (const name of ["instantiate", "instantiateStreaming"]) {
    const own = WebAssembly[name].bind(WebAssembly);
    WebAssembly[name] = async (...given) => {
      const made = await own(...given);
      // The second module has the first one's memory, and exports none.
      window.linearMemory ??= (made.instance ?? made).exports.memory;
      return made;
    };
  }
}

/** The size of that memory: bytes. */
export function linear(page) {
  return page.evaluate(() => window.linearMemory.buffer.byteLength);
}

function kb(bytes) {
  return `${(bytes / 1000).toFixed(0)} kB`;
}
