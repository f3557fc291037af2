// Keeps the page's files in the browser: after one visit it opens without a network.
//
// The build puts in which files make up this version, each with the first sixteen digits of its SHA-256.
// A debug build leaves the list empty, and then nothing is kept.

const FILES = new Map(/* FILES */);
const VERSION = "/* VERSION */";

const SCOPE = new URL(self.registration.scope);
// Other pages may share the origin, and so may another copy of this one.
const OURS = `scrubline:${SCOPE.pathname}:`;
const CACHE = OURS + VERSION;
const FRONT = "index.html";
// How long a file may be on its way, in milliseconds. One that never ends would keep this version from being given
// up, and every later one from being tried.
const PATIENCE = 120000;

// Some hosts redirect from the front page's file name to its folder, and a redirect cannot be kept.
const addressOf = (name) => new URL(name === FRONT ? "./" : name, SCOPE).href;

/** The file as this version means it. What else a network may answer, as the page of a sign-in, is refused. */
async function fetched([name, hash]) {
  const response = await fetch(addressOf(name), { cache: "no-cache", signal: AbortSignal.timeout?.(PATIENCE) });
  const digest = await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer());
  const digits = Array.from(new Uint8Array(digest, 0, 8), (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (!response.ok || response.redirected || digits !== hash) throw new Error(`${name} is not the one of this version`);
  return [addressOf(name), response];
}

/** All files or none: a version that could not be had whole is as if it had never been tried. */
async function keep() {
  const files = await Promise.all([...FILES].map(fetched));
  try {
    const cache = await caches.open(CACHE);
    await Promise.all(files.map(([address, response]) => cache.put(address, response)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/** Only now is nothing left that was started by the version before. */
async function takeOver() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function answered(name, request) {
  const found = await caches.open(CACHE).then((cache) => cache.match(addressOf(name))).catch(() => undefined);
  return found ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
// boot.js asks for it at the start of a page, when nothing is being done on it.
self.addEventListener("message", (event) => event.data === "take over" && self.skipWaiting());
self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || !address.href.startsWith(SCOPE.href)) return;
  const name = address.pathname.slice(SCOPE.pathname.length) || FRONT;
  if (FILES.has(name)) event.respondWith(answered(name, event.request));
});
