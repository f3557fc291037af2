// What was read off the truck, typed where the answer stands: opened, told, refused, taken back.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, axe, field, number, onPagesOf, openCard, press, runningBrowser, settled, turnTo, type } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);
const HEIGHT = "Frame height";
/** What is asked where a plan is on the sketch. */
const [BEFORE, BUILT] = ["As it sits, before any part", "After the work, as built"];

/** The code of the demo, every number of it a guess, its right side other than its left. */
function guessed() {
  const run = (args, input) => execFileSync(BIN, args, { input, encoding: "utf8" });
  const file = JSON.parse(run(["open", run(["link"])]));
  file.proposals[0].name = "Spindle";
  file.truck.sources = { rule: "assumed" };
  file.truck.right = { upper_ball_z: 440 };
  return `#${run(["link", "-"], JSON.stringify(file)).trim()}`;
}

/** The numbers of a row of the comparison, as measured first. */
const compared = (page, name) => page.$$eval(".compare tbody", (groups, wanted) => {
  const group = groups.find((found) => found.querySelector("th span").textContent === wanted);
  return [...group.querySelectorAll("tr:nth-child(2) b")].map((cell) => cell.textContent);
}, name);

/** Waits until the row of the frame height is so: what it rests on is found while the page is at rest. */
async function until(page, isSo) {
  for (let wait = 0; wait < 40; wait += 1) {
    const cells = await compared(page, HEIGHT);
    if (isSo(cells)) return cells;
    await new Promise((done) => setTimeout(done, 250));
  }
  throw new Error((await compared(page, HEIGHT)).join(" | "));
}

/** The text of a pair's row. */
const pair = async (page, name) => {
  await page.waitForSelector(".pairs:not(.behind)");
  return page.$$eval(".pair", (rows, wanted) => rows.find((row) => row.textContent.startsWith(wanted)).textContent, name);
};

/** Where the cursor is: the words of its field, what of it is selected, and whether it can be seen and touched. */
const cursor = (page) => page.evaluate(() => {
  const input = document.activeElement;
  const box = input.getBoundingClientRect();
  return {
    name: input.closest(".number")?.querySelector(".name").textContent ?? input.tagName,
    all: input.selectionStart === 0 && input.selectionEnd === input.value.length,
    seen: document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2) === input,
  };
});

/** What a field holds, what is said under it, and whether it is said to be wrong. */
async function state(page, words) {
  return (await field(page, words)).evaluate((input) => [
    input.value, input.closest(".number").querySelector(".echo").textContent, input.getAttribute("aria-invalid"),
  ]);
}

/** Types where the cursor is, over what is there. */
async function write(page, text) {
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await settled(page);
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  describe(`"I measured this" on a ${name}`, () => {
    on({ viewport, at: guessed() }, "opens the field in the row of the comparison, and the answer is the reading and the change", async (page) => {
      await turnTo(page, "Compare");
      await press(page, "Right side", ".which");
      const right = await compared(page, HEIGHT);
      await press(page, "Right side", ".which");
      const before = await compared(page, HEIGHT);
      assert.ok(before[0].startsWith("~ "), before.join());
      await press(page, "I measured this: Frame height", ".compare");
      const { name: where, ...seen } = await cursor(page);
      assert.match(where, /^Frame height/);
      assert.deepEqual(seen, { all: true, seen: true });
      assert.match(await page.$eval(".compare .hint", (hint) => hint.textContent), /^As it sits.*left$/);
      await write(page, "12");
      // A two-inch spindle takes two inches off what was read, whatever the points are worth.
      // As it sits that rests on no guess, which is found while the page is at rest.
      const after = await until(page, (cells) => cells[0] === "12 in");
      assert.equal(after[1].replace("~ ", ""), "10 in");
      assert.match((await cursor(page)).name, /^Frame height/, "the cursor stays where it is typed");
      await press(page, "Right side", ".which");
      await until(page, (cells) => cells.join() === right.join());
      await press(page, "Right side", ".which");
      assert.deepEqual(await axe(page), []);
      await press(page, "Remove the reading: Frame height");
      await until(page, (cells) => cells.join() === before.join());
      await press(page, "Undo");
      await until(page, (cells) => cells[0] === "12 in");
      await press(page, "I measured this: Frame height", ".compare");
      assert.equal(await page.$(".compare .when"), null, "pressed again it shuts");
    });

    on({ viewport }, "leads from a tile to its field in My truck, again and again", async (page) => {
      for (const answer of ["Camber", HEIGHT]) {
        // On a phone the panel that was led to stands over the tiles.
        if (!(await page.$eval(".readouts", (tiles) => tiles.checkVisibility()))) await press(page, "Lower");
        await press(page, `I measured this: ${answer}`, ".readouts");
        await press(page, BEFORE, ".panel");
        const { name: where, ...seen } = await cursor(page);
        assert.ok(where.startsWith(answer), where);
        assert.deepEqual(seen, { all: true, seen: true }, answer);
      }
      await write(page, "12");
      assert.equal(await page.$eval(".readout dd b", (tile) => tile.textContent), "10 in");
      const bump = await page.$$eval(".readout", (all) => all[2].querySelector("button"));
      assert.equal(bump, null, "how far it travels is not read off as it sits");
    });

    on({ viewport }, "asks of a plan's number when it was read: what the finished truck reads never takes the place of what it read before", async (page) => {
      const lower = async () => (await page.$eval(".readouts", (tiles) => tiles.checkVisibility())) || press(page, "Lower");
      await press(page, `I measured this: ${HEIGHT}`, ".readouts");
      assert.equal(await page.$(".when input"), null, "nothing can be typed before it is answered");
      const asked = await page.evaluate(() => [document.activeElement.textContent, document.querySelector(".when .hint").textContent]);
      assert.deepEqual(asked, [BEFORE, "Frame height, left: when was it read?"]);
      await press(page, BEFORE, ".when");
      await write(page, "12");
      await lower();
      await press(page, `I measured this: ${HEIGHT}`, ".readouts");
      await press(page, BUILT, ".when");
      const { all, seen } = await cursor(page);
      assert.deepEqual({ all, seen }, { all: true, seen: true });
      await write(page, "9 3/4");
      assert.equal(await page.$eval(".readout dd b", (tile) => tile.textContent), "10 in", "the plan is reckoned from what was read before");
      await press(page, "After the work: as built");
      await page.waitForFunction(() => /Frame height/.test(document.querySelector(".panel .cautions")?.textContent));
      assert.match(await page.$eval(".panel .cautions", (rows) => rows.textContent), /planned 10 in, read 9 3\/4 in/);
      // As it sits there is nothing to ask.
      await press(page, "As it sits", ".which");
      await lower();
      await press(page, `I measured this: ${HEIGHT}`, ".readouts");
      assert.match((await cursor(page)).name, /^Frame height/);
      assert.equal(await page.evaluate(() => document.activeElement.value), "12 in");
      assert.deepEqual(await axe(page), []);
    });

    on({ viewport }, "opens the field under the map, and says by how much the map is off", async (page) => {
      await turnTo(page, "What hits");
      await press(page, "As it sits", ".which");
      await press(page, "All of them");
      const joint = "rim to lower ball joint";
      const model = number((await pair(page, joint)).slice(joint.length));
      await press(page, `I measured this: ${joint}`, ".pairs");
      const { name: where, ...seen } = await cursor(page);
      assert.ok(where.startsWith(joint), where);
      assert.deepEqual(seen, { all: true, seen: true });
      await write(page, "3");
      assert.match(await pair(page, joint), /^rim to lower ball joint3 in.*; model says 2 5\/16 in$/);
      const said = await page.$eval(".panel .curve + .hint", (line) => line.textContent);
      const [, by, way] = said.match(/all of it is (.*) (more|less)\.$/);
      assert.equal(way, "more");
      // Both are printed to a sixteenth.
      assert.ok(Math.abs(number(by) - (3 - model)) <= 1 / 16, said);
      await press(page, "2 in spindle", ".which");
      // The joint comes up by the spindle's two inches.
      assert.match(await pair(page, joint), /^rim to lower ball joint1 in/);
      // Of what moves, the least elsewhere is the model's, and what was read is told of it at rest.
      await press(page, "I measured this: tire to frame", ".pairs");
      await press(page, BEFORE, ".panel");
      await write(page, "2");
      assert.match(await pair(page, "tire to frame"), /; at rest 2 in; model says \d/);
      assert.deepEqual(await axe(page), []);
    });

    on({ viewport }, "keeps what is refused at its field, with the range", async (page) => {
      await press(page, "As it sits", ".which");
      await press(page, `I measured this: ${HEIGHT}`, ".readouts");
      const cases = async (words, texts, range) => {
        const before = await page.$$eval(".readouts b", (all) => all.map((one) => one.textContent));
        const [held] = await state(page, words);
        for (const text of texts) {
          await type(page, words, text);
          assert.deepEqual(await state(page, words), [text, range, "true"], `${words}: ${text}`);
        }
        assert.deepEqual(await page.$$eval(".readouts b", (all) => all.map((one) => one.textContent)), before);
        await (await field(page, words)).focus();
        await page.keyboard.press("Escape");
        await settled(page);
        assert.deepEqual(await state(page, words), [held, "", null], `${words}: Escape brings it back`);
      };
      // By hand: 20 mm are 12.6 sixteenths of an inch, 1500 mm 59 in and less than an eighth.
      await cases(HEIGHT, ["-3", "0", "1600 mm"], "From 13/16 in to 59 in");
      // The others stand under their own heading. 500 mm are 19 in and 5.5 eighths.
      await press(page, "Read off the truck");
      await cases("tire to frame", ["-1/4", "20"], "From 0 in to 19 5/8 in");
      await type(page, HEIGHT, "12");
      // 0.05 mm are 0.13 of 64 parts of an inch, 10 mm 6.3 sixteenths.
      await cases("give or take", ["0", "1000 mm"], "From 1/64 in to 3/8 in");
      await press(page, "Remove the reading: Frame height");
      await type(page, "Caster, against the ground", "2");
      await cases("Swept each way, if by a sweep", ["0", "-20", "41"], "From 5.00° to 40.00°");
      // Emptied, it is again what it was; how well it was read as well.
      await (await field(page, "Caster, against the ground")).evaluate((input) => { input.focus(); input.select(); });
      await page.keyboard.press("Delete");
      await page.keyboard.press("Tab");
      await settled(page);
      assert.deepEqual(await state(page, "Caster, against the ground"), ["2.00°", "", null]);
      await press(page, "2 in spindle", ".which");
      // In the other unit the range is said in it.
      await press(page, "in: change to millimeters");
      await cases(HEIGHT, ["19"], "From 20.0 mm to 1500.0 mm");
      // A part's number no less.
      await openCard(page, "Dropped spindle");
      await cases("Drop, pin higher", ["4000"], "From −150.0 mm to 200.0 mm");
    });
  });
}
