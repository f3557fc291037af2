// A browser, a page, and fingers for it. Everything the scripts beside this share.

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch as start } from "puppeteer-core";

export const URL_ = need("SCRUBLINE_URL");
export const BIN = process.env.SCRUBLINE_BIN;

function need(name) {
  const value = process.env[name];
  if (!value) throw new Error(`${name} is not set: run these through cargo xtask`);
  return value;
}

export const PHONE = { width: 360, height: 740, isMobile: true, hasTouch: true, deviceScaleFactor: 2 };
/** A phone on its side. */
export const LYING = { ...PHONE, width: PHONE.height, height: PHONE.width };
export const DESK = { width: 1280, height: 800 };

/** The address of the demo truck's front alone: no rear is measured, and its first plan is the only one. */
export function frontAlone() {
  const command = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input }).trim();
  const demo = JSON.parse(command(["open", command(["link"]), "--format", "json"]));
  delete demo.truck.rear;
  demo.proposals.length = 1;
  demo.opening.proposal = 0;
  return `#${command(["link", "-"], JSON.stringify(demo))}`;
}

/** A browser without a profile of its own. */
export function launch() {
  return start({
    executablePath: need("SCRUBLINE_CHROMIUM"),
    args: [
      ...(process.env.SCRUBLINE_CHROMIUM_ARGS ?? "").split(" ").filter(Boolean),
      "--force-prefers-reduced-motion",
    ],
  });
}

/**
 * A page of its own, ready to be dragged. `faults` gathers what must not happen:
 * errors, refusals by the content security policy, requests to elsewhere. `first` runs before the page's own scripts.
 */
export async function open(browser, options = {}) {
  const context = await browser.createBrowserContext();
  return { context, ...(await openIn(context, options)) };
}

/** The same in a context that is there already: what the browser has kept is kept. */
export async function openIn(context, { viewport = DESK, at = "", scheme = "light", url = URL_, first, sheet = false } = {}) {
  const page = await context.newPage();
  await page.setViewport(viewport);
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
  const faults = [];
  page.on("pageerror", (error) => faults.push(`error: ${error.message}`));
  page.on("console", (line) => line.type() === "error" && faults.push(`console: ${line.text()}`));
  page.on("request", (request) => {
    const ours = request.url().startsWith(url) || /^(data|blob):/.test(request.url());
    if (!ours) faults.push(`request: ${request.url()}`);
  });
  await page.evaluateOnNewDocument(() => {
    window.refusals = [];
    document.addEventListener("securitypolicyviolation", (event) => window.refusals.push(event.violatedDirective));
  });
  if (first) await page.evaluateOnNewDocument(first);
  await page.goto(url + at, { waitUntil: "load" });
  await ready(page);
  // A desk shows a panel at once, whose code is fetched now.
  await whole(page);
  // A test that comes by link works on what is there as on its own, but where it is about somebody's link.
  const mine = sheet ? null : await page.$(".theirs .quiet");
  if (mine) {
    await mine.evaluate((one) => one.click());
    await settled(page);
  }
  return { page, faults };
}

/** The browser of a file's tests, `running.browser`, from before the first of them until after the last. */
export function runningBrowser() {
  const running = {};
  before(async () => {
    running.browser = await launch();
  });
  after(() => running.browser?.close());
  return running;
}

/**
 * A test on a page of its own in the browser that `browserOf` gives; it asks at its end that nothing
 * went wrong unseen.
 */
export function onPagesOf(browserOf) {
  return (options, name, body) => test(name, async () => {
    const { context, page, faults } = await open(browserOf(), options);
    try {
      await body(page);
      const refusals = await page.evaluate(() => window.refusals);
      assert.deepEqual([...faults, ...refusals], []);
    } finally {
      await context.close();
    }
  });
}

/** Waits until the sketch is there and a handle can be taken. */
export async function ready(page) {
  await page.waitForSelector('[data-handle="wheel-centre"]', { timeout: 20000 });
  await settled(page);
}

/** Waits two frames: what was set is drawn. */
export function settled(page) {
  return page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 0)))),
  );
}

/** Where a handle is on the screen; of several pictures on the one named, else on the first. */
export async function spot(page, key, aspect) {
  const pad = aspect ? `[data-aspect="${aspect}"] ` : "";
  return page.$eval(`${pad}[data-handle="${key}"] .dot`, (dot) => {
    const box = dot.getBoundingClientRect();
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  });
}

/**
 * A hand that holds still for so long, ms, goes on slowly; a machine that is busy may take as long from one place of a
 * drag to the next, and is no hand that holds still.
 */
const HELD_MS = 300;
const unheld = (page) => page.evaluate((held) => {
  if (window.later) return;
  window.later = window.setTimeout;
  window.setTimeout = (run, wait, ...rest) => window.later(run, wait === held ? 1e6 : wait, ...rest);
}, HELD_MS);

/** Drags with the mouse along offsets from a handle, and lets go at the last. */
export async function drag(page, key, offsets) {
  await unheld(page);
  const from = await spot(page, key);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (const [dx, dy] of offsets) {
    await page.mouse.move(from.x + dx, from.y + dy, { steps: 4 });
    await settled(page);
  }
  await page.mouse.up();
  await settled(page);
}

/** Drags with a finger, by the browser's own touch path. */
export async function swipe(page, from, [dx, dy], steps = 20) {
  await unheld(page);
  const session = await page.createCDPSession();
  const touch = (type, x, y) =>
    session.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: type === "touchEnd" ? [] : [{ x, y, id: 1, radiusX: 8, radiusY: 8, force: 1 }],
    });
  await touch("touchStart", from.x, from.y);
  for (let step = 1; step <= steps; step += 1) {
    await touch("touchMove", from.x + (dx * step) / steps, from.y + (dy * step) / steps);
    await settled(page);
  }
  await touch("touchEnd");
  await settled(page);
  await session.detach();
}

/** The value of a readout by its name. */
export function readout(page, name) {
  return page.evaluate((wanted) => {
    const tile = [...document.querySelectorAll(".readout")].find(
      (found) => found.querySelector("dt").textContent === wanted,
    );
    return tile?.querySelector("b").textContent ?? null;
  }, name);
}

/** A part of a readout by the readout's name; its note where no other is asked for. */
export function note(page, name, part = "small:not(.spread)") {
  return page.evaluate((wanted, of) => {
    const tile = [...document.querySelectorAll(".readout")].find(
      (found) => found.querySelector("dt").textContent === wanted,
    );
    return tile?.querySelector(of).textContent ?? null;
  }, name, part);
}

/** What buttons are called: the plan on the sketch says under its name what it is made of. */
export function firstLines(page, which) {
  return page.$$eval(which, (all) => all.map((one) => one.textContent.split("\n")[0]));
}

/** How far off a readout may be, or of what is hit first how far up that is. */
export function spread(page, name) {
  return note(page, name, ".spread");
}

/**
 * Presses an element as a person does: scrolled into sight, at its middle, where nothing lies over it. Throws
 * where nobody could. What was built anew since it was found is found again by `again`.
 */
export async function hit(page, element, again) {
  const found = await element.evaluate((one) => {
    if (!one.isConnected) return { gone: true, why: "what was to be pressed is gone" };
    const name = one.getAttribute("aria-label") ?? one.textContent.trim();
    if (!one.checkVisibility({ visibilityProperty: true, checkVisibilityCSS: true })) return { why: `"${name}" is hidden` };
    if (one.disabled) return { why: `"${name}" is disabled` };
    let over = null;
    // What stays in place while the page scrolls leaves different heights free: a person finds them.
    for (const [block, lower] of [["nearest", 0], ["center", 0], ["center", 0.1], ["center", 0.2], ["center", -0.2], ["end", 0], ["start", 0]]) {
      one.scrollIntoView({ block, inline: "nearest", behavior: "instant" });
      if (lower !== 0) scrollBy(0, -lower * innerHeight);
      const box = one.getBoundingClientRect();
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      over = document.elementFromPoint(x, y);
      if (one.contains(over)) return { x, y };
    }
    return { why: `"${name}" is ${over ? `under <${over.tagName} class="${over.getAttribute("class")}">` : "out of sight"}` };
  });
  if (found.gone && again) return hit(page, await again(), again);
  if (found.why) throw new Error(found.why);
  await page.mouse.click(found.x, found.y);
  await settled(page);
  await whole(page);
}

/** Presses the button with these words on it, or in its first line, or the heading of what folds; of several the first that is in sight. */
export async function press(page, words, within = "body") {
  const find = async () => {
    const button = await page.evaluateHandle(
      (text, scope) => {
        const named = [...document.querySelectorAll(`${scope} button, ${scope} summary`)].filter(
          (found) => [found.textContent.trim(), found.textContent.split("\n")[0], found.getAttribute("aria-label"), found.querySelector(":scope > .name")?.textContent].includes(text),
        );
        return named.find((found) => found.checkVisibility()) ?? named[0] ?? null;
      },
      words,
      within,
    );
    if (!button.asElement()) throw new Error(`no button "${words}"`);
    return button.asElement();
  };
  await hit(page, await find(), find);
}

/** Opens a place by what is in sight: its name in the row, or a phone's bar and what is behind "More" in it. */
export async function turnTo(page, place) {
  const nav = "nav[aria-label=Panels]";
  const state = await page.$eval(nav, (one, name) => {
    const button = [...one.querySelectorAll("button")].find((found) => found.textContent.trim() === name);
    return { there: Boolean(button), seen: button?.checkVisibility(), open: button?.hasAttribute("aria-current") };
  }, place);
  if (!state.there) throw new Error(`no place "${place}"`);
  if (!state.seen) await press(page, "More", nav);
  // What is open already is lowered by a second touch of its name.
  if (!state.open || (await page.$eval(nav, (one) => Boolean(one.querySelector(".more")?.checkVisibility()))) === false) await press(page, place, nav);
  else if (!state.seen) await press(page, "More", nav);
  // On a phone it may be the first place of all, whose code is fetched now.
  await whole(page);
}

/** Waits until nothing that was asked for is still on its way. */
export const whole = (page) => page.waitForFunction(() => !document.querySelector('[aria-busy="true"]'));

/** A number as the page prints it: `9 13/16 in`, `~−1/2`, `−0.25°`. */
export function number(text) {
  const found = text.replace("−", "-").match(/^~? ?([-+]?)(?:(\d+(?:\.\d+)?)(?![\d/]))? ?(?:(\d+)\/(\d+))?/);
  const [, sign, whole, top, bottom] = found;
  if (whole === undefined && top === undefined) throw new Error(`no number in "${text}"`);
  const size = Number(whole ?? 0) + (top === undefined ? 0 : Number(top) / Number(bottom));
  return sign === "-" ? -size : size;
}

/** The input whose label is these words, or else begins with them. */
export async function field(page, words) {
  const input = await page.evaluateHandle((text) => {
    const labels = [...document.querySelectorAll("label")];
    const named = labels.find((found) => found.querySelector(".name")?.firstChild?.textContent === text);
    return (named ?? labels.find((found) => found.textContent.trim().startsWith(text)))?.querySelector("input, textarea") ?? null;
  }, words);
  if (!input.asElement()) throw new Error(`no field "${words}"`);
  return input.asElement();
}

/** What the parts of a plan are found under: the first of these that a change's name fits. */
const HANDS = [
  [/^(Rear |Axle flip|Frame notch)/, "Rear"], [/[Kk]nuckle|spindle/, "Spindle"], [/^Turn /, "Flip a ball joint"], [/ arm|rod$/, "Arms and rods"],
  [/shims$/, "Shims"], [/^Tire and wheel$/, "Tire and wheel"], [/^(Bump stop|Shock)$/, "Stop and shock"], [/^Brake$/, "Brakes"], [/./, "Bar or spring"],
];

/** Opens in Parts what a change is in the hand of. */
export async function takeUp(page, change) {
  await turnTo(page, "Parts");
  const hand = change === "Upper-arm shims" ? "Shims" : HANDS.find(([fits]) => fits.test(change))[1];
  if (await page.$eval(".parts", (panel) => !panel.querySelector(".hands"))) await press(page, "All parts", ".parts");
  await press(page, hand, ".hands");
}

/** Puts a change on the plan. */
export async function add(page, change) {
  await takeUp(page, change);
  const there = async (name) => {
    const button = await page.$(`.parts button[aria-label="${name}"]`);
    return Boolean(await button?.evaluate((one) => one.checkVisibility()));
  };
  if (await there(`Remove ${change}`)) {
    // What nobody typed into was only looked at: as one does who has just that part.
    const input = await page.$(`xpath///article[.//button[@aria-label="Remove ${change}"]]//input[@type="text"]`);
    if (input) {
      await input.focus();
      await page.keyboard.press("End");
      await page.keyboard.type(" ");
      await page.keyboard.press("Enter");
      await settled(page);
    }
    return;
  }
  const name = change.startsWith("Turn ") ? change : `Add ${change}`;
  if (!(await there(name))) await press(page, "Something else", ".parts");
  await press(page, name, ".parts");
}

/** Opens the card of a change that is on the plan, by its line. */
export async function openCard(page, change) {
  const named = change.startsWith("Turn ") ? `.parts [aria-label="${change}"][aria-checked="true"]` : `.parts [aria-label="Remove ${change}"]`;
  await turnTo(page, "Parts");
  for (let line = 0; !(await page.$(named)); line += 1) {
    if (!(await page.$(".lines"))) await press(page, "All parts", ".parts");
    const lines = await page.$$(".lines button");
    if (line >= lines.length) throw new Error(`no "${change}" on the plan`);
    await hit(page, lines[line]);
  }
  return named;
}

/** Takes a change off the plan. */
export async function remove(page, change) {
  await hit(page, await page.$(await openCard(page, change)));
}

/** Opens a change's finer numbers, and on which sides it is. */
export async function unfold(page, change) {
  const folded = await page.$(`xpath///article[.//button[contains(@aria-label, "${change}")]]//details[not(@open)]/summary`);
  if (folded) await hit(page, folded);
}

/** A field that can be seen. */
async function seen(page, words) {
  const input = await field(page, words).catch(() => null);
  return (await input?.evaluate((element) => element.checkVisibility())) ? input : null;
}

/** Types into a field and leaves it. */
export async function type(page, words, text) {
  let input = await seen(page, words);
  if (!input) {
    // On a phone nothing is open yet: the numbers of a plan are in Parts, each behind its line.
    await turnTo(page, "Parts");
    input = await seen(page, words);
    for (let line = 0; !input; line += 1) {
      if (!(await page.$(".lines"))) await press(page, "All parts", ".parts");
      const lines = await page.$$(".lines button");
      if (line >= lines.length) throw new Error(`no field "${words}"`);
      await hit(page, lines[line]);
      input = await seen(page, words);
    }
  }
  await input.evaluate((element) => element.scrollIntoView({ block: "center" }));
  await input.focus();
  await input.evaluate((element) => element.select());
  await input.type(text);
  await page.keyboard.press("Enter");
  await page.evaluate(() => document.activeElement?.blur());
  await settled(page);
}

/** Finds the ways that lower by so much, to the search's end. */
export async function searched(page, lower) {
  await turnTo(page, "Find a drop");
  await type(page, "Lower by", lower);
  await press(page, "Search");
  await page.waitForFunction(() => !document.querySelector(".panel > .primary").textContent.includes("Stop"));
}

/** The text behind the address's #, once it has been written. */
export async function code(page) {
  await new Promise((done) => setTimeout(done, 600));
  return new URL(page.url()).hash.slice(1);
}

/** What the page says at its top. */
export function said(page) {
  return page.$eval(".notices", (notices) => notices.textContent);
}

/** What axe finds on the page as it is. */
export async function axe(page) {
  await page.evaluate(readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
  return page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    // From the top of everything: what is half under an edge is too small a target to axe, wherever a list was left.
    const scrolled = [...document.querySelectorAll("*")].filter((one) => one.scrollTop > 0).map((one) => [one, one.scrollTop]);
    for (const [one] of scrolled) one.scrollTo(0, 0);
    const result = await window.axe.run({ runOnly: tags });
    for (const [one, top] of scrolled) one.scrollTo(0, top);
    return result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
  });
}
