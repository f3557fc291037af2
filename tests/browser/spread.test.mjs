// How far off answers may be: on the tiles, side by side, under what hits, and in what is taken away.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, axe, drag, onPagesOf, press, runningBrowser, spot, swipe, turnTo } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

const run = (args, input) => execFileSync(BIN, args, { input, encoding: "utf8" });

/** The code of the demo, changed by `change`. */
function demo(change) {
  const file = JSON.parse(run(["open", run(["link"])]));
  change(file);
  return run(["link", "-"], JSON.stringify(file)).trim();
}

/** What the command says of an answer of a truck, as it sits or by the plan's place. */
function told(answer, at, code) {
  const rows = JSON.parse(run(["spread", ...(code ? [code] : []), "--units", "in", "--draws", "40", "--format", "json"]));
  return rows.filter((row) => row.answer === answer)[at];
}

const tile = (page, name) => page.evaluate((wanted) => {
  const all = [...document.querySelectorAll(".readout")];
  return all.find((one) => one.querySelector("dt").textContent === wanted)?.querySelector(".spread").textContent;
}, name);

/** Waits until it is known how far off the tiles may be, and says so of one. */
async function known(page, name = "Frame height") {
  await page.waitForFunction((wanted) => [...document.querySelectorAll(".readout")]
    .some((one) => one.querySelector("dt").textContent === wanted && one.querySelector(".spread").textContent.startsWith("±")), {}, name);
  return tile(page, name);
}

/** A row of the comparison: of each truck its number, how far off that may be, and the note. */
const row = (page, name) => page.evaluate((wanted) => {
  const body = [...document.querySelectorAll(".compare tbody")].find((one) => one.querySelector("th span").textContent === wanted);
  const text = (cell, part) => cell.querySelector(part)?.textContent ?? "";
  return [...body.querySelectorAll("tr:nth-child(2) td")].map((cell) => [text(cell, "b"), text(cell, ".spread"), text(cell, "small:not(.spread)")]);
}, name);

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  describe(`how far off answers may be, on a ${name}`, () => {
    on({ viewport }, "stands under the tiles, and nothing moves when it is known", async (page) => {
      const boxes = () => page.$$eval(".sketch, .readout", (all) => all.map((one) => JSON.stringify(one.getBoundingClientRect())));
      const before = await boxes();
      assert.equal(await known(page), "± 1/8 in");
      assert.deepEqual(await boxes(), before);
      assert.equal(await tile(page, "Camber"), "± 0.10°");
      if (viewport === DESK) {
        assert.equal(await tile(page, "Caster, against the ground"), "± 2.3°");
        assert.ok(Math.abs(told("caster_ground", 0).spread - 2.3) < 0.05);
      }
      // What ends the travel jumps: no slope says how far off that is.
      assert.equal(await tile(page, "Hits first"), "bump 1 15/16 in");
      assert.deepEqual(await axe(page), []);
    });

    on({ viewport }, "stands side by side, and a change that a tape cannot see has no sign", async (page) => {
      await known(page);
      await turnTo(page, "Compare");
      const [, change] = await row(page, "Roll center");
      assert.deepEqual(change, ["2 11/16 in", "± 1 1/16 in", "more or less: the tape can't tell"]);
      const by = told("roll_centre", 1);
      assert.ok(Math.abs(by.change) < by.change_spread, "the command's numbers say so too");
      const [before, after] = await row(page, "Caster, against the ground");
      assert.deepEqual([before.slice(0, 2), after.slice(0, 2)], [["2.08°", "± 2.3°"], ["1.00°", "± 2.3°"]]);
      assert.match(after[2], /^−1\.08°/, "off by as much, what it changes is known");
      const [, lower] = await row(page, "Frame height");
      assert.deepEqual(lower, ["9 13/16 in", "± 1/8 in", "2 in lower"]);
    });

    on({ viewport }, "is said of a number on the sketch that is touched, and nothing moves for it", async (page) => {
      await known(page);
      const box = () => page.$eval(".sketch", (one) => JSON.stringify(one.getBoundingClientRect()));
      const before = await box();
      const at = await page.$$eval('[data-aspect="Front"] svg text', (all) => {
        const { x, y, width, height } = all.find((one) => /^camber/.test(one.textContent)).getBoundingClientRect();
        return [x + width / 2, y + height / 2];
      });
      if (viewport === DESK) await page.mouse.click(...at);
      else await page.touchscreen.tap(...at);
      await page.waitForFunction(() => /Camber: ± 0\.10°, 19 times in 20/.test(document.body.innerText));
      assert.equal(await box(), before);
      assert.deepEqual(await axe(page), []);
    });

    on({ viewport }, "says between what lies what switches, as the command draws it, and nothing moves for it", async (page) => {
      await turnTo(page, "Compare");
      await page.waitForFunction(() => /±/.test(document.querySelector(".compare").textContent));
      const boxes = () => page.$$eval(".compare td, .compare th", (all) => all.map((one) => JSON.stringify(one.getBoundingClientRect())));
      const before = await boxes();
      await page.waitForFunction(() => / of 100/.test(document.querySelector(".compare").textContent), { timeout: 120000 });
      assert.deepEqual(await boxes(), before);
      const asked = run(["spread", "--units", "in"]);
      for (const name of ["Bump travel", "Droop travel"]) {
        const line = asked.split("\n").find((found) => found.startsWith(`${name} `));
        for (const [value, range] of await row(page, name)) assert.ok(line.includes(`${value} (${range} in)`), `${value} (${range} in)\n${line}`);
      }
      const [, [, share, by]] = await row(page, "Bump travel, ended by");
      assert.ok(asked.includes(`${by} ${share}`), `${by} ${share}`);
      const wide = await page.$$eval(".compare td", (all) => all.filter((cell) => cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.textContent));
      assert.deepEqual(wide, [], "none runs into the next column");
      assert.deepEqual(await axe(page), []);
    });

    on({ viewport }, "says what is too near to tell, and no more once it was measured", async (page) => {
      await known(page);
      await turnTo(page, "What hits");
      await page.waitForSelector(".nearest .remark");
      const said = await page.$eval(".nearest .remark", (line) => line.textContent);
      assert.match(said, /^Too near to tell at ride height: .*rim to tie rod 3\/16 in ± 1\/4 in.*\. Measure before you buy or cut\.$/);
      const by = told("rim_to_tie_rod", 1);
      assert.ok(by.value > 0 && by.value < by.spread);
      assert.deepEqual(await axe(page), []);
    });

    const read = demo((file) => {
      const by = (value) => ({ value, tool: "drill_shank" });
      file.truck.readings = { left: { rim_to_lower_arm: by(56), rim_to_lower_joint: by(58.5), rim_to_steering_arm: by(28), rim_to_tie_rod: by(28) } };
    });
    on({ viewport, at: `#${read}` }, "is as good as the tool where it was read off the truck", async (page) => {
      await known(page);
      await turnTo(page, "What hits");
      await page.waitForSelector(".pairs:not(.behind)");
      await new Promise((done) => setTimeout(done, 1500));
      assert.equal(await page.$(".nearest .remark"), null);
    });

    on({ viewport }, "goes with the truck: in a drag nothing is said of it and nothing moves, after it all is known anew", async (page) => {
      await known(page);
      const box = () => page.$eval(".sketch", (one) => JSON.stringify(one.getBoundingClientRect()));
      const before = await box();
      if (viewport === DESK) await drag(page, "wheel-centre", [[0, -14]]);
      else await swipe(page, await spot(page, "wheel-centre"), [0, -14]);
      assert.equal(await box(), before);
      assert.equal(await known(page), "± 1/8 in");
    });
  });
}

const guessed = demo((file) => {
  file.truck.sources = { rule: "measured", other: { rail_bottom_z: "assumed" } };
});

on({ at: `#${guessed}` }, "a guess is as far off as trucks of a class differ, and keeps its mark", async (page) => {
  const by = told("ride_height", 0, guessed);
  assert.equal(by.guess, "yes");
  // An inch either way, evenly: two deviations are 2/√3 of it.
  assert.ok(Math.abs(by.spread - 2 / Math.sqrt(3)) < 1e-3);
  assert.equal(await known(page), "± 1 1/8 in");
  assert.match(await page.$eval(".readout b", (value) => value.textContent), /^~ /);
});

on({}, "goes into a post", async (page) => {
  await known(page, "Caster, against the ground");
  await page.evaluate(() => {
    navigator.clipboard.writeText = (text) => {
      window.copied = text;
      return Promise.resolve();
    };
  });
  await turnTo(page, "Send");
  await press(page, "Copy as text");
  await page.waitForFunction(() => window.copied);
  const post = await page.evaluate(() => window.copied);
  assert.match(post, /Caster, against the ground: 2\.08° ± 2\.3° → 1\.00° ± 2\.3°/);
  assert.match(post, /Frame height: 11 13\/16 in ± 1\/8 in → 9 13\/16 in ± 1\/8 in/);
});
