// Left and right that differ: measured, drawn, compared and shared.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, add, axe, code, drag, frontAlone, number, onPagesOf, open, press, readout, runningBrowser, settled, spot, swipe, takeUp, turnTo, type, unfold } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);
const HEIGHT = "Frame height";
const RAIL = "Frame height, above the ground";

/** Turns to a side in My truck. */
async function side(page, name) {
  const right = await page.$$eval(".panel button", (all) => all.find((found) => found.textContent === "Right side").getAttribute("aria-pressed"));
  if ((right === "true") !== (name === "Right")) await press(page, "Right side", ".panel");
}

/** The word beside a number's name. */
function badge(page, words) {
  return page.evaluate((text) => {
    const labels = [...document.querySelectorAll("label.number")];
    return labels.find((found) => found.textContent.trim().startsWith(text)).querySelector(".badge").textContent;
  }, words);
}

/** What stands in the last column beside a number of both sides. */
function together(page, words) {
  return page.evaluate((text) => {
    const rows = [...document.querySelectorAll(".sides tbody tr")];
    return rows.find((row) => row.firstChild.textContent === text)?.lastChild.textContent ?? null;
  }, words);
}

const title = (page) => page.$eval('[data-aspect="Front"] svg', (pad) => pad.getAttribute("aria-label"));

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  describe(`left and right on a ${name}`, () => {
    on({ viewport }, "a number of the right is typed, drawn, shared and given up", async (page) => {
      await press(page, "As it sits", ".which");
      await turnTo(page, "My truck");
      assert.equal(await page.$(".sides table"), null, "alike, there is nothing to compare");
      const shown = (on) => on.$$eval(".folded button:not(.sixteenths *)", (all) => all.filter((found) => found.checkVisibility()).length);
      const offered = (on) => on.$$eval(".which button", (all) => all.filter((found) => found.checkVisibility()).map((found) => found.textContent));
      assert.ok(!(await offered(page)).includes("Right side"), "nor to turn to");
      await side(page, "Right");
      await press(page, "4. Fore and aft, tie rod, lock");
      assert.equal(await badge(page, RAIL), "as the left");
      assert.equal(await shown(page), 0, "nothing to give up");
      const start = await code(page);
      await type(page, RAIL, "11 1/2");
      assert.equal(await badge(page, RAIL), "the right's own");
      assert.equal(await shown(page), 1);
      assert.equal(await readout(page, HEIGHT), "11 1/2 in");
      await page.waitForFunction(() => /higher than right by.*±/.test(document.querySelector(".sides table").textContent));
      // A tape's sixteenth and a floor's eighth at either side: 5.0 mm.
      assert.equal(await together(page, HEIGHT), "Left higher than right by 5/16 in ± 3/16 in");
      assert.equal(await title(page), "Front view of the right front corner");
      // Seen from in front, the right wheel is at the left of its pivots.
      if (name === "phone") await press(page, "Show the sketch");
      assert.ok((await spot(page, "wheel-centre")).x < (await spot(page, "lower-axis")).x);
      assert.deepEqual(await axe(page), []);
      await side(page, "Left");
      assert.equal(await readout(page, HEIGHT), "11 13/16 in");
      assert.equal(await title(page), "Front view of the left front corner");
      assert.ok((await spot(page, "wheel-centre")).x > (await spot(page, "lower-axis")).x);

      const shared = await code(page);
      const { context, page: stranger } = await open(running.browser, { viewport, at: `#${shared}` });
      assert.equal(await readout(stranger, HEIGHT), "11 13/16 in");
      assert.ok((await offered(stranger)).includes("Right side"));
      await press(stranger, "Right side", ".which");
      assert.equal(await readout(stranger, HEIGHT), "11 1/2 in");
      await context.close();
      const report = execFileSync(BIN, ["report", shared, "--side", "right", "--units", "in"]).toString();
      const line = report.split("\n").find((found) => found.startsWith(HEIGHT));
      assert.match(line, /11 1\/2 in/);

      await side(page, "Right");
      await press(page, "Undo");
      assert.equal(await readout(page, HEIGHT), "11 13/16 in");
      await press(page, "Redo");
      assert.equal(await readout(page, HEIGHT), "11 1/2 in");
      await press(page, `As the left: ${RAIL}`);
      assert.equal(await badge(page, RAIL), "as the left");
      assert.equal(await readout(page, HEIGHT), "11 13/16 in");
      assert.equal(await code(page), start);
    });
  });
}

describe("the sketch of the right", () => {
  on({ viewport: DESK }, "follows the pointer outward, and measures the right alone", async (page) => {
    await press(page, "As it sits", ".which");
    await turnTo(page, "My truck");
    await side(page, "Right");
    const from = await spot(page, "upper-ball");
    const before = await code(page);
    await drag(page, "upper-ball", [[-20, 0]]);
    const to = await spot(page, "upper-ball");
    assert.ok(Math.abs(to.x - from.x + 20) < 3 && Math.abs(to.y - from.y) < 3, `${JSON.stringify([from, to])}`);
    assert.match(await together(page, "Camber"), /^Cross camber/);
    const [, inclination] = (await together(page, "Steering-axis inclination")).match(/^Cross inclination (.*)$/);
    assert.ok(number(inclination) > 0.1, `a ball that is farther out inclines the right's axis less: ${inclination}`);
    await side(page, "Left");
    assert.equal(await page.$eval("output", (output) => output.textContent), "0 in");
    await press(page, "Undo");
    assert.equal(await code(page), before);
    // By keys too: to the left on the picture is outward.
    await side(page, "Right");
    await page.$eval('[data-handle="fender"]', (handle) => handle.focus());
    const fender = await spot(page, "fender");
    await page.keyboard.press("ArrowLeft");
    await settled(page);
    assert.ok((await spot(page, "fender")).x < fender.x);
  });

  on({ viewport: PHONE }, "follows a thumb", async (page) => {
    await press(page, "As it sits", ".which");
    await turnTo(page, "My truck");
    await side(page, "Right");
    await press(page, "Show the sketch");
    await swipe(page, await spot(page, "upper-axis"), [-18, 0]);
    const { truck } = JSON.parse(execFileSync(BIN, ["open", await code(page), "--format", "json"]).toString());
    assert.deepEqual(Object.keys(truck.right).sort(), ["upper_front_y", "upper_rear_y"], "its own numbers and no other");
    const out = ["front", "rear"].map((end) => truck.right[`upper_${end}_y`] - truck.points[`upper_${end}`].y);
    assert.ok(out[0] > 10, `to the left on the picture of a right corner is out: ${out}`);
    assert.equal(out[0].toFixed(1), out[1].toFixed(1));
  });

  on({ viewport: DESK }, "steers to the same side as the left", async (page) => {
    await press(page, "As it sits", ".which");
    await turnTo(page, "My truck");
    await side(page, "Right");
    await page.focus("#steer");
    for (let times = 0; times < 15; times += 1) await page.keyboard.press("ArrowLeft");
    await settled(page);
    assert.equal(await page.$eval('output[for="steer"]', (found) => found.textContent), "15° left");
    const top = await page.$eval("#said-Top, [data-aspect='Top'] .unseen", (found) => found.textContent);
    assert.match(top, /steer 15\.0 degrees left/);
  });
});

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  describe(`a plan by side on a ${name}`, () => {
    on({ viewport, at: frontAlone() }, "sets each side by itself, says how it leans, is shared and taken back", async (page) => {
      const before = await code(page);
      await add(page, "Bar adjuster");
      await unfold(page, "Bar adjuster");
      const alike = await code(page);
      const where = () => page.$("xpath///article[.//button[@aria-label='Remove Bar adjuster']]//select");
      const choose = async (words) => {
        const choice = await where();
        await choice.select(await choice.$$eval("option", (all, text) => all.find((one) => one.textContent === text).value, words));
        await settled(page);
      };
      const headings = () => page.$$eval(".card h4", (all) => all.map((found) => found.textContent));
      await choose("each side by itself");
      assert.deepEqual(await headings(), ["Left", "Right"]);
      assert.equal(await code(page), alike, "alike for a while, nothing has changed");
      const fields = await page.$$("xpath///article[.//button[@aria-label='Remove Bar adjuster']]//input[@type='text']");
      for (const [at, turns] of ["-4", "-2"].entries()) {
        await fields[at].evaluate((element) => { element.scrollIntoView({ block: "center" }); element.focus(); element.select(); });
        await fields[at].type(turns);
        await page.keyboard.press("Tab");
      }
      await settled(page);
      const shared = await code(page);
      const { proposals } = JSON.parse(execFileSync(BIN, ["open", shared, "--format", "json"]).toString());
      const turns = proposals[0].changes.filter(({ change }) => change === "bar_adjuster");
      assert.deepEqual(turns, [{ change: "bar_adjuster", side: "left", turns: -4 }, { change: "bar_adjuster", side: "right", turns: -2 }]);
      // The right is a touch away now, and each height is the command's.
      const told = (side) => JSON.parse(execFileSync(BIN, ["report", shared, "--side", side, "--format", "json", "--units", "in"]).toString()).trucks[1].ride_height_in;
      const [left, right] = ["left", "right"].map(told);
      assert.ok(right - left > 0.1, `fewer turns out lower it less: ${left} ${right}`);
      for (const [turned, inches] of [[false, left], [true, right]]) {
        if (turned) await press(page, "Right side", ".which");
        assert.ok(Math.abs(number(await readout(page, HEIGHT)) - inches) < 1 / 32, `${turned}: ${inches}`);
      }
      await turnTo(page, "Alignment");
      const said = await page.$eval(".sides", (found) => found.textContent);
      assert.match(said, /The lean is open until this is measured: Rate of one spring\. By the front springs alone, with nothing to hold it level, it leans [\d.]+° farther to the left\./);
      assert.deepEqual(await axe(page), []);
      // Opened by a stranger, it stands the same.
      const { context, page: stranger } = await open(running.browser, { viewport, at: `#${shared}` });
      await takeUp(stranger, "Bar adjuster");
      assert.deepEqual(await stranger.$$eval(".card h4", (all) => all.map((found) => found.textContent)), ["Left", "Right"]);
      await context.close();
      await takeUp(page, "Bar adjuster");
      await choose("the right alone");
      const alone = JSON.parse(execFileSync(BIN, ["open", await code(page), "--format", "json"]).toString());
      assert.deepEqual(alone.proposals[0].changes.filter(({ change }) => change === "bar_adjuster"), [{ change: "bar_adjuster", side: "right", turns: -2 }]);
      await choose("both sides");
      for (let steps = 0; steps < 10 && (await code(page)) !== before; steps += 1) await press(page, "Undo");
      assert.equal(await code(page), before, "one step for each");
    });
  });
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  describe(`a truck that leans on a ${name}`, () => {
    on({ viewport }, "is set level by one plan of both sides, as the command has it, and then stands level", async (page) => {
      const file = JSON.parse(execFileSync(BIN, ["open", await code(page), "--format", "json"]).toString());
      file.truck.right = { rail_bottom_z: 291 };
      file.truck.rear = { rate: 30, springs_apart: 1000 };
      file.truck.shims = { ...file.truck.shims, shaft_side: 1 };
      const link = execFileSync(BIN, ["link", "-"], { input: JSON.stringify(file) }).toString().trim().replace(/^.*#/, "");
      const { context, page: own } = await open(running.browser, { viewport, at: `#${link}` });
      await turnTo(own, "Alignment");
      assert.doesNotMatch(await own.$eval(".panel", (panel) => panel.textContent), /on its own spring\. The rear/);
      await type(own, "Frame height", "9 1/4");
      const rows = JSON.parse(execFileSync(BIN, ["setup", link, "--each-side", "--height", "9 1/4 in", "--units", "in", "--format", "json"]).toString());
      const amount = (key) => rows.find(({ what }) => what === key).amount;
      const panel = await own.$eval(".panel", (found) => found.textContent);
      assert.equal(panel.match(/Left and right are worked out together/g)?.length, 1, "said once");
      const bolts = await own.$$eval(".panel .cards tr", (all) => all.map((row) => row.textContent).filter((text) => text.startsWith("Adjuster bolt")));
      assert.equal(bolts.length, 2);
      for (const [at, side] of ["left", "right"].entries()) {
        const [, turns, way] = /Adjuster bolt([\d.]+) turns (in|out)/.exec(bolts[at]);
        assert.ok(Math.abs(Number(turns) * (way === "in" ? 1 : -1) - amount(`${side}_bolt_turns`)) < 0.006, `${side}: ${bolts[at]}`);
      }
      await press(own, "Put it on the sketch", ".panel");
      // Both heights as the frame then stands, within a quarter turn of what was wished.
      const said = await own.$eval(".sides", (found) => found.textContent);
      const heights = /On both springs together: left (.+?) in, right (.+?) in/.exec(said).slice(1, 3).map((text) => number(`${text} in`));
      for (const height of heights) assert.ok(Math.abs(height - 9.25) < 0.06, said);
      await context.close();
    });
  });
}
