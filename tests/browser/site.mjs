// The release page on a server of the test's own, which can be stopped, changed and broken.

import { createHash } from "node:crypto";
import { createServer } from "node:http";
import { test } from "node:test";
import { URL_ } from "./driver.mjs";

const TYPES = {
  html: "text/html", js: "text/javascript", wasm: "application/wasm", svg: "image/svg+xml", png: "image/png",
  webmanifest: "application/manifest+json",
};

/** The first sixteen digits of the SHA-256, as the build names files. */
export const digits = (bytes) => createHash("sha256").update(bytes).digest("hex").slice(0, 16);

async function take(name) {
  const answer = await fetch(URL_ + name);
  if (!answer.ok) throw new Error(`${name} answered ${answer.status}`);
  return Buffer.from(await answer.arrayBuffer());
}

/** The page as one file, to be put on a disk. */
export const pageAsOneFile = () => take("scrubline.html");

/** Every file of the finished page by its name: the service worker's list, and the worker itself. */
export async function filesOfPage() {
  const worker = await take("sw.js");
  const names = [...worker.toString().matchAll(/\["([^"]+)","[0-9a-f]{16}"\]/g)].map(([, name]) => name);
  const files = new Map([["sw.js", worker]]);
  for (const name of names) files.set(name, await take(name));
  return files;
}

/** The next version: another name of it in the front page, which the worker's list and version follow. */
export function nextVersion(files, mark) {
  const front = files.get("index.html");
  const other = Buffer.from(front.toString().replace(/(name="?scrubline-version"? content="?)[0-9a-f]{16}/, `$1${mark}`));
  if (other.equals(front)) throw new Error("the front page names no version");
  const worker = files.get("sw.js").toString()
    .replace(digits(front), digits(other))
    .replace(/VERSION( ?= ?)"[0-9a-f]{16}"/, (_, is) => `VERSION${is}"${digits(other)}"`);
  return new Map(files).set("index.html", other).set("sw.js", Buffer.from(worker));
}

/** The same page told where it lives, as `cargo xtask dist --page` tells it. */
export function livingAt(files, address) {
  const front = files.get("index.html").toString().replace("<title", `<meta name="scrubline-page" content="${address}"><title`);
  const worker = files.get("sw.js").toString().replace(digits(files.get("index.html")), digits(front));
  return new Map(files).set("index.html", Buffer.from(front)).set("sw.js", Buffer.from(worker));
}

/**
 * Serves `site.files` under a path of its own. `site.asked` gathers what was asked for;
 * a file that is not there answers 404, and the answer of one that `site.endless` names never ends.
 */
export async function serve(files) {
  const prefix = "/~somebody/drawings/";
  const site = { files, asked: [], endless: new Set() };
  const server = createServer((request, response) => {
    const path = new URL(request.url, "http://localhost").pathname;
    site.asked.push(path);
    const name = path.startsWith(prefix) ? path.slice(prefix.length) || "index.html" : null;
    const body = site.files.get(name);
    response.writeHead(body ? 200 : 404, {
      "Content-Type": TYPES[name?.split(".").pop()] ?? "text/plain", "Cache-Control": "max-age=600",
    });
    if (body && site.endless.has(name)) response.write(body.subarray(0, body.length / 2));
    else response.end(body ?? "There is no such file.");
  });
  const listen = (port) => new Promise((done) => server.listen(port, "127.0.0.1", done));
  await listen(0);
  const { port } = server.address();
  // By name, as people type it.
  site.url = `http://localhost:${port}${prefix}`;
  site.stop = () => new Promise((done) => {
    server.close(done);
    server.closeAllConnections();
  });
  site.start = () => listen(port);
  return site;
}

/**
 * A test with a server and a context of its own that has kept nothing yet; `given` says in which browser and of
 * which files, `change` what is then made of these.
 */
export function onSitesOf(given) {
  return (name, body, change = () => {}) => test(name, async () => {
    const { browser, files } = given();
    const site = await serve(new Map(files));
    change(site.files);
    const context = await browser.createBrowserContext();
    try {
      await body(context, site);
    } finally {
      await context.close();
      await site.stop();
    }
  });
}

/** Waits until the page's files are kept. */
export const filesKept = (page) => page.evaluate(() => navigator.serviceWorker.ready.then((registration) => new Promise((done) => {
  const worker = registration.active;
  if (worker.state === "activated") done();
  worker.addEventListener("statechange", () => worker.state === "activated" && done());
})));
