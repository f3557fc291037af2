// Figures beside their bars: loops natively and here, two general solvers, and the release page under a drag.
// Nothing fails here: a figure belongs to the machine it was taken on, and that is named.

import { cpus, loadavg, release, type as system } from "node:os";
import { DESK, PHONE, URL_, launch, open, turnTo, type } from "../browser/driver.mjs";
import { drags } from "./drag.mjs";
import { memory } from "./memory.mjs";
import { planegcs } from "./planegcs.mjs";
import { heading, median, ms, ratio, row, time } from "./table.mjs";

/** How often a start is timed. */
const STARTS = 5;

/** Bars of the loops: nanoseconds natively, and the most that WebAssembly may take over native. */
const NATIVE_NS = { "pose by arm angle": 100, "pose by travel, all outputs": 500 };
const WASM_RATIO = 2;
const SCIPY_RATIO = 500;
/** Poses of the sweep that general solvers are timed on too, and its loop. */
const POSES = 61;
const SWEEP = "sweep of 61 poses, all outputs";
/** Bar from first paint to first possible drag, ms. */
const START_MS = 1000;

const browser = await launch();
try {
  const [cpu] = cpus();
  const node = `Node ${process.versions.node}`;
  console.log(`\n${cpu.model}, ${cpus().length} cores; ${system()} ${release()}; ${await browser.version()}, ${node}`);
  console.log(`${loadavg()[0].toFixed(1)} programs wanted a core over the last minute, this one among them.`);
  await loops();
  await starts();
  await drags(browser, [URL_]);
  await ways();
  await memory(browser, Number(process.env.SCRUBLINE_MINUTES ?? 1));
} finally {
  await browser.close();
}

/** Every loop, natively and here, and one of them by SciPy. */
async function loops() {
  const native = timings(process.env.SCRUBLINE_NATIVE ?? "");
  const here = timings(await loopsHere());
  heading("Loops, median of five runs", ["native", "wasm", "wasm / native", "bar"]);
  for (const [what, ns] of here) {
    const before = native.get(what);
    const bars = [NATIVE_NS[what] && `${NATIVE_NS[what]} ns`, `${WASM_RATIO} x`];
    row(what, [time(before), time(ns), ratio(ns, before), bars.filter(Boolean).join(", ")]);
  }
  const scipy = /([\d.]+) ms/.exec(process.env.SCRUBLINE_SCIPY ?? "");
  const [there, inside] = [native.get(SWEEP) / POSES, here.get(SWEEP) / POSES];
  heading("A pose of the same truck by general solvers", ["it", "it / native", "it / wasm", "bar"]);
  row("ours, all outputs: native", [time(there), "", "", ""]);
  row("ours, all outputs: wasm", [time(inside), "", "", ""]);
  if (scipy) {
    const ns = (Number(scipy[1]) * 1e6) / POSES;
    row("SciPy's fsolve, all outputs", [time(ns), ratio(ns, there), ratio(ns, inside), `at least ${SCIPY_RATIO} x`]);
  } else {
    console.log("  SciPy was not there.");
  }
  const plane = await planegcs(process.env.SCRUBLINE_BENCH_TOOLS);
  if (!plane) return console.log("  planegcs was not there.");
  for (const [name, ns] of [["constraints kept", plane.kept], ["constraints anew", plane.anew]]) {
    row(`planegcs, in the plane, ${name}`, [time(ns), ratio(ns, there), ratio(ns, inside), "-"]);
  }
  console.log(`    its two balls within ${plane.furthest.toExponential(1)} mm of SciPy's in ${plane.poses} poses; both as WebAssembly but ours in Chromium, it in Node`);
}

/** The search for ways down on the page: how many combinations of parts it tries in a second. */
async function ways() {
  heading(`Ways down, median of ${STARTS}`, ["tried", "took", "a second", "bar"]);
  const { context, page } = await open(browser, { viewport: DESK });
  await turnTo(page, "Find a drop");
  const rates = [];
  for (let turn = 0; turn < STARTS; turn += 1) {
    await type(page, "Lower by", turn % 2 ? "2 1/2" : "2");
    rates.push(await page.evaluate(searched));
  }
  const middle = (key) => median(rates.map((one) => one[key]));
  row("on the page, which goes on being drawn", [`${middle("tried")}`, ms(middle("took")), `${middle("rate").toFixed(0)}`, "-"]);
  await context.close();
}

/** Starts the search and waits for its end. Runs in the page. */
async function searched() {
  const button = document.querySelector(".panel > .primary");
  const begin = performance.now();
  button.click();
  const frame = () => new Promise(requestAnimationFrame);
  do await frame(); while (button.textContent.includes("Stop"));
  const took = performance.now() - begin;
  const [, tried, all] = document.querySelector(".progress").textContent.match(/^(\d+) of (\d+)/);
  if (tried !== all) throw new Error(`the search ended at ${tried} of ${all}`);
  return { tried: Number(tried), took, rate: Number(tried) / (took / 1000) };
}

/** The lines that the loops print, run in a page of their own. */
async function loopsHere() {
  const page = await browser.newPage();
  await page.goto(process.env.SCRUBLINE_LOOPS);
  const found = await page.waitForFunction(() => window.timings, { timeout: 120_000 });
  const text = await found.jsonValue();
  await page.close();
  return text;
}

function timings(text) {
  const lines = text.split("\n").map((line) => /^(.*\S)\s+([\d.]+) ns$/.exec(line));
  return new Map(lines.filter(Boolean).map(([, what, ns]) => [what, Number(ns)]));
}

/** From the start of the navigation to the first paint and to a handle that can be dragged. */
async function starts() {
  heading(`Start, median of ${STARTS}`, ["first paint", "handle there", "between", "bar"]);
  for (const [device, viewport] of [["desk", DESK], ["phone", PHONE]]) {
    const cold = [];
    const warm = [];
    for (let turn = 0; turn < STARTS; turn += 1) {
      const context = await browser.createBrowserContext();
      const page = await context.newPage();
      await page.setViewport(viewport);
      await page.evaluateOnNewDocument(noteTheHandle);
      cold.push(await start(page));
      await page.evaluate(() => navigator.serviceWorker.ready);
      await page.goto("about:blank");
      warm.push(await start(page));
      await context.close();
    }
    for (const [name, all] of [["nothing kept", cold], ["all kept by the browser", warm]]) {
      const middle = (key) => median(all.map((one) => one[key]));
      const [paint, handle] = [middle("paint"), middle("handle")];
      const between = median(all.map((one) => one.handle - one.paint));
      row(`${device}, ${name}`, [ms(paint), ms(handle), ms(between), `${START_MS} ms between`]);
      const files = [...new Set(all.map((one) => `${one.requests} requests, ${(one.bytes / 1000).toFixed(1)} kB`))];
      console.log(`    ${files.join("; ")} over the wire, not compressed here`);
    }
  }
}

/** Runs before the page: notes when the first handle is in it. */
function noteTheHandle() {
  const look = new MutationObserver(() => {
    if (!document.querySelector("[data-handle]")) return;
    window.handleThere = performance.now();
    look.disconnect();
  });
  look.observe(document, { childList: true, subtree: true });
}

async function start(page) {
  await page.goto(URL_, { waitUntil: "load" });
  await page.waitForFunction(() => window.handleThere && performance.getEntriesByType("paint").length > 0);
  return page.evaluate(() => {
    const files = [...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")];
    return {
      paint: performance.getEntriesByType("paint")[0].startTime,
      handle: window.handleThere,
      requests: files.length,
      bytes: files.reduce((sum, file) => sum + file.transferSize, 0),
    };
  });
}
