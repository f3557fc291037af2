import { DESK, PHONE, launch, open, spot } from "./driver.mjs";
const browser = await launch();
const vp = process.argv[2] === "phone" ? PHONE : DESK;
const { page } = await open(browser, { viewport: vp });
const s = await page.createCDPSession();
const from = await spot(page, "wheel-centre");
await page.mouse.move(from.x, from.y); await page.mouse.down();
const ev = []; s.on("Tracing.dataCollected", (d) => ev.push(...d.value));
const bs = await browser.target().createCDPSession();
bs.on("Tracing.dataCollected", (d) => ev.push(...d.value));
await bs.send("Tracing.start", { transferMode: "ReportEvents", traceConfig: { includedCategories: ["toplevel","devtools.timeline","blink","v8","cc","disabled-by-default-devtools.timeline"] } });
const N = 200;
for (let i = 1; i <= N; i++) await page.mouse.move(from.x, from.y + 16 - 2 * Math.min((i+8)%32, 32-(i+8)%32));
const done = new Promise((r) => bs.on("Tracing.tracingComplete", r));
await bs.send("Tracing.end"); await done;
const pid = (await page.evaluate(() => 1), null);
// main thread: tid with most FunctionCall
const cnt = {}; for (const e of ev) if (e.name === "FunctionCall" || e.name === "UpdateLayoutTree") cnt[e.pid + ":" + e.tid] = (cnt[e.pid + ":" + e.tid] || 0) + 1;
const main = Object.entries(cnt).sort((a, b) => b[1] - a[1])[0][0];
const on = ev.filter((e) => e.pid + ":" + e.tid === main && e.ph === "X").sort((a, b) => a.ts - b.ts || b.dur - a.dur);
const self = {}, tot = {}, n = {}; const stack = [];
for (const e of on) {
  while (stack.length && stack.at(-1).ts + stack.at(-1).dur <= e.ts) stack.pop();
  const t = e.tdur ?? 0;
  if (stack.length) self[stack.at(-1).name] -= t;
  self[e.name] = (self[e.name] ?? 0) + t; tot[e.name] = (tot[e.name] ?? 0) + t; n[e.name] = (n[e.name] ?? 0) + 1;
  stack.push(e);
}
for (const [k, v] of Object.entries(self).sort((a, b) => b[1] - a[1]).slice(0, 25)) console.log(k.padEnd(50), "self", (v / N / 1000).toFixed(3), "total", (tot[k] / N / 1000).toFixed(3), "n", (n[k] / N).toFixed(1));
await browser.close();
