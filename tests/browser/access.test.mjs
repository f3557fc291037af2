// Open to everyone: what WCAG 2.2 AA asks for and axe cannot see. Axe itself runs in page.test.mjs.
//
// Success criteria by their numbers: 1.4.4 text at 200 %, 1.4.10 a width of 320 px, 1.4.11 contrast of what is no
// text, 2.1.1 keyboard, 2.4.3 order of focus, 2.4.7 focus seen, 2.5.7 no need to drag, 2.5.8 size of targets.

import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { DESK, PHONE, URL_, code, hit, onPagesOf, openCard, press, readout, ready, runningBrowser, said, settled, spot, turnTo } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);
const HEIGHT = "Frame height";

/** A page with settings of the reader's: size of type in px, and media features that are no viewport's. */
async function openAs(viewport, { type, features = {} }, body) {
  const context = await running.browser.createBrowserContext();
  try {
    const page = await context.newPage();
    await page.setViewport(viewport);
    const session = await page.createCDPSession();
    if (type) await session.send("Page.setFontSizes", { fontSizes: { standard: type } });
    const list = Object.entries(features).map(([name, value]) => ({ name, value }));
    await session.send("Emulation.setEmulatedMedia", { features: list });
    await page.goto(URL_, { waitUntil: "load" });
    await ready(page);
    await body(page);
  } finally {
    await context.close();
  }
}

const panelsOf = (page) => page.$$eval("nav[aria-label=Panels] button:not(.more)", (buttons) => buttons.map((button) => button.textContent));

/** What of the page can be neither seen nor reached by scrolling it up and down. */
function lost() {
  const found = [];
  const wide = document.scrollingElement.scrollWidth;
  const room = document.documentElement.clientWidth;
  if (wide > room) found.push(`the page is ${wide} px wide in ${room}`);
  const spoken = (element) => getComputedStyle(element).clipPath === "inset(50%)";
  const seen = (element) => element.checkVisibility({ checkVisibilityCSS: true }) && !spoken(element) && !element.closest(".unseen, [aria-hidden=true], .sheet");
  const named = (element) => `${element.tagName.toLowerCase()}.${element.className.baseVal ?? element.className} "${(element.getAttribute("aria-label") ?? element.textContent).trim().slice(0, 40)}"`;
  // A table may be scrolled sideways (1.4.10 excepts it), by keys too.
  const sideways = (element) => element.closest(".scroll[tabindex]");
  for (const element of document.querySelectorAll("body *")) {
    if (!seen(element) || sideways(element)) continue;
    const svg = element.closest("svg");
    // What is drawn goes on beyond its frame; its labels do not.
    if (svg && element.tagName !== "text") continue;
    const box = element.getBoundingClientRect();
    if (box.width === 0) continue;
    const own = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent.trim());
    const control = element.matches("button, input:not([type=file]), select, textarea, a, summary");
    if (!own && !control) continue;
    const frame = svg?.getBoundingClientRect() ?? { left: 0, right: room };
    if (box.left < frame.left - 1 || box.right > frame.right + 1) found.push(`${named(element)} from ${Math.round(box.left)} to ${Math.round(box.right)}`);
    if (svg) continue;
    // A number is read at one glance; a name of any length goes on in its field.
    if (element.matches(".entry input") && element.scrollWidth > element.clientWidth + 1) found.push(`${named(element)} cuts "${element.value}"`);
    // Words wider than what holds them: cut, or over what is beside.
    const range = document.createRange();
    range.selectNodeContents(element);
    const words = range.getBoundingClientRect();
    if (!control || element.matches("button, a, summary")) {
      if (words.width > box.width + 1 && getComputedStyle(element).display !== "inline") found.push(`${named(element)} holds ${Math.round(words.width)} px in ${Math.round(box.width)}`);
    }
    if (element.scrollHeight > element.clientHeight + 3 && /hidden|clip/.test(getComputedStyle(element).overflowY)) found.push(`${named(element)} is cut below`);
  }
  return found;
}

describe("nothing is lost", () => {
  const readers = {
    "at 320 px": [{ width: 320, height: 640 }, {}],
    "at 1280 by 1024, four times as large": [{ width: 320, height: 256, deviceScaleFactor: 4 }, {}],
    "at 1280 by 800, twice as large": [{ width: 640, height: 400, deviceScaleFactor: 2 }, {}],
    "with type of 200 % on a desk": [DESK, { type: 32 }],
    "with type of 200 % on a phone": [PHONE, { type: 32 }],
  };
  for (const [name, [viewport, settings]] of Object.entries(readers)) {
    test(name, () => openAs(viewport, settings, async (page) => {
      if (settings.type) assert.equal(await page.$eval("body", (body) => getComputedStyle(body).fontSize), `${settings.type}px`);
      const panels = await panelsOf(page);
      assert.ok(panels.length >= 10);
      for (const panel of panels) {
        await turnTo(page, panel);
        await page.$$eval(".panel details", (all) => all.forEach((one) => { one.open = true; }));
        await settled(page);
        assert.deepEqual(await page.evaluate(lost), [], panel);
      }
      // What stays in place while the page scrolls leaves half of the window to what is read.
      const covered = await page.evaluate(() => {
        document.scrollingElement.scrollTop = 1e6;
        const still = [...document.querySelectorAll("body *")].filter((one) => /sticky|fixed/.test(getComputedStyle(one).position) && one.checkVisibility());
        return Math.max(0, ...still.map((one) => one.getBoundingClientRect()).filter((box) => box.bottom > 0 && box.top < innerHeight && box.width > 0.5 * innerWidth).map((box) => box.height / innerHeight));
      });
      assert.ok(covered <= 0.5, `${Math.round(covered * 100)} % of the window is covered`);
    }));
  }

  test("a search for what is lost finds what is lost", () => openAs({ width: 320, height: 640 }, {}, async (page) => {
    await openCard(page, "Dropped spindle");
    await page.evaluate(() => {
      document.querySelector(".top h1 button").style.cssText = "white-space: nowrap; width: 20px; min-width: 0";
      document.querySelector(".tools").style.cssText = "position: absolute; left: 300px; width: max-content";
      document.querySelector(".entry input").style.cssText = "flex: none; width: 30px";
    });
    const found = await page.evaluate(lost);
    for (const kind of [/^the page is/, /^button.* holds /, /^button.* from /, /^input.* cuts /]) assert.ok(found.some((one) => kind.test(one)), `${kind} in\n${found.join("\n")}`);
  }));
});

describe("the reader's settings", () => {
  for (const motion of ["reduce", "no-preference"]) {
    test(`motion: ${motion}`, () => openAs(DESK, { features: { "prefers-reduced-motion": motion } }, async (page) => {
      // The browser of these tests asks for less motion by itself, unless it is told otherwise.
      assert.equal(await page.evaluate(() => matchMedia("(prefers-reduced-motion: reduce)").matches), motion === "reduce");
      const moving = await page.evaluate(() => [...document.querySelectorAll("*")].filter((one) => {
        const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(one);
        return parseFloat(transitionDuration) > 0 || animationName !== "none" || scrollBehavior === "smooth";
      }).length);
      assert.equal(moving === 0, motion === "reduce", `${moving} elements move by themselves`);
    }));
  }

  for (const scheme of ["light", "dark"]) {
    test(`forced colours, ${scheme}: lines, handles and focus are seen`, () => openAs(DESK, { features: { "forced-colors": "active", "prefers-color-scheme": scheme } }, async (page) => {
      assert.ok(await page.evaluate(() => matchMedia("(forced-colors: active)").matches));
      const sketch = await page.$('[data-aspect="Front"]');
      const shown = await ink(page, sketch);
      assert.ok(shown.share > 0.02, `${(100 * shown.share).toFixed(1)} % of the sketch stands out`);
      assert.ok(shown.share < 0.5, "it is a drawing and not a field");
      // A chosen point and a point in focus, each against the sketch without it.
      await page.evaluate(() => document.activeElement.blur());
      const plain = await picture(page, sketch);
      await page.$eval('[data-aspect="Front"] [data-handle="upper-ball"]', (handle) => handle.focus());
      await page.keyboard.press("Shift");
      await settled(page);
      const focused = await picture(page, sketch);
      const changed = await page.evaluate(compare, plain, focused);
      assert.ok(changed.strong > 150, `${changed.strong} pixels show the focus`);
      // The chosen one of a choice, by more than a colour that is no longer there.
      const pressed = await page.$$eval('.which button, nav[aria-label=Panels] button:not(.more)', (all) => all.map((one) => [one.matches('[aria-pressed="true"], [aria-current]'), getComputedStyle(one).borderTopWidth]));
      const widths = (is) => new Set(pressed.filter(([on]) => on === is).map(([, width]) => width));
      for (const width of widths(true)) assert.ok(!widths(false).has(width), `a border of ${width} marks both`);
      // Sliders, fields and buttons keep an edge.
      const edges = await page.$$eval(".tools button, .entry input", (all) => all.map((one) => parseFloat(getComputedStyle(one).borderTopWidth)));
      assert.ok(edges.length > 4 && edges.every((width) => width >= 1));
    }));
  }
});

const picture = (page, element) => element.screenshot({ encoding: "base64" }).then((text) => `data:image/png;base64,${text}`);

/** The share of a picture that stands out from its ground by 3 : 1 (1.4.11). */
async function ink(page, element) {
  return page.evaluate(async (address) => {
    const image = Object.assign(new Image(), { src: address });
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
    canvas.drawImage(image, 0, 0);
    const { data } = canvas.getImageData(0, 0, image.width, image.height);
    const linear = (value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
    const light = (at) => 0.2126 * linear(data[at] / 255) + 0.7152 * linear(data[at + 1] / 255) + 0.0722 * linear(data[at + 2] / 255);
    const count = new Map();
    for (let at = 0; at < data.length; at += 4) {
      const value = light(at).toFixed(3);
      count.set(value, (count.get(value) ?? 0) + 1);
    }
    const ground = Number([...count].sort(([, a], [, b]) => b - a)[0][0]);
    let strong = 0;
    for (const [value, times] of count) {
      const [dark, bright] = [Number(value), ground].sort((a, b) => a - b);
      if ((bright + 0.05) / (dark + 0.05) >= 3) strong += times;
    }
    return { share: strong / (data.length / 4), ground };
  }, await picture(page, element));
}

/** How many pixels of two pictures differ by 3 : 1. Runs in the page. */
async function compare(...addresses) {
  const linear = (value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
  const [a, b] = await Promise.all(addresses.map(async (address) => {
    const image = Object.assign(new Image(), { src: address });
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
    canvas.drawImage(image, 0, 0);
    const { data } = canvas.getImageData(0, 0, image.width, image.height);
    return Float64Array.from({ length: data.length / 4 }, (_, at) => 0.2126 * linear(data[4 * at] / 255) + 0.7152 * linear(data[4 * at + 1] / 255) + 0.0722 * linear(data[4 * at + 2] / 255));
  }));
  let strong = 0;
  for (let at = 0; at < a.length; at += 1) {
    if ((Math.max(a[at], b[at]) + 0.05) / (Math.min(a[at], b[at]) + 0.05) >= 3) strong += 1;
  }
  return { strong };
}

describe("the sketch without eyes", () => {
  /** What is said of the pictures that are there. */
  const spoken = (page) => page.$$eval(".sketch:not([hidden]) [aria-live]", (all) => all.map((one) => one.textContent).join(" "));

  on({ viewport: PHONE }, "is told in words, which follow every change and the side that is looked at from", async (page) => {
    const first = await spoken(page);
    for (const words of [/Spindle pin raised 2 inches/, /Frame height 9 and 13 sixteenths inches/, /Camber/, /Bump travel/]) assert.match(first, words);
    await page.$eval('[data-handle="wheel-centre"]', (handle) => handle.focus());
    await page.keyboard.press("ArrowUp");
    await settled(page);
    const moved = await spoken(page);
    assert.match(moved, /Frame height 9 and 3 quarters inches/);
    await page.focus("#travel");
    await page.keyboard.press("ArrowRight");
    await settled(page);
    assert.notEqual(await spoken(page), moved, "travel");
    await press(page, "Ride height");
    await press(page, "As it sits", ".which");
    assert.match(await spoken(page), /Frame height 11 and 13 sixteenths inches/);
    // Its code comes when it is first asked for.
    const drawn = () => page.waitForFunction(() => [...document.querySelectorAll(".sketch:not([hidden])")].every((pad) => !/once the rest of the/.test(pad.textContent)));
    await press(page, "Side", '[data-aspect="Front"]');
    await drawn();
    const side = await spoken(page);
    assert.match(side, /Caster/);
    await press(page, "Top", '[data-aspect="Side"]');
    await drawn();
    assert.notEqual(await spoken(page), side);
  });

  on({ viewport: DESK }, "names each picture, and each of them is described by its words", async (page) => {
    const told = await page.$$eval(".sketch", (all) => all.map((sketch) => {
      const svg = sketch.querySelector("svg");
      const words = document.getElementById(svg.getAttribute("aria-describedby"));
      return [svg.getAttribute("aria-label"), sketch.contains(words) ? words.textContent : ""];
    }));
    assert.equal(new Set(told.map(([name]) => name)).size, 3);
    for (const [name, words] of told) assert.ok(name && words.length > 40, `${name}: ${words}`);
  });
});

describe("without dragging", () => {
  /** Every number on the open form. */
  const numbers = (page) => page.$$eval(".panel .number input", (inputs) => inputs.map((input) => input.value));

  for (const aspect of ["Front", "Side", "Top"]) {
    on({ viewport: DESK }, `every point of the truck is moved by keys and by typing: ${aspect}`, async (page) => {
      await press(page, "As it sits", ".which");
      if (aspect !== "Front") await press(page, aspect, `[data-aspect="${aspect}"]`);
      await turnTo(page, "My truck");
      const open = () => page.$$eval(".panel details", (all) => all.forEach((one) => { one.open = true; }));
      // What folds within what folds is built once that is open.
      for (let depth = 0; depth < 2; depth += 1) {
        await open();
        await settled(page);
      }
      const keys = await page.$$eval(`[data-aspect="${aspect}"] [data-handle]:not(.gone)`, (all) => all.map((one) => one.dataset.handle));
      assert.ok(keys.length >= 4, keys.join());
      for (const key of keys) {
        const before = await numbers(page);
        await page.$eval(`[data-aspect="${aspect}"] [data-handle="${key}"]`, (handle) => handle.focus());
        for (const arrow of ["ArrowUp", "ArrowRight"]) await page.keyboard.press(arrow);
        await settled(page);
        await open();
        const after = await numbers(page);
        assert.equal(after.length, before.length);
        const moved = after.flatMap((value, at) => (value === before[at] ? [] : [at]));
        assert.ok(moved.length > 0, `${key}: keys move it, and its numbers are on the form`);
        // What the keys did, typing undoes: shown once, since the fields are the same from every side.
        if (aspect !== "Front") continue;
        for (const at of moved) {
          const input = (await page.$$(".panel .number input"))[at];
          await input.evaluate((element) => { element.focus(); element.select(); });
          await input.type(before[at]);
          await page.keyboard.press("Enter");
          await settled(page);
        }
        await open();
        assert.deepEqual(await numbers(page), before, key);
      }
    });
  }

  on({ viewport: DESK }, "every point of a proposal moves by keys, or says what it follows", async (page) => {
    const told = async (handle) => [await page.$eval(handle, (one) => one.outerHTML), await said(page)].join();
    for (const aspect of ["Front", "Side", "Top"]) {
      if (aspect !== "Front") await press(page, aspect, `[data-aspect="${aspect}"]`);
      const keys = await page.$$eval(`[data-aspect="${aspect}"] [data-handle]:not(.gone)`, (all) => all.map((one) => one.dataset.handle));
      for (const key of keys) {
        const handle = `[data-aspect="${aspect}"] [data-handle="${key}"]`;
        let answered = false;
        for (const arrow of ["ArrowUp", "ArrowRight"]) {
          const before = await told(handle);
          await page.$eval(handle, (one) => one.focus());
          await page.keyboard.press(arrow);
          await settled(page);
          answered ||= before !== (await told(handle));
        }
        assert.ok(answered, `${aspect}: ${key}`);
        const close = await page.$('.notices button[aria-label="Close"]');
        if (close) await hit(page, close);
      }
    }
  });
});

describe("a field", () => {
  on({ viewport: DESK }, "is named by its words, and they lead into it", async (page) => {
    const drop = await page.$(".panel .number");
    const [name, value] = await drop.evaluate((label) => [label.querySelector(".name").textContent, label.querySelector("input").value]);
    await (await drop.$(".name")).click();
    await settled(page);
    assert.deepEqual(await drop.evaluate((label) => [label.querySelector("input") === document.activeElement, label.querySelector("input").value]), [true, value]);
    const { name: spoken } = await page.accessibility.snapshot({ root: await drop.$("input") });
    assert.equal(spoken, name.trim());
  });
});

describe("targets", () => {
  for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
    on({ viewport }, `controls are 44 px or more: ${name}`, async (page) => {
      for (const panel of await panelsOf(page)) {
        await turnTo(page, panel);
        await page.$$eval(".panel details", (all) => all.forEach((one) => { one.open = true; }));
        await settled(page);
        const small = await page.evaluate(() => {
          const targets = [...document.querySelectorAll("button, select, textarea, summary, input:not([type=file])")];
          return targets.filter((one) => one.checkVisibility({ checkVisibilityCSS: true }) && !one.closest(".sheet")).flatMap((one) => {
            // A box to tick is as large as its label.
            const box = (one.matches("[type=checkbox], [type=radio]") ? one.closest("label") : one).getBoundingClientRect();
            const words = one.getAttribute("aria-label") ?? one.textContent;
            return box.width < 43.5 || box.height < 43.5 ? [`${one.tagName} "${words.slice(0, 30)}" ${box.width.toFixed(1)} by ${box.height.toFixed(1)}`] : [];
          });
        });
        assert.deepEqual(small, [], panel);
      }
    });
  }

  on({ viewport: PHONE }, "a point is taken from 20 px away, and of several the nearest", async (page) => {
    assert.ok(await page.$$eval("[data-handle] .hit", (all) => all.every((one) => 2 * one.r.baseVal.value >= 24)));
    const keys = await page.$$eval('[data-aspect="Front"] [data-handle]:not(.gone)', (all) => all.map((one) => one.dataset.handle));
    const places = new Map();
    for (const key of keys) places.set(key, await spot(page, key));
    let alone = 0;
    for (const [key, at] of places) {
      // Straight away from all the others, where there is such a way within the sketch.
      for (let turn = 0; turn < 8; turn += 1) {
        const tap = { x: at.x + 20 * Math.cos((turn * Math.PI) / 4), y: at.y + 20 * Math.sin((turn * Math.PI) / 4) };
        const far = (other) => Math.hypot(places.get(other).x - tap.x, places.get(other).y - tap.y);
        if (keys.some((other) => other !== key && far(other) < 25)) continue;
        const covered = await page.evaluate(({ x, y }) => !document.elementFromPoint(x, y)?.closest(".pad"), tap);
        if (covered) continue;
        await page.touchscreen.tap(tap.x, tap.y);
        await settled(page);
        assert.equal(await page.$eval(".handle.chosen", (chosen) => chosen.dataset.handle), key);
        alone += 1;
        break;
      }
    }
    assert.ok(alone >= 3, `${alone} points stand alone`);
  });
});

describe("the focus", () => {
  on({ viewport: DESK }, "goes through the page in its order, is seen everywhere, and reaches every point", async (page) => {
    const stops = [];
    await page.evaluate(() => document.activeElement?.blur());
    for (let times = 0; times < 140; times += 1) {
      await page.keyboard.press("Tab");
      const stop = await page.evaluate(() => {
        const one = document.activeElement;
        if (one === document.body || !one) return null;
        const style = getComputedStyle(one);
        const hit = one.querySelector(":scope > .hit");
        const label = one.closest(".button");
        const edge = hit ? parseFloat(getComputedStyle(hit).strokeWidth) * Number(getComputedStyle(hit).stroke !== "none") : Math.max(parseFloat(style.outlineWidth) * Number(style.outlineStyle !== "none"), label ? parseFloat(getComputedStyle(label).outlineWidth) : 0);
        const box = one.getBoundingClientRect();
        const place = ["top", "sketches", "sliders", "below", "side"].findIndex((name) => one.closest(`.${name}`));
        // Its middle is not behind what stays in place.
        const over = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
        const hidden = !one.closest("svg") && over && !one.contains(over) && !over.contains(one) && !over.closest("label");
        const named = one.getAttribute("aria-label") ?? one.labels?.[0]?.textContent ?? one.textContent;
        return { edge, place, hidden, named, handle: one.dataset.handle ? `${one.closest(".sketch").dataset.aspect} ${one.dataset.handle}` : null };
      });
      if (!stop) break;
      stops.push(stop);
    }
    assert.ok(stops.length > 40, `${stops.length} stops`);
    for (const stop of stops) {
      assert.ok(stop.edge >= 2, `the focus is not seen on ${stop.named}`);
      assert.ok(!stop.hidden, `${stop.named} is covered`);
      assert.ok(stop.named, "a stop has no name");
    }
    const places = stops.map((stop) => stop.place).filter((place) => place >= 0);
    assert.deepEqual(places, [...places].sort((a, b) => a - b), "top, sketch, sliders, panel");
    const all = await page.$$eval(".sketch:not([hidden]) [data-handle]:not(.gone)", (found) => found.filter((one) => !one.closest(".small")).map((one) => `${one.closest(".sketch").dataset.aspect} ${one.dataset.handle}`));
    assert.deepEqual(stops.flatMap((stop) => stop.handle ?? []).sort(), all.sort());
  });

  on({ viewport: DESK }, "is where it was after a panel is opened and a part added by keys", async (page) => {
    await page.$$eval("nav[aria-label=Panels] button:not(.more)", (all) => all.find((one) => one.textContent === "Curves").focus());
    await page.keyboard.press("Enter");
    await settled(page);
    assert.equal(await page.evaluate(() => document.activeElement.textContent), "Curves");
    const before = await code(page);
    await page.$eval('[data-aspect="Front"] [data-handle="wheel-centre"]', (handle) => handle.focus());
    await page.keyboard.press("ArrowUp");
    assert.notEqual(await code(page), before);
    assert.equal(await page.evaluate(() => document.activeElement.dataset.handle), "wheel-centre");
    assert.equal(await readout(page, HEIGHT), "9 3/4 in");
  });
});
