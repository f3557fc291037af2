// Lighthouse on the release page: a phone on a slow line, as its mobile setting has it.
//
// The files are handed out compressed, as hosts of static pages do, and from some way off: at no distance at all the
// page is there before its first words are painted, and what is then taken for its first is its last. Nothing fails here: scores of performance belong
// to the machine and the line that are pretended, and what is found is printed.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { createServer } from "node:http";
import { cpus, release, type as system } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { launch } from "../browser/driver.mjs";
import { filesOfPage } from "../browser/site.mjs";
import { heading, median, row } from "./table.mjs";

const RUNS = 5;
/** From one end to the other and back, ms; the slow line that is pretended is reckoned instead of it. */
const AWAY_MS = 60;
const BARS = { performance: 99, accessibility: 100, "best-practices": 100, seo: null };
const METRICS = ["first-contentful-paint", "largest-contentful-paint", "interactive", "total-blocking-time", "cumulative-layout-shift", "speed-index"];
const TYPES = {
  html: "text/html; charset=utf-8", js: "text/javascript", wasm: "application/wasm", svg: "image/svg+xml",
  png: "image/png", webmanifest: "application/manifest+json",
};

const tools = process.env.SCRUBLINE_BENCH_TOOLS;
const entry = createRequire(join(tools, "package.json")).resolve("lighthouse");
const { default: lighthouse } = await import(pathToFileURL(entry));
const { version } = JSON.parse(await readFile(join(tools, "node_modules/lighthouse/package.json"), "utf8"));

const server = await compressed(await filesOfPage());
const results = [];
for (let turn = 0; turn < RUNS; turn += 1) {
  // A browser of its own each time: what an earlier visit kept would make the next one quicker.
  const browser = await launch();
  const port = Number(new URL(browser.wsEndpoint()).port);
  const { lhr } = await lighthouse(server.url, { port, logLevel: "error", output: "json" });
  results.push(lhr);
  await browser.close();
}
server.close();

console.log(`\n${cpus()[0].model}, ${cpus().length} cores; ${system()} ${release()}; Lighthouse ${version}, ${results[0].environment.hostUserAgent.match(/Chrome\/[\d.]+/)[0]}`);
console.log(`Mobile, ${results[0].configSettings.throttlingMethod} throttling; files compressed by gzip, ${AWAY_MS} ms away.`);
heading(`Lighthouse, median of ${RUNS}`, ["score", "least", "bar"]);
for (const [name, bar] of Object.entries(BARS)) {
  const scores = results.map((lhr) => Math.round(lhr.categories[name].score * 100));
  row(name, [`${median(scores)}`, `${Math.min(...scores)}`, bar ? `${bar}` : "-"]);
}
heading("Its measurements", ["median", "score"]);
for (const name of METRICS) {
  const of = (key) => median(results.map((lhr) => lhr.audits[name][key]));
  row(results[0].audits[name].title, [of("numericValue").toFixed(name === "cumulative-layout-shift" ? 3 : 0), of("score").toFixed(2)]);
}
console.log("\n  What it finds wanting:");
const wanting = Object.keys(BARS).flatMap((category) => results[0].categories[category].auditRefs.flatMap(({ id, weight }) => {
  const { score, title, displayValue } = results[0].audits[id];
  return score !== null && score < 1 ? [`    ${category}: ${title}${displayValue ? `, ${displayValue}` : ""} (weight ${weight})`] : [];
}));
console.log([...new Set(wanting)].join("\n") || "    nothing");

/** The files of the page, each compressed once, on a server of its own. */
async function compressed(files) {
  const packed = new Map([...files].map(([name, body]) => [name, gzipSync(body, { level: 9 })]));
  const http = createServer((request, response) => {
    const name = new URL(request.url, "http://localhost").pathname.slice(1) || "index.html";
    const body = packed.get(name);
    response.writeHead(body ? 200 : 404, {
      "Content-Type": TYPES[name.split(".").pop()] ?? "text/plain", ...(body && { "Content-Encoding": "gzip" }), "Cache-Control": "max-age=600",
    });
    setTimeout(() => response.end(body ?? "There is no such file."), AWAY_MS);
  });
  await new Promise((done) => http.listen(0, "127.0.0.1", done));
  return { url: `http://localhost:${http.address().port}/`, close: () => http.close() };
}
