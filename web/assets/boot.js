// Starts the page. A file of its own, so that the page needs no inline script.
// The names of the other files below are what the build calls these files; a release puts their content's hash in.

const WASM = new URL("./web_bg.wasm", import.meta.url);

// A release sends the code packed, and has here what unpacks it.
/* UNPACK */

const SENTENCES = {
  missing: "Scrubline needs WebAssembly, which this browser does not have or has turned off. A current browser, or this one outside its strictest protection mode, opens it.",
  unreachable: "Scrubline could not be loaded completely. Check the connection, then reload the page.",
  broken: "Scrubline could not start in this browser. Reload the page; if that does not help, try a current browser.",
  stopped: "Something in Scrubline broke, and it has stopped. Reload the page: your work is kept, but for its last second.",
  newer: "This is a newer Scrubline than last time. Your design is as you left it.",
};
// The version that was last shown is kept under this name.
const SEEN = "scrubline:version";
// How long the worker of a newer version may take to get going, in milliseconds.
const PATIENCE = 1500;

// What is seen until the page takes over, and again when it can do nothing more.
const boot = document.getElementById("boot");

// Whether somebody has touched the page already, for whoever asks later.
for (const touch of ["pointerdown", "keydown"]) {
  addEventListener(touch, () => document.documentElement.setAttribute("data-touched", ""), { capture: true, once: true });
}

function say(sentence, error) {
  console.error(error);
  document.body.prepend(boot);
  const status = boot.querySelector("p");
  status.setAttribute("role", "alert");
  status.textContent = sentence;
  boot.scrollIntoView();
}

/**
 * An error that came through the page's WebAssembly has left it in the middle of something: nothing that is
 * touched from then on would answer, so it is said instead.
 */
function hear({ error, reason }) {
  const what = error ?? reason;
  if (what instanceof WebAssembly.RuntimeError || /wasm/.test(what?.stack)) say(SENTENCES.stopped, what);
}

/**
 * Takes a version that has been waiting since an earlier start, before anything of this one is seen, and tells
 * whether the page is about to load anew with it. Once no tab is open the browser takes it by itself; this is
 * for a page that is loaded again. Where the old worker does not give way in time, the old version goes on.
 */
async function takesNewer() {
  try {
    // A first visit has nothing to give way, and no start waits long for an answer.
    if (!navigator.serviceWorker.controller) return false;
    const silent = new Promise((done) => setTimeout(done, PATIENCE));
    const registration = await Promise.race([navigator.serviceWorker.getRegistration(), silent]);
    if (!registration?.waiting) return false;
    // The old worker gives way once it has nothing more to hand over, so what the page preloads is taken from it.
    await fetch(WASM).then((response) => response.arrayBuffer());
    const over = new Promise((done) => {
      navigator.serviceWorker.addEventListener("controllerchange", () => done(true), { once: true });
      setTimeout(() => done(false), PATIENCE);
    });
    registration.waiting.postMessage("take over");
    if (!(await over)) return false;
    location.reload();
    return true;
  } catch {
    return false;
  }
}

/** Says once that the version is a newer one. */
function tellOfNewer() {
  try {
    const version = document.querySelector("meta[name=scrubline-version]")?.content;
    const seen = localStorage.getItem(SEEN);
    if (!version || version === seen) return;
    localStorage.setItem(SEEN, version);
    if (seen) window.dispatchEvent(new CustomEvent("scrubline-say", { detail: SENTENCES.newer }));
  } catch {
    // Storage is refused: then nothing is known of last time.
  }
}

/**
 * Where the code is kept as it was sent, it is kept as it was unpacked: a later start waits for none of it. Its name
 * goes by its content, so wherever it is kept it is the same. The second module stays as it was sent, since the page
 * takes it by its digest.
 */
async function keepUnpacked(code) {
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    if (await cache.match(WASM)) await cache.put(WASM, new Response(code, { headers: { "Content-Type": "application/wasm" } }));
  }
}

/**
 * Keeps the page for the next time, with or without a network, and has the page take in what it has not shown yet: it
 * is kept by then, and an older tab does not ask for it when a newer version is there. A browser may refuse; the page
 * goes on.
 */
async function keep(code) {
  try {
    const { active, waiting, installing } = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
    const worker = active ?? waiting ?? installing;
    // Only then does it answer for the network: what is asked for before comes a second time, and fails where there is
    // none any more. One that could not keep everything is given up.
    await new Promise((done) => {
      const look = () => ["activated", "redundant"].includes(worker.state) && done();
      worker.addEventListener("statechange", look);
      look();
    });
    if (!(code instanceof Response)) await keepUnpacked(code);
  } catch (error) {
    console.info(`Scrubline is not kept for use without a network: ${error}`);
  }
  window.dispatchEvent(new Event("scrubline-rest"));
}

/** The page's code: as the worker has kept it unpacked, else unpacked while it comes; a slow phone may be touched meanwhile. */
async function code() {
  const response = await fetch(WASM);
  if (!response.ok) throw new Error(`${WASM} answered ${response.status}`);
  const isCode = !globalThis.scrublineUnpack || response.headers.get("Content-Type") === "application/wasm";
  return isCode ? response : scrublineUnpack(response.body, 10);
}

async function start() {
  if (await takesNewer()) return;
  if (typeof WebAssembly !== "object") {
    say(SENTENCES.missing, "no WebAssembly");
    return;
  }
  let init, bytes;
  try {
    const [glue, unpacked] = await Promise.all([import("./web.js"), code()]);
    init = glue.default;
    bytes = unpacked;
  } catch (error) {
    say(SENTENCES.unreachable, error);
    return;
  }
  try {
    await init({ module_or_path: bytes });
  } catch (error) {
    say(SENTENCES.broken, error);
    return;
  }
  addEventListener("error", hear);
  addEventListener("unhandledrejection", hear);
  tellOfNewer();
  // Not needed to begin with; loaded now, so that an older tab does not ask for it when a newer version is there.
  import("./extras.js").catch((error) => console.info(`Scrubline goes on without QR codes and PNG pictures: ${error}`));
  keep(bytes);
}

start();
