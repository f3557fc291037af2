// The release page, as a person uses it.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { describe, test } from "node:test";
import { BIN, DESK, LYING, PHONE, URL_, add, axe, code, drag, field, frontAlone, hit, note, number, onPagesOf, open, openCard, press, readout, ready, remove, runningBrowser, said, searched, settled, spot, spread, swipe, turnTo, type, unfold } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

const HEIGHT = "Frame height";
const HITS = "Hits first";

/** The drop that the form shows, inches. */
const dropped = async (page) => {
  await openCard(page, "Dropped spindle");
  return number(await (await field(page, "Drop, pin higher")).evaluate((input) => input.value));
};

/** What the command says of the proposal in the page's link, by its keys; lengths in inches. */
async function reported(page) {
  const printed = execFileSync(BIN, ["report", await code(page), "--format", "json", "--units", "in", "--decimals", "6"], { encoding: "utf8" });
  return JSON.parse(printed).trucks[1];
}
const PANELS = ["Parts", "Compare", "Curves", "What hits", "Find a drop", "Alignment", "The rear", "Bolts up", "My truck", "Lessons", "My trucks", "Send", "Safety"];

describe("the sketch", () => {
  on({ viewport: DESK }, "opens on a truck that can be dragged", async (page) => {
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    assert.match(await note(page, HEIGHT), /^2 in lower$/);
    assert.match(await note(page, "Hits first"), /^before the stop$/, "the mark is on what comes too early");
    assert.equal(await page.$("#boot"), null, "the picture of the start is gone");
  });

  for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) on({ viewport }, `takes a note away by itself, but not while it is pointed at, on a ${name}`, async (page) => {
    const timer = (ask) => page.$eval(".notice", (one, asked) => one.getAnimations().map((all) => all[asked] ?? all.effect.getTiming()[asked])[0], ask);
    await page.evaluate(() => dispatchEvent(new CustomEvent("scrubline-say", { detail: "Something was done." })));
    await page.waitForSelector(".notice");
    assert.deepEqual([await timer("duration"), await timer("playState")], [12000, "running"]);
    const becomes = (state) => page.waitForFunction((state) => document.querySelector(".notice").getAnimations()[0].playState === state, {}, state);
    await page.hover(".notice");
    await becomes("paused");
    await page.mouse.move(1, 1);
    await becomes("running");
    // Nor while it holds the cursor.
    await page.focus(".notice button");
    await becomes("paused");
    await page.evaluate(() => document.activeElement.blur());
    await page.$eval(".notice", (one) => one.getAnimations()[0].finish());
    await page.waitForFunction(() => document.querySelector(".notices").textContent === "");
  });

  on({ viewport: DESK }, "gives the start value exactly when a drag comes back to its pixel", async (page) => {
    const before = await code(page);
    await drag(page, "wheel-centre", [[0, -37], [3, 22], [0, 0]]);
    assert.equal(await code(page), before);
    await press(page, "As it sits", ".which");
    const measured = await code(page);
    for (const key of ["lower-axis", "upper-ball", "tie-outer", "fender"]) {
      await drag(page, key, [[31, -17], [-9, 40], [0, 0]]);
      assert.equal(await code(page), measured, key);
    }
  });

  on({ viewport: PHONE }, "follows a thumb on the spindle", async (page) => {
    const scrolled = await page.evaluate(() => window.scrollY);
    await swipe(page, await spot(page, "wheel-centre"), [0, 24]);
    const drop = await dropped(page);
    assert.ok(drop < 1.9, `a pin that is pulled down is raised by less: ${drop} in`);
    assert.ok(Number.isInteger(16 * drop), `it snaps to sixteenths: ${drop}`);
    assert.equal(number(await readout(page, HEIGHT)), 11 + 13 / 16 - drop);
    // A link keeps hundredths of a millimetre.
    assert.ok(Math.abs((await reported(page)).drop_in - drop) < 0.0005, "and so says the link");
    assert.equal(await page.evaluate(() => window.scrollY), scrolled, "the page does not scroll under a drag");
  });

  on({ viewport: PHONE }, "shows camber change when a thumb moves the upper pivots", async (page) => {
    await press(page, "As it sits", ".which");
    await press(page, "2 in spindle", ".which");
    assert.equal(number(await readout(page, "Camber")), 0);
    await swipe(page, await spot(page, "upper-axis"), [18, 0]);
    const camber = await readout(page, "Camber");
    assert.ok(number(camber) > 0.1, `pivots that are moved out push the wheel's top out: ${camber}`);
    assert.equal(number(camber).toFixed(2), (await reported(page)).camber_deg.toFixed(2));
  });

  on({ viewport: LYING }, "scrolls when a finger moves on empty paper", async (page) => {
    const box = await page.$eval(".sketch", (sketch) => sketch.getBoundingClientRect().toJSON());
    await swipe(page, { x: box.x + 12, y: box.y + box.height - 12 }, [0, -200]);
    assert.ok((await page.evaluate(() => window.scrollY)) > 20);
  });

  on({ viewport: PHONE }, "stays where it is on a phone, whatever finger moves on it", async (page) => {
    const box = () => page.$eval(".sketch", (sketch) => sketch.getBoundingClientRect().toJSON());
    const before = await box();
    await swipe(page, { x: before.x + 12, y: before.y + before.height - 12 }, [0, -200]);
    await swipe(page, await spot(page, "wheel-centre"), [0, -12]);
    assert.deepEqual(await box(), before, "an edit moves nothing");
    assert.deepEqual(await page.evaluate(() => [scrollX, scrollY, document.documentElement.scrollHeight - innerHeight]), [0, 0, 0]);
  });

  on({ viewport: LYING }, "leaves a page that scrolls to scroll when a second finger comes", async (page) => {
    const box = await page.$eval(".sketch", (sketch) => sketch.getBoundingClientRect().toJSON());
    const session = await page.createCDPSession();
    const touch = (type, ...points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
    await page.evaluate(() => {
      window.fixed = 0;
      document.addEventListener("touchmove", (event) => { window.fixed += !event.cancelable && event.touches.length > 1; }, { capture: true, passive: true });
    });
    const [x, y] = [box.x + 12, box.y + box.height - 12];
    await touch("touchStart", [x, y]);
    for (let step = 1; step <= 10; step += 1) {
      await touch("touchMove", [x, y - 6 * step]);
      await settled(page);
    }
    await touch("touchStart", [x, y - 60], [x + 60, y - 60]);
    for (let step = 1; step <= 10; step += 1) {
      await touch("touchMove", [x, y - 60 - 3 * step], [x + 60, y - 60 - 3 * step]);
      await settled(page);
    }
    await touch("touchEnd");
    // What the browser says of a vain attempt is among the faults that are asked for at the end.
    assert.ok((await page.evaluate(() => window.fixed)) > 0, "the browser had taken the fingers for itself");
    await session.detach();
  });

  on({ viewport: DESK }, "goes down to the droop stop though the tire meets the fender at rest", async (page) => {
    const droop = () => page.$eval("#travel", (slider) => Number(slider.min));
    await press(page, "As it sits", ".which");
    const stop = await droop();
    assert.ok(stop < -40, `${stop} mm`);
    await drag(page, "fender", [[0, 90]]);
    assert.equal(await readout(page, HITS), "Fender");
    assert.equal(await droop(), stop);
  });

  on({ viewport: DESK }, "moves a point by keys: a sixteenth, and a sixty-fourth with Shift", async (page) => {
    await page.$eval('[data-handle="wheel-centre"]', (handle) => handle.focus());
    await page.keyboard.press("ArrowUp");
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "9 3/4 in");
    await page.keyboard.press("PageDown");
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "10 1/4 in");
    for (let times = 0; times < 4; times += 1) {
      await page.keyboard.down("Shift");
      await page.keyboard.press("ArrowDown");
      await page.keyboard.up("Shift");
    }
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "10 5/16 in");
  });

  on({ viewport: PHONE }, "takes a handle again after the browser has taken the finger away", async (page) => {
    const before = await code(page);
    const from = await spot(page, "wheel-centre");
    const session = await page.createCDPSession();
    const touch = (type, ...points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
    await touch("touchStart", [from.x, from.y]);
    for (let step = 1; step <= 10; step += 1) {
      await touch("touchMove", [from.x, from.y + 3 * step]);
      await settled(page);
    }
    assert.notEqual(await readout(page, HEIGHT), "9 13/16 in", "it is dragged");
    // As where a call comes in: no end of the touch follows.
    await touch("touchCancel");
    await settled(page);
    await session.detach();
    assert.equal(await code(page), before, "what it had come to is taken back");
    await swipe(page, await spot(page, "wheel-centre"), [0, 24]);
    assert.ok((await dropped(page)) < 1.9, "the next finger drags");
  });

  on({ viewport: DESK }, "drops a drag on Escape", async (page) => {
    const from = await spot(page, "wheel-centre");
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 60, { steps: 5 });
    await settled(page);
    assert.ok(number(await readout(page, HEIGHT)) < 9.5, "a pin that is pushed up lets the frame down");
    await page.keyboard.press("Escape");
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    await page.mouse.up();
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  });

  for (const viewport of [DESK, PHONE]) on({ viewport }, `keeps the last picture where a drag goes past the possible, ${viewport.width} px wide`, async (page) => {
    const from = await spot(page, "upper-axis");
    const to = async (dx) => {
      await page.mouse.move(from.x + dx, from.y, { steps: 4 });
      await settled(page);
    };
    const look = async () => [await readout(page, "Camber"), await page.$$eval("#sketch-Front path", (all) => all.map((one) => one.getAttribute("d")).join())];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    for (let dx = -10; dx >= -130 && !(await said(page)); dx -= 10) await to(dx);
    assert.match(await said(page), /do not reach each other: .*It stays where the truck still stands/);
    const last = await look();
    assert.match(last[0], /°/, "there is a number");
    for (const dx of [-135, -140]) {
      await to(dx);
      assert.deepEqual(await look(), last);
    }
    await to(-10);
    const back = await readout(page, "Camber");
    assert.notEqual(back, last[0], "it comes along again");
    await to(-140);
    await page.mouse.up();
    await settled(page);
    const [kept] = await look();
    assert.match(kept, /°/, "what is let go there has been possible");
    assert.notEqual(kept, "0.00°");
    await press(page, "Undo", ".tools");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    // By keys as well.
    await page.$eval('[data-handle="upper-axis"]', (handle) => handle.focus());
    await page.$eval(".notice [aria-label=Close]", (close) => close.click()).catch(() => {});
    for (let step = 0; step < 40 && !(await said(page)); step += 1) {
      for (let times = 0; times < 8; times += 1) await page.keyboard.press("ArrowLeft");
      await settled(page);
    }
    assert.match(await said(page), /It stays where the truck still stands/);
    assert.match(await readout(page, "Camber"), /°/);
  });

  test("draws an impossible linkage as far as it goes, and is dragged back from it", async () => {
    const command = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input }).trim();
    const file = JSON.parse(command(["open", command(["link"]), "--format", "json"]));
    file.proposals[0].changes.push({ change: "moved_pivot", place: "upper_arm", forward: 0, out: -200, up: 0 });
    file.opening.proposal = file.proposals[0].id;
    const { context, page } = await open(running.browser, { viewport: DESK, at: `#${command(["link", "-"], JSON.stringify(file))}` });
    try {
      assert.match(await said(page), /do not reach each other: .*Drag it back, or undo/);
      assert.ok(await page.$eval("#sketch-Front", (scene) => scene.querySelectorAll("path").length > 3), "something is drawn");
      const tiles = () => page.$$eval(".readout", (all) => all.map((one) => [one.querySelector("dt").textContent, one.querySelector("b").textContent]));
      assert.ok((await tiles()).every(([name, value]) => name && value === "—"), "each tile keeps its name, and says that it has no number");
      await drag(page, "upper-axis", [[60, 0], [150, 0]]);
      assert.ok((await tiles()).every(([, value]) => value !== "—"), JSON.stringify(await tiles()));
    } finally {
      await context.close();
    }
  });

  on({ viewport: DESK }, "moves the whole linkage with the travel slider", async (page) => {
    const keys = ["lower-ball", "upper-ball", "wheel-centre"];
    const places = () => Promise.all([...keys, "lower-axis"].map((key) => spot(page, key)));
    const before = await places();
    await page.focus("#travel");
    for (let times = 0; times < 12; times += 1) await page.keyboard.press("ArrowRight");
    await settled(page);
    assert.equal(await page.$eval("output", (output) => output.textContent), "1/2 in");
    const after = await places();
    // Against the pivots, each as far from them as it was.
    const over = (all, at) => all[3].y - all[at].y;
    keys.forEach((key, at) => assert.ok(over(after, at) - over(before, at) > 2, `${key} goes up`));
    const reach = (all) => Math.hypot(all[0].x - all[3].x, all[0].y - all[3].y);
    assert.ok(Math.abs(reach(after) - reach(before)) < 1, "an arm keeps its length");
    await press(page, "Ride height");
    assert.deepEqual(await places(), before);
  });
});

/** Where the shapes of a picture are, how many of its parts are moved as they are, and what is spoken. Runs in the page. */
function drawnOn(aspect) {
  const picture = document.querySelector(`#sketch-${aspect}`);
  const by = (part) => (part.getAttribute("transform")?.match(/-?[\d.]+/g) ?? ["0", "0"]).map(Number);
  const shapes = [...picture.querySelectorAll("path")].map((path) => {
    const [x, y] = by(path.parentNode);
    const outline = path.getAttribute("d");
    // Of a circle only where its arcs begin.
    const numbers = outline.match(/-?[\d.]+/g).map(Number);
    const shift = (number, at) => (outline.includes("a") && at > 1 ? number : number + (at % 2 ? y : x));
    return [path.getAttribute("class"), numbers.map(shift)];
  });
  const carried = [...picture.querySelectorAll("g")].filter((part) => part.querySelector(":scope > path") && part.getAttribute("transform")).length;
  const spoken = [...picture.querySelectorAll("[aria-label]")].map((label) => label.getAttribute("aria-label"));
  return { shapes, carried, spoken };
}

describe("the sketch from three sides", () => {
  on({ viewport: DESK }, "moves a single pivot from the side", async (page) => {
    const before = await code(page);
    const caster = await readout(page, "Caster, against the ground");
    await press(page, "Side", '[data-aspect="Side"]');
    await drag(page, "upper-front", [[0, 12]]);
    const turned = await readout(page, "Caster, against the ground");
    assert.notEqual(turned, caster);
    assert.equal(number(turned).toFixed(2), (await reported(page)).caster_ground_deg.toFixed(2));
    await press(page, "Undo");
    assert.equal(await readout(page, "Caster, against the ground"), caster);
    await drag(page, "upper-front", [[24, -9], [0, 0]]);
    assert.equal(await code(page), before, "out and back is the start value");
  });

  on({ viewport: DESK }, "shows a drag that rests on the other two as well", async (page) => {
    const place = (aspect) => page.$eval(`[data-aspect="${aspect}"] [data-handle="upper-ball"]`, (handle) => handle.getAttribute("transform"));
    const from = await spot(page, "upper-ball", "Front");
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 9, { steps: 3 });
    await new Promise((done) => setTimeout(done, 600));
    const held = [await place("Side"), await place("Top")];
    await page.mouse.up();
    await settled(page);
    assert.deepEqual([await place("Side"), await place("Top")], held, "letting go moves nothing more");
  });

  on({ viewport: DESK }, "draws in every frame of a drag what the same link is drawn as", async (page) => {
    const from = await spot(page, "wheel-centre", "Front");
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 14, { steps: 7 });
    const moving = await page.evaluate(drawnOn, "Front");
    assert.ok(moving.carried >= 3, "what goes as one is moved, not drawn anew");
    await new Promise((done) => setTimeout(done, 600));
    const held = await page.evaluate(drawnOn, "Front");
    assert.equal(held.carried, 0);
    await page.mouse.up();
    await settled(page);
    const other = await open(running.browser, { viewport: DESK, at: `#${await code(page)}` });
    // A dragged point is chosen, and ringed: on the other page as well.
    await other.page.$eval('[data-aspect="Front"] [data-handle="wheel-centre"]', (handle) => handle.focus());
    await settled(other.page);
    const anew = await other.page.evaluate(drawnOn, "Front");
    await other.context.close();
    assert.deepEqual(await page.evaluate(drawnOn, "Front"), anew, "at rest to the last digit");
    // A tenth of a pixel is what is printed: printed there and moved, or printed here, it differs by less than two.
    assert.deepEqual(moving.shapes.map(([ink, numbers]) => [ink, numbers.length]), held.shapes.map(([ink, numbers]) => [ink, numbers.length]));
    // But for the bubble, which says by now that the drag is slow, and what gives way to it.
    moving.shapes.forEach(([ink, numbers], at) => {
      if (/leader|accent-solid/.test(ink)) return;
      const worst = Math.max(...numbers.map((one, place) => Math.abs(one - held.shapes[at][1][place])));
      assert.ok(worst < 0.2, `${ink} is ${worst} px off`);
    });
    assert.deepEqual(held.spoken.length, moving.spoken.length);
  });

  for (const [name, viewport] of [["1280", DESK], ["1024", { width: 1024, height: 768 }]]) on({ viewport }, `draws one large, and the others small over it, which change places with it: ${name}`, async (page) => {
    const all = () => page.$$eval(".sketch", (pads) => pads.map((pad) => {
      const { x, y, right, bottom, width, height } = pad.getBoundingClientRect();
      return { name: pad.dataset.aspect, x, y, right, bottom, size: width * height, drawn: pad.querySelectorAll("path").length > 10, live: pad.querySelector("[aria-live]").getAttribute("aria-live") };
    }));
    for (const large of ["Front", "Side", "Top", "Front"]) {
      if (large !== "Front" || (await all())[0].size < 50000) await press(page, large, `[data-aspect="${large}"]`);
      const [one, ...others] = (await all()).sort((a, b) => b.size - a.size);
      assert.equal(one.name, large);
      assert.ok(one.size > 8 * others[0].size, `${one.size} and ${others[0].size} px²`);
      for (const other of others) {
        assert.ok(other.x > one.x && other.y > one.y && other.right < one.right && other.bottom < one.bottom, `${other.name} lies on ${large}`);
        assert.ok(other.drawn, other.name);
      }
      const [left, right] = others.sort((a, b) => a.x - b.x);
      assert.ok(left.right < right.x, "neither lies on the other");
      assert.deepEqual([one, ...others].map(({ live }) => live), ["polite", "off", "off"]);
      assert.ok(await page.$$eval(`[data-aspect="${large}"] [data-handle]:not(.gone)`, (handles) => handles.every((handle) => getComputedStyle(handle).display !== "none")));
    }
  });

  on({ viewport: PHONE }, "shows one of them, and goes on to the next", async (page) => {
    const seen = () => page.$$eval(".sketch", (pads) => pads.filter((pad) => !pad.hidden).map((pad) => pad.dataset.aspect));
    assert.deepEqual(await seen(), ["Front"]);
    await press(page, "Top", '[data-aspect="Front"]');
    assert.deepEqual(await seen(), ["Top"]);
    await press(page, "Side", '[data-aspect="Top"]');
    assert.deepEqual(await seen(), ["Side"]);
    // Its code comes when it is first asked for.
    await page.waitForSelector('[data-aspect="Side"] [data-handle="wheel-centre"] .dot', { visible: true });
    await swipe(page, await spot(page, "wheel-centre", "Side"), [0, 20]);
    const drop = await dropped(page);
    assert.ok(drop < 1.9, `the spindle follows a thumb from the side too: ${drop} in`);
    assert.equal(number(await readout(page, HEIGHT)), 11 + 13 / 16 - drop);
  });

  on({ viewport: DESK }, "steers, and the link keeps it", async (page) => {
    const straight = await readout(page, "Tire to frame");
    await page.focus("#steer");
    for (let times = 0; times < 20; times += 1) await page.keyboard.press("ArrowLeft");
    await settled(page);
    const output = (on) => on.$eval('output[for="steer"]', (found) => found.textContent);
    assert.equal(await output(page), "20° left");
    const steered = await readout(page, "Tire to frame");
    assert.ok(number(steered) < number(straight) - 0.5, `to the left its rear comes to the frame: ${steered}`);
    const { context, page: stranger } = await open(running.browser, { viewport: PHONE, at: `#${await code(page)}` });
    assert.equal(await output(stranger), "20° left");
    assert.equal(await readout(stranger, "Tire to frame"), steered);
    await context.close();
    await press(page, "Ride height");
    assert.equal(await readout(page, "Tire to frame"), straight);
  });
});

describe("the forms", () => {
  on({ viewport: DESK }, "take a fraction and say what they understood", async (page) => {
    await openCard(page, "Dropped spindle");
    const input = await field(page, "Drop, pin higher");
    await input.evaluate((element) => { element.focus(); element.select(); });
    await input.type("2-1/2");
    await settled(page);
    const echo = await input.evaluate((element) => element.closest("label").querySelector(".echo").textContent);
    assert.equal(echo, "= 2 1/2 in");
    await page.keyboard.press("Enter");
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "9 5/16 in");
  });

  on({ viewport: DESK }, "refuse nonsense at the field and keep the design", async (page) => {
    const before = await code(page);
    for (const text of ["abc", "1/0", "9e99", "4000 in", "", "NaN"]) {
      await type(page, "Drop, pin higher", text);
      assert.equal(await readout(page, HEIGHT), "9 13/16 in", text);
    }
    await page.keyboard.press("Escape");
    assert.equal(await code(page), before);
  });

  on({ viewport: PHONE }, "lead from the demo to a truck of one's own", async (page) => {
    await turnTo(page, "My truck");
    await press(page, "Put in my truck");
    await press(page, "4. Fore and aft, tie rod, lock");
    await type(page, "Frame height, above the ground", "10 7/16");
    // Whether it rests on a guess is found while the page is at rest; until then it may carry the mark.
    const height = async () => (await readout(page, HEIGHT)).replace(/^~ /, "");
    assert.equal(await height(), "10 7/16 in");
    const kept = await code(page);
    await page.reload();
    await ready(page);
    assert.equal(await height(), "10 7/16 in");
    assert.equal(await code(page), kept);
  });

  on({ viewport: PHONE }, "tell what was read off the truck, with what the model says beside it", async (page) => {
    await turnTo(page, "My truck");
    await press(page, "1. From outside");
    await type(page, "Frame height", "12");
    assert.equal(await readout(page, HEIGHT), "10 in");
    assert.match(await note(page, HEIGHT), /2 in lower; model says 9 13\/16 in$/);
    await type(page, "Frame height", "-3");
    assert.equal(await readout(page, HEIGHT), "10 in", "refused at its field, and kept");
    await press(page, "Remove the reading: Frame height");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    await press(page, "Undo");
    assert.equal(await readout(page, HEIGHT), "10 in");
  });

  on({ viewport: LYING }, "come to sight when they are turned to on a phone's side, where the page is one long sheet", async (page) => {
    for (const place of ["Compare", "What hits"]) {
      await page.evaluate(() => window.scrollTo(0, 0));
      await turnTo(page, place);
      const [top, high] = await page.$eval(".panels", (panels) => [panels.getBoundingClientRect().top, window.innerHeight]);
      assert.ok(top >= -1 && top < high / 4, `${place} begins at ${top} px of ${high}`);
    }
  });

  on({ viewport: LYING }, "stand beside the sketch when a phone lies on its side", async (page) => {
    const boxes = await page.$$eval(".sketch, .readout, .which button, .tools button", (seen) => seen
      .filter((one) => one.checkVisibility())
      .map((one) => ({ of: one.textContent.slice(0, 20), ...one.getBoundingClientRect().toJSON() })));
    assert.ok(boxes.length >= 1 + 3 + 2 + 4, `${boxes.length}`);
    const { width, height } = page.viewport();
    for (const box of boxes) {
      assert.ok(box.left >= 0 && box.top >= 0 && box.right <= width && box.bottom <= height, JSON.stringify(box));
    }
    const [sketch, tile] = await page.$$eval(".sketch, .readout", (seen) => seen.map((one) => one.getBoundingClientRect().toJSON()));
    assert.ok(sketch.height > height / 2 && tile.left >= sketch.right, JSON.stringify({ sketch, tile }));
  });

  on({ viewport: DESK }, "undo and redo", async (page) => {
    await type(page, "Drop, pin higher", "3");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await press(page, "Undo");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    await press(page, "Redo");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await page.keyboard.down("Control");
    await page.keyboard.press("z");
    await page.keyboard.up("Control");
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  });

  on({ viewport: DESK }, "show the bars eating the travel that the spindle keeps", async (page) => {
    await remove(page, "Dropped spindle");
    await add(page, "Bar adjuster");
    await type(page, "Turns of the bolt", "-13");
    assert.equal(await readout(page, HITS), "Bump stop");
    assert.match(await spread(page, HITS), /^bump [0-9/ ]+ in$/);
    assert.match(await note(page, HEIGHT), /lower/);
  });
});

/** Every change that can be added: what its button says, with its first number. */
const CHANGES = {
  bar: [
    "Bar adjuster", "Tire and wheel", "Knuckle swap", "Another lower arm", "Another upper arm",
    "Turn lower ball joint, to the top of its plate", "Turn lower ball joint, to the underside of its plate",
    "Turn upper ball joint, to the top of its plate", "Turn upper ball joint, to the underside of its plate",
    "Move lower arm, both pivots", "Move upper arm, both pivots", "Move lower arm, front pivot",
    "Move lower arm, rear pivot", "Move upper arm, front pivot", "Move upper arm, rear pivot", "Strut rod",
    "Bar re-index", "Bar swap", "Anchor swap", "Upper-arm shims", "Tie rod", "Bump stop", "Shock", "Brake",
  ],
  coil: ["Cut coil", "Coil swap", "Seat spacer"],
};

/** The changes that are there: their lines, or what is in the hand with its numbers. */
function cards(page) {
  return page.$$eval(".lines button, .panel article.card:not(.off)", (found) => {
    const said = (card) => [card.querySelector("h3") ?? card, ...card.querySelectorAll("input")];
    return found.flatMap(said).map((part) => part.value ?? part.textContent).join("; ");
  });
}

describe("every part change", () => {
  for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
    for (const [spring, changes] of Object.entries(CHANGES)) {
      on({ viewport }, `is added, edited, taken back, shared and removed: ${spring}, ${name}`, async (page) => {
        await turnTo(page, "Parts");
        if (spring === "coil") {
          await press(page, "As it sits", ".which");
          await hit(page, await page.$('xpath///*[contains(@class, "panel")]//label[normalize-space()="Coil"]'));
          await press(page, "2 in spindle", ".which");
        }
        const bare = await cards(page);
        for (const change of changes) {
          // A joint is turned over by its switch.
          const named = change.startsWith("Turn ") ? `"${change}" and @aria-checked="true"` : `"Remove ${change}"`;
          const article = `xpath///article[.//button[@aria-label=${named}]]`;
          assert.equal(await page.$(article), null, `${change} is not there yet`);
          await add(page, change);
          await unfold(page, change);
          const added = await cards(page);
          const first = () => page.$eval(`${article}//button[contains(@aria-label, "More: ")]/../input`, (input) => input.value);
          const was = await first();
          await hit(page, await page.$(`${article}//button[contains(@aria-label, "More: ")]`));
          const edited = await cards(page);
          // One that is not stated is counted on from what it begins at.
          const now = number(await first());
          assert.ok(was === "" || now > number(was), `${change}: more than ${was} is ${now}`);
          assert.notEqual(edited, added, change);
          await press(page, "Undo");
          assert.equal(await cards(page), added, change);
          await press(page, "Redo");
          assert.equal(await cards(page), edited, change);
          assert.match(await readout(page, HEIGHT), /^(~ )?\d.* in$/, `${change}: it still stands`);
        }
        // All of them at once: shared, and opened by a stranger.
        const sent = await code(page);
        const { context, page: stranger } = await open(running.browser, { viewport, at: `#${sent}` });
        await turnTo(stranger, "Parts");
        for (const change of changes) {
          await openCard(stranger, change);
        }
        await context.close();
        for (const change of changes) await remove(page, change);
        await press(page, "All parts", ".parts");
        assert.equal(await cards(page), bare);
      });
    }
  }
});

describe("setting up", () => {
  on({ viewport: PHONE }, "says what to do, and puts it on the sketch", async (page) => {
    await turnTo(page, "Alignment");
    await type(page, "Frame height", "9 1/4");
    await type(page, "Camber", "-0.5");
    const work = await page.$eval(".panel table", (table) => table.textContent);
    assert.match(work, /Adjuster bolt.*turns out.*Shims, front bolt.*(take out|add)/);
    assert.match(await page.$eval(".panel .cards", (cards) => cards.textContent), /Then reads: Frame height 9 1\/4 in; Camber −0\.[45]\d°; Caster, ground .*; Toe of one wheel .*\./);
    await press(page, "How far off it is");
    const [heads, cells] = await page.$$eval(".panel table", (tables) => {
      const count = (row) => tables[1].querySelector(row).children.length;
      return [count("thead tr"), count("tbody tr")];
    });
    assert.equal(cells, heads, "every number stands under its heading");
    await press(page, "Put it on the sketch");
    assert.equal(await readout(page, HEIGHT), "9 1/4 in");
    assert.match(await readout(page, "Camber"), /^−0\.[45]\d°$/);
    await press(page, "Undo");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  });

  on({ viewport: DESK }, "says what keeps a target out of reach", async (page) => {
    await turnTo(page, "Alignment");
    await type(page, "Camber", "6");
    const said = await page.$$eval(".panel .remark", (all) => all.map((one) => one.textContent).join("\n"));
    assert.match(said, /thicker than its bolt takes/);
  });
});

describe("ways down", () => {
  on({ viewport: PHONE }, "are searched, counted, and laid on the sketch", async (page) => {
    await searched(page, "2 1/2");
    const [, tried, total] = (await page.$eval(".progress", (said) => said.textContent)).match(/^(\d+) of (\d+)/);
    assert.equal(tried, total);
    const left = await page.$$eval(".reasons li", (items) => items.map((item) => parseInt(item.textContent, 10)));
    const ways = await page.$$eval(".panel article", (cards) => cards.length);
    assert.ok(ways > 1 && left.reduce((sum, count) => sum + count, 0) + ways <= Number(total));
    await press(page, "Put it on the sketch");
    assert.match(await note(page, HEIGHT), /^2 (7\/16|1\/2|9\/16|5\/8) in lower$/);
    assert.match(await page.$eval('.which [aria-pressed="true"]', (chosen) => chosen.textContent), /Way down/);
  });
});

describe("the file", () => {
  on({ viewport: DESK }, "is saved, changed, opened again, and refused where it is none", async (page) => {
    await page.evaluate(() => {
      window.saved = [];
      const make = URL.createObjectURL;
      URL.createObjectURL = (blob) => { blob.text().then((text) => window.saved.push(text)); return make(blob); };
    });
    await turnTo(page, "Send");
    await press(page, "Save file");
    await page.waitForFunction(() => window.saved.length === 1);
    const file = JSON.parse(await page.evaluate(() => window.saved[0]));
    assert.equal(file.proposals[0].changes[0].drop, 50.8);
    file.proposals[0].changes[0].drop = 76.2;
    const give = (text) => page.evaluate((content) => {
      const input = document.querySelector('input[type="file"]');
      const carrier = new DataTransfer();
      carrier.items.add(new File([content], "design.json", { type: "application/json" }));
      input.files = carrier.files;
      input.dispatchEvent(new Event("change", { bubbles: true }));
    }, text);
    await give("{ not json");
    await page.waitForFunction(() => /not JSON/.test(document.querySelector(".notices").textContent));
    assert.equal(await page.$eval(".notice", (one) => one.getAnimations().length), 0, "what is wrong stays");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    // However much stands in it, a few ten thousand values are looked at before it is refused: no time that is felt.
    await page.evaluate(() => {
      const counted = (list) => new Proxy(list, {
        get(from, key) {
          const inside = from[key];
          window.looks += Number(/^\d+$/.test(String(key)));
          return Array.isArray(inside) ? counted(inside) : inside;
        },
      });
      for (const [of, name] of [[JSON, "parse"], [Object, "entries"]]) {
        const plain = of[name];
        of[name] = (from) => {
          const made = plain(from);
          return Array.isArray(made) ? counted(made) : made;
        };
      }
    });
    const keys = Object.fromEntries(Array.from({ length: 250000 }, (_, at) => [`k${at}`, 0]));
    for (const many of [Array(250000).fill(1), { scrubline: 1, truck: keys }, Array(500).fill(Array(500).fill({}))]) {
      await give("{ not json");
      await page.waitForFunction(() => /not JSON/.test(document.querySelector(".notices").textContent));
      await page.evaluate(() => { window.looks = 0; });
      await give(JSON.stringify(many));
      await page.waitForFunction(() => /too long to be a design/.test(document.querySelector(".notices").textContent));
      const looks = await page.evaluate(() => window.looks);
      assert.ok(looks <= 65000, `${looks} values were looked at`);
    }
    await give(JSON.stringify(file));
    await page.waitForFunction(() => !/too long/.test(document.querySelector(".notices").textContent));
    await settled(page);
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    assert.doesNotMatch(await page.$eval(".notices", (notices) => notices.textContent), /finer/);
    // A length is kept to a hundredth of a millimetre.
    file.proposals[0].changes[0].drop = 50.796;
    await give(JSON.stringify(file));
    const finer = "One number of the file is finer than it is kept: proposals[0].changes[0].drop is 50.796 there and 50.8 here.";
    await page.waitForFunction((said) => document.querySelector(".notices").textContent.includes(said), {}, finer);
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  });
});

describe("the sheet", () => {
  const pages = (pdf) => [...Buffer.from(pdf).toString("latin1").matchAll(/\/Type\s*\/Page\b/g)].length;

  on({ viewport: DESK, at: frontAlone() }, "is one printed page, Letter and A4, with a scale, the numbers and the link", async (page) => {
    for (const change of ["Bar adjuster", "Upper-arm shims", "Tie rod", "Bump stop", "Another upper arm"]) await add(page, change);
    // What prints it comes with the panels of a later minute.
    for (const panel of ["Compare", "Parts"]) await press(page, panel, "nav");
    for (const format of ["letter", "a4"]) assert.equal(pages(await page.pdf({ format })), 1, format);
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    await settled(page);
    const said = await page.$eval(".sheet", (sheet) => sheet.textContent);
    for (const words of [/scale 1:\d+/, /Frame height/, /2 in spindle/, /4 turns out/, /tire to fender/, /your local rules decide/]) {
      assert.match(said, words);
    }
    assert.ok(said.includes(await code(page)), "the link stands on it");
    const drawn = await page.$eval(".sheet .drawn", (box) => parseFloat(box.style.width));
    assert.ok(drawn > 80 && drawn <= 168, `${drawn} mm wide`);
  });

  /** A truck with a rear, and one plan for it. */
  const rear = () => {
    const file = JSON.parse(readFileSync(new URL("../links/v1/rear_on_leaves.json", import.meta.url), "utf8"));
    file.proposals = file.proposals.filter(({ name }) => name === "Hung otherwise");
    const link = execFileSync(BIN, ["link", "-", "--page", "https://example.org/"], { input: JSON.stringify(file), encoding: "utf8" });
    return link.trim().replace(/^.*#/, "#");
  };
  on({ viewport: DESK, at: rear() }, "says how the rear stands, and marks a change that is a guess", async (page) => {
    await press(page, "Hung otherwise", ".which");
    for (const format of ["letter", "a4"]) assert.equal(pages(await page.pdf({ format })), 1, format);
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    await settled(page);
    const lines = (selector) => page.$$eval(selector, (all) => all.map((found) => found.textContent));
    const listed = await lines(".sheet .rear");
    assert.match(listed.join(), /^Rear frame height: ~ \d.*; Nose down/);
    const changes = await lines(".sheet .parts li");
    assert.ok(changes.includes("~ rear shackle 1 in shorter"), `what is guessed is marked: ${changes.join(" | ")}`);
  });
});

describe("the link", () => {
  on({ viewport: DESK }, "restores what the sender saw", async (page) => {
    await type(page, "Drop, pin higher", "2 3/4");
    await page.focus("#travel");
    for (let times = 0; times < 8; times += 1) await page.keyboard.press("ArrowRight");
    await settled(page);
    const sent = await code(page);
    assert.match(sent, /^[0-9A-Za-z]+$/);
    const { context, page: stranger } = await open(running.browser, { viewport: PHONE, at: `#${sent}` });
    assert.equal(await readout(stranger, HEIGHT), await readout(page, HEIGHT));
    assert.equal(await stranger.$eval("output", (out) => out.textContent), await page.$eval("output", (out) => out.textContent));
    assert.equal(await code(stranger), sent);
    await context.close();
  });

  on({ viewport: DESK }, "that is cut off is said, and the person's own work stays", async (page) => {
    await type(page, "Drop, pin higher", "3");
    const own = await code(page);
    await page.evaluate((text) => { location.hash = text; }, own.slice(0, -4));
    await page.waitForSelector(".notice");
    assert.match(await said(page), /cut|mistyped/i);
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
  });

  on({ viewport: DESK }, "opened in the same tab is one step to undo, and Back does not trap", async (page) => {
    const demo = await code(page);
    await type(page, "Drop, pin higher", "1");
    const own = await readout(page, HEIGHT);
    assert.notEqual(await code(page), demo);
    await page.evaluate((text) => { location.hash = text; }, demo);
    await page.waitForSelector(".notice");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    await press(page, "Undo");
    assert.equal(await readout(page, HEIGHT), own);
    await page.goBack();
    await settled(page);
    assert.ok(page.url().startsWith(URL_));
    await page.goBack();
    assert.ok(!page.url().startsWith(URL_), "two steps back lead out of the page");
  });

  /** Every tile with the command's key for it, in inches and in millimetres. */
  const TILES = {
    "Frame height": ["ride_height_in", "ride_height_mm"],
    "Camber": ["camber_deg", "camber_deg"],
    "Hits first": ["bump_left_in", "bump_left_mm"],
    "Caster, against the ground": ["caster_ground_deg", "caster_ground_deg"],
    "Tire to frame": ["tire_to_frame_in", "tire_to_frame_mm"],
    "Tire to fender": ["tire_to_fender_in", "tire_to_fender_mm"],
  };

  on({ viewport: DESK }, "gives the command line the same numbers to the last digit", async (page) => {
    assert.ok(BIN, "the scrubline command is built");
    await type(page, "Drop, pin higher", "2 5/16");
    await drag(page, "upper-axis", [[9, -5]]);
    const named = await page.$$eval(".readout dt", (names) => names.map((name) => name.textContent));
    assert.deepEqual([...named].sort(), Object.keys(TILES).sort(), "no tile is left out");
    for (const [at, units] of ["in", "mm"].entries()) {
      if (units === "mm") await press(page, "in: change to millimeters");
      const report = JSON.parse(execFileSync(BIN, ["report", await code(page), "--format", "json", "--units", units, "--decimals", "6"], { encoding: "utf8" }));
      for (const [name, keys] of Object.entries(TILES)) {
        // What is hit first stands there by its name, and how far up under it.
        const shown = name === HITS ? (await spread(page, name)).replace(/^bump /, "") : await readout(page, name);
        const told = report.trucks[1][keys[at]];
        assert.equal(typeof told, "number", keys[at]);
        // A sixteenth, a tenth of a millimetre, a hundredth of a degree: what the tile's last digit is worth.
        const last = keys[at].endsWith("_deg") ? 0.01 : units === "in" ? 1 / 16 : 10 ** -(shown.match(/\.(\d+)/)?.[1].length ?? 0);
        assert.ok(Math.abs(number(shown) - told) <= last / 2 + 1e-6, `${name}: ${shown} on the tile, ${told} by the command`);
      }
    }
  });

  on({ viewport: DESK }, "reads the same camber on the tile and by the command, toed and nose down", async (page) => {
    await drag(page, "upper-ball", [[-12, -10]]);
    const printed = execFileSync(BIN, ["report", await code(page), "--plan", "1"], { encoding: "utf8" });
    const [, camber] = printed.match(/^Camber .*?(\S+°)\s*$/m);
    const [, toe] = printed.match(/^Toe of this wheel .*?(\S+)°\s*$/m);
    assert.notEqual(Number(toe.replace("−", "-")), 0, "a wheel that is toed shows the difference");
    assert.equal(await readout(page, "Camber"), camber);
  });
});

describe("everyone", () => {
  for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
    for (const scheme of ["light", "dark"]) {
      on({ viewport, scheme }, `nothing for axe to find: ${name}, ${scheme}`, async (page) => {
        for (const panel of PANELS) {
          await turnTo(page, panel);
          // What is still being searched is dimmed.
          if (panel === "What hits") await page.waitForSelector(".pairs:not(.behind)");
          assert.deepEqual(await axe(page), [], panel);
        }
      });
    }
  }

  on({ viewport: DESK }, "no panel is wider than its column", async (page) => {
    for (const panel of PANELS) {
      await turnTo(page, panel);
      const over = await page.$eval(".pane", (pane) => pane.scrollWidth - pane.clientWidth);
      assert.ok(over <= 0, `${panel} is ${over} px too wide`);
    }
  });

  on({ viewport: { width: 320, height: 568, isMobile: true, hasTouch: true } }, "no sideways scrolling at 320 px", async (page) => {
    for (const panel of PANELS) {
      await turnTo(page, panel);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(over <= 0, `${panel} is ${over} px too wide`);
    }
  });
});

describe("clearance", () => {
  const travel = (page) => page.$eval("#travel", (slider) => Number(slider.value));
  const rows = (page) => page.$$eval(".pair", (pairs) => pairs.map((pair) => pair.textContent));

  on({ viewport: PHONE }, "names the worst of each pair, and shows it", async (page) => {
    await turnTo(page, "What hits");
    await press(page, "All of them");
    await page.waitForSelector(".pairs:not(.behind)");
    const all = await rows(page);
    assert.equal(all.length, 13);
    assert.match(all[0], /^tire to fender−1 1\/8 inthey meet, bump 3 3\/8 in, steered \d+° left; first in bump at 1 15\/16 in$/);
    assert.equal(await travel(page), 0);
    await press(page, "Show the sketch where tire to fender is least");
    assert.ok((await travel(page)) > 80, "the sketch is at the stop");
    assert.ok(Number(await page.$eval("#steer", (slider) => slider.value)) < -10, "and steered to the left");
    await press(page, "As it sits", ".which");
    await page.waitForSelector(".pairs:not(.behind)");
    // But the right tire, whose left lock goes farther, with the wheel hanging.
    const meeting = (await rows(page)).filter((row) => row.includes("they meet"));
    assert.equal(meeting.length, 1, meeting.join(" | "));
    assert.match(meeting[0], /^tire to strut rod.*Right wheel: they meet, droop .*, steered \d+° left/);
  });

  on({ viewport: PHONE }, "takes the pose that is tapped on the map of a pair", async (page) => {
    await turnTo(page, "What hits");
    await press(page, "All of them");
    await page.waitForSelector(".pairs:not(.behind)");
    const strut = await page.evaluateHandle(() =>
      [...document.querySelectorAll(".pair")].find((pair) => pair.textContent.startsWith("tire to strut rod")));
    await hit(page, strut.asElement());
    const label = await page.$eval(".curve .picture", (map) => map.getAttribute("aria-label"));
    assert.match(label, /^Left wheel: tire to strut rod\. Least 7\/16 in at a travel of −2 3\/4 in, the wheel steered 28° to the right\.$/);
    const map = await page.$eval(".curve .frame", (frame) => {
      frame.scrollIntoView({ block: "center" });
      return frame.getBoundingClientRect().toJSON();
    });
    await page.touchscreen.tap(map.x + 0.6 * map.width, map.y + 0.85 * map.height);
    await settled(page);
    assert.ok((await travel(page)) < -30, "low on the map is droop");
    assert.ok(Number(await page.$eval("#steer", (slider) => slider.value)) > 0, "right of its middle is to the right");
  });

  on({ viewport: DESK }, "says what ends the travel and what hangs below the line", async (page) => {
    await turnTo(page, "What hits");
    const ends = await page.$$eval(".ends li", (lines) => lines.map((line) => line.textContent));
    assert.ok(ends.some((line) => /^bump 1 15\/16 in: tire to fender$/.test(line)), ends.join(" | "));
    assert.ok(ends.some((line) => /^bump 2 9\/16 in: bump stop$/.test(line)), ends.join(" | "));
    assert.ok(ends.some((line) => /^lowest fixed point: .* above the line/.test(line)), ends.join(" | "));
  });
});
