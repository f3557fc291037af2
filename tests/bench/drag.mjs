// What an event of a drag costs: script, task, the time to its frame, and what it changes on the page.
//
// `bench.mjs` runs it on the release page. With addresses behind it, it compares the pages there, run by run in
// turn, since a machine is never twice the same: `node tests/bench/drag.mjs http://127.0.0.1:8001/ http://…`, with
// SCRUBLINE_URL and SCRUBLINE_CHROMIUM set as for the tests of the page. The first is what the others are held against.

import { pathToFileURL } from "node:url";
import { DESK, PHONE, launch, open, settled, spot } from "../browser/driver.mjs";
import { heading, median, ms, percentile, ratio, row } from "./table.mjs";

/** Events of one drag, runs of it, and events before what is measured, in which every cache fills. */
const EVENTS = 300;
const RUNS = 5;
const FIRST = 20;
/** A drag goes up and down this far, in steps that change the design every time, CSS px. */
const WIDE_PX = 16;
const STEP_PX = 2;
/** What is dragged on: the desk with three pictures, by mouse; a phone four times as slow, by a finger. */
const DEVICES = [
  { name: "desk", viewport: DESK, slower: 1, touch: false },
  { name: "phone, 4 x slower", viewport: PHONE, slower: 4, touch: true },
];
/** Bars of the 95th percentile from event to frame, ms, by how much the processor is slowed down. */
const BAR_MS = { 1: 8, 4: 16.7 };
/** What the browser counts of its main thread, s: whatever else the machine did, and by the clock. */
const SPENT = ["ScriptDuration", "TaskDuration", "RecalcStyleDuration", "LayoutDuration", "ThreadTime"];

/** Drags on every page and prints what an event costs. */
export async function drags(browser, pages) {
  for (const device of DEVICES) {
    const all = pages.map(() => []);
    for (let run = 0; run < RUNS; run += 1) {
      for (const [at, url] of pages.entries()) all[at].push(await timed(browser, url, device));
    }
    const middle = (at, key) => median(all[at].map((one) => one[key]));
    heading(`Drag, ${device.name}: ${RUNS} runs of ${EVENTS}`, pages.flatMap((_, at) => [`page ${at + 1}`, ...(at ? ["of the first"] : [])]));
    const line = (name, key) => row(name, pages.flatMap((_, at) => [ms(middle(at, key)), ...(at ? [ratio(middle(at, key), middle(0, key))] : [])]));
    for (const name of SPENT) line(`${name}, an event`, name);
    line("event to its frame, p50", "p50");
    line(`the same, p95; bar ${BAR_MS[device.slower]} ms`, "p95");
    const last = all.map((runs) => runs.at(-1));
    row("frames, and those with another height", last.flatMap((one, at) => [`${one.frames}, ${one.changed}`, ...(at ? [""] : [])]));
    const counts = [];
    for (const url of pages) counts.push(await counted(browser, url, device));
    heading(`What one changes, ${device.name}`, pages.map((_, at) => `page ${at + 1}`));
    for (const key of Object.keys(counts[0])) row(key, counts.map((one) => (one[key] / EVENTS).toFixed(2)));
  }
}

/** Begins a drag; gives what moves it on, by its event's number, and what ends it. */
async function begun(page, { touch }) {
  const from = await spot(page, "wheel-centre", "Front");
  const to = (event) => [from.x, from.y + wander(event)];
  if (touch) {
    await page.touchscreen.touchStart(from.x, from.y);
    return { move: (event) => page.touchscreen.touchMove(...to(event)), end: () => page.touchscreen.touchEnd() };
  }
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  // The browser hands an event over with the frame it belongs to, and answers when it has.
  return { move: (event) => page.mouse.move(...to(event)), end: () => page.mouse.up() };
}

/** A page on a device, with a drag that has begun. */
async function dragging(browser, url, device, first) {
  const { context, page, faults } = await open(browser, { viewport: device.viewport, url, first });
  const session = await page.createCDPSession();
  await session.send("Emulation.setCPUThrottlingRate", { rate: device.slower });
  await session.send("Performance.enable");
  const drag = await begun(page, device);
  for (let event = 1; event <= FIRST; event += 1) await drag.move(event);
  await settled(page);
  const end = async () => {
    await drag.end();
    await context.close();
    for (const fault of faults) console.log(`    ${fault}`);
  };
  return { page, session, move: drag.move, end };
}

async function timed(browser, url, device) {
  const { page, session, move, end } = await dragging(browser, url, device);
  await page.evaluate(watchMoves);
  const before = await spent(session);
  for (let event = 1; event <= EVENTS; event += 1) await move(FIRST + event);
  await page.waitForFunction((count) => window.moves.took.length >= count, { timeout: 10000 }, EVENTS);
  const after = await spent(session);
  const { took, frames, changed } = await page.evaluate(() => window.moves);
  await end();
  const each = Object.fromEntries(SPENT.map((name) => [name, ((after[name] - before[name]) * 1000) / EVENTS]));
  return { ...each, p50: percentile(took, 0.5), p95: percentile(took, 0.95), frames, changed };
}

async function counted(browser, url, device) {
  const { page, move, end } = await dragging(browser, url, device, countChanges);
  await page.evaluate(() => window.changes.begin());
  for (let event = 1; event <= EVENTS; event += 1) await move(FIRST + event);
  await settled(page);
  const counts = await page.evaluate(() => window.changes.counts);
  await end();
  return counts;
}

/** What the browser's main thread has spent so far, s. */
async function spent(session) {
  const { metrics } = await session.send("Performance.getMetrics");
  return Object.fromEntries(metrics.map(({ name, value }) => [name, value]));
}

/** Back and forth over twice the width, beginning upward. */
function wander(event) {
  const round = (2 * WIDE_PX) / STEP_PX;
  const at = (event + round / 2) % (2 * round);
  return WIDE_PX - STEP_PX * Math.min(at, 2 * round - at);
}

/**
 * Counts what is changed once `begin` is called, and what is set to what it was already. Runs before the page's
 * scripts, which call what is put in place here.
 */
function countChanges() {
  const counts = {
    "class attributes": 0, "path data": 0, transforms: 0, "spoken labels": 0, "other attributes": 0, texts: 0,
    "nodes made": 0, "nodes gone": 0, "set to what it was": 0,
  };
  let counting = false;
  const idle = (is) => {
    if (counting && is) counts["set to what it was"] += 1;
  };
  const { setAttribute } = Element.prototype;
  Element.prototype.setAttribute = function (name, value) {
    idle(this.getAttribute(name) === String(value));
    return setAttribute.call(this, name, value);
  };
  const { toggle } = DOMTokenList.prototype;
  DOMTokenList.prototype.toggle = function (name, force) {
    idle(force !== undefined && this.contains(name) === force);
    return toggle.call(this, name, force);
  };
  for (const property of ["textContent", "nodeValue"]) {
    const own = Object.getOwnPropertyDescriptor(Node.prototype, property);
    const set = function (value) {
      idle(own.get.call(this) === (value ?? ""));
      own.set.call(this, value);
    };
    Object.defineProperty(Node.prototype, property, { ...own, set });
  }
  const kinds = { class: "class attributes", d: "path data", transform: "transforms", "aria-label": "spoken labels" };
  const note = (records) => {
    for (const { type, attributeName, addedNodes, removedNodes } of records) {
      if (type === "attributes") counts[kinds[attributeName] ?? "other attributes"] += 1;
      else if (type === "characterData") counts.texts += 1;
      counts["nodes made"] += addedNodes.length;
      counts["nodes gone"] += removedNodes.length;
    }
  };
  const begin = () => {
    counting = true;
    new MutationObserver(note).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
  };
  window.changes = { counts, begin };
}

/**
 * Notes for every pointermove the time from before any handler of the page to a message posted
 * by that frame's animation callback: it arrives when the frame has been laid out and painted.
 */
function watchMoves() {
  const height = document.querySelector(".readout b");
  const moves = { took: [], frames: 0, changed: 0 };
  window.moves = moves;
  const channel = new MessageChannel();
  let began = [];
  let before = height.textContent;
  channel.port1.onmessage = () => {
    const now = performance.now();
    for (const time of began) moves.took.push(now - time);
    began = [];
    moves.frames += 1;
    moves.changed += Number(height.textContent !== before);
    before = height.textContent;
  };
  const note = () => {
    if (began.length === 0) requestAnimationFrame(() => channel.port2.postMessage(null));
    began.push(performance.now());
  };
  window.addEventListener("pointermove", note, { capture: true });
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const pages = process.argv.slice(2);
  const browser = await launch();
  try {
    for (const [at, url] of pages.entries()) console.log(`page ${at + 1}: ${url}`);
    await drags(browser, pages);
  } finally {
    await browser.close();
  }
}
