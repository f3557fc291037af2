// Parts by what is in the hand: how many touches, where the cursor is, and what stays in sight.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, add, axe, code, frontAlone, number, onPagesOf, openCard, press, readout, remove, runningBrowser, settled, takeUp, turnTo } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

const lines = (page) => page.$$eval(".lines button", (all) => all.map((one) => one.textContent));

/** The changes of the plan on the sketch, as the command reads them from the address. */
async function planned(page) {
  const file = JSON.parse(execFileSync(BIN, ["open", await code(page), "--format", "json"], { encoding: "utf8" }));
  return file.proposals[0].changes.map(({ change, place, ...numbers }) => ({ change: place ? `${change} ${place}` : change, ...numbers }));
}

/** Waits until what is asked for is this: the address follows an edit when it has time. */
async function until(ask, wanted) {
  const end = Date.now() + 10000;
  let now = await ask();
  while (Date.now() < end && JSON.stringify(now) !== JSON.stringify(wanted)) now = await ask();
  assert.deepEqual(now, wanted);
}

/** Waits until the plan's changes are these, whatever their numbers. */
const holds = (page, kinds) => until(async () => (await planned(page)).map(({ change }) => change).sort(), kinds);

/** The field that the cursor is in: its name, and whether all of its text is marked. */
const cursor = (page) => page.evaluate(() => {
  const input = document.activeElement;
  const name = input.closest(".number")?.querySelector(".name").firstChild.textContent ?? null;
  return { name, marked: name !== null && input.selectionStart === 0 && input.selectionEnd === input.value.length };
});

/** Of what is to be seen all that nobody sees whole: under something else, or out of the window. */
const unseen = (page, selector) => page.$$eval(selector, (all) => all.filter((one) => one.checkVisibility()).filter((one) => {
  const box = one.getBoundingClientRect();
  const over = (x, y) => one.contains(document.elementFromPoint(x, y));
  return !(box.top >= 0 && box.bottom <= innerHeight && over(box.x + box.width / 2, box.y + 3) && over(box.x + box.width / 2, box.bottom - 3));
}).map((one) => one.textContent || one.className));

describe("parts by what is in the hand", () => {
  on({ viewport: PHONE, at: frontAlone() }, "all stand over the bar at half height, with sketch and tiles in sight", async (page) => {
    await turnTo(page, "Parts");
    const names = await page.$$eval(".hands button", (all) => all.map((one) => one.textContent));
    assert.deepEqual(names, ["Spindle", "Arms and rods", "Flip a ball joint", "Bar or spring", "Shims", "Tire and wheel", "Stop and shock", "Brakes", "Rear"]);
    assert.deepEqual(await unseen(page, ".hands button, .lines button, .which button, .bar button"), []);
    assert.equal(await page.$eval(".pane", (pane) => pane.scrollTop), 0);
    const boxes = await page.$$eval(".sketch, .readout", (all) => all.filter((one) => one.checkVisibility()).map((one) => one.getBoundingClientRect().toJSON()));
    assert.equal(boxes.length, 4);
    assert.ok(boxes[0].height > 150, `${boxes[0].height} px of sketch`);
    assert.ok(boxes.every((box) => box.bottom <= PHONE.height), JSON.stringify(boxes));
    assert.deepEqual(await lines(page), ["2 in spindle"]);
    assert.deepEqual(await axe(page), []);
  });

  for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
    on({ viewport }, `a part's card says how many of its places were asked about, and leads to them, on a ${name}`, async (page) => {
      await openCard(page, "Dropped spindle");
      // Both studs, the caliper's ears and the lock stop: the knuckle's four rows of the usual swap.
      await press(page, "Bolts up: 0 of 4 asked", ".card");
      assert.equal(await page.$eval(".bolt select", (menu) => menu.selectedOptions[0].textContent), "knuckle");
      assert.equal((await page.$$(".mates > li")).length, 4);
      // It is asked for once: come to by the list of places the ledger is whole.
      await turnTo(page, "Parts");
      await turnTo(page, "Bolts up");
      assert.ok((await page.$$(".mates > li")).length > 30);
    });

    on({ viewport, at: frontAlone() }, `what was only looked at is not on the plan, and what was typed is, on a ${name}`, async (page) => {
      await turnTo(page, "Parts");
      const start = await planned(page);
      if (await page.$eval(".parts", (panel) => !panel.querySelector(".hands"))) await press(page, "All parts", ".parts");
      await press(page, "Stop and shock", ".hands");
      await press(page, "All parts", ".parts");
      assert.deepEqual(await lines(page), ["2 in spindle"]);
      await until(() => planned(page), start);
      assert.match(await page.$eval(".notices", (all) => all.textContent), /^Nothing was entered/);
      await press(page, "Undo", ".notices");
      assert.equal((await lines(page)).length, 2, "whoever has just that part takes it back");
      // As it began, but typed.
      await press(page, "Shims", ".hands");
      await page.keyboard.press("End");
      await page.keyboard.type(" ");
      await page.keyboard.press("Enter");
      await press(page, "All parts", ".parts");
      assert.equal((await lines(page)).length, 3);
    });

    on({ viewport, at: frontAlone() }, `a touch has the cursor in the main number, the rest is folded, on a ${name}`, async (page) => {
      await turnTo(page, "Parts");
      await press(page, "Spindle", ".hands");
      // Of what is on the plan already no second one.
      await until(async () => (await planned(page)).map(({ change, drop }) => [change, drop]), [["dropped_spindle", 50.8]]);
      assert.deepEqual(await cursor(page), { name: "Drop, pin higher on the knuckle", marked: true });
      const seen = await page.$$eval(".parts .card .number .name", (all) => all.filter((one) => one.checkVisibility()).map((one) => one.firstChild.textContent));
      assert.deepEqual(seen, ["Drop, pin higher on the knuckle"]);
      // The first key replaces what stood there.
      await page.keyboard.type("1");
      await page.keyboard.press("Enter");
      await settled(page);
      assert.equal(await readout(page, "Frame height"), "10 13/16 in");
      await press(page, "All parts");
      assert.deepEqual(await lines(page), ["1 in spindle"]);
      // A line opens the same card.
      await press(page, "1 in spindle", ".lines");
      assert.equal((await cursor(page)).name, "Drop, pin higher on the knuckle");
      // What is not there yet is put on by the touch itself, and taken off again by one undo.
      await until(async () => (await planned(page)).map(({ drop }) => drop), [25.4]);
      const before = await code(page);
      await press(page, "All parts");
      await press(page, "Stop and shock", ".hands");
      await holds(page, ["dropped_spindle", "stop_trim"]);
      assert.equal((await cursor(page)).name, "Lower");
      await press(page, "Undo");
      await until(() => code(page), before);
    });

    on({ viewport, at: frontAlone() }, `something else of a hand comes instead of what nobody has touched, on a ${name}`, async (page) => {
      await remove(page, "Dropped spindle");
      await add(page, "Knuckle swap");
      await holds(page, ["knuckle_swap"]);
      assert.equal((await cursor(page)).name, "Ball to ball, longer");
      // What has a number of its own stays.
      await remove(page, "Knuckle swap");
      await takeUp(page, "Bar adjuster");
      await page.keyboard.type("-2");
      await page.keyboard.press("Enter");
      await settled(page);
      await press(page, "Something else", ".parts");
      await press(page, "Add Bar re-index", ".parts");
      await holds(page, ["bar_adjuster", "bar_reindex"]);
    });

    on({ viewport, at: frontAlone() }, `one switch turns a ball joint over, and back, on a ${name}`, async (page) => {
      const height = () => readout(page, "Frame height");
      const before = [await code(page), await height()];
      await takeUp(page, "Turn upper ball joint");
      const named = "Turn upper ball joint, to the underside of its plate";
      const state = () => page.$eval(`[aria-label="${named}"]`, (one) => one.getAttribute("aria-checked"));
      assert.equal(await state(), "false");
      await press(page, named);
      assert.equal(await state(), "true");
      await holds(page, ["dropped_spindle", "joint_turned upper_joint_down"]);
      await press(page, named);
      assert.deepEqual([await state(), await height()], ["false", before[1]]);
      await until(() => code(page), before[0]);
      // On the arm with the spring the bolts then carry the truck: said before anything else of the panel.
      await press(page, "Turn lower ball joint, to the top of its plate");
      assert.match(await page.$eval(".parts .remark", (one) => one.textContent), /bolts/);
      assert.deepEqual(await axe(page), []);
    });

    on({ viewport, at: frontAlone() }, `of what another truck's arm differs in the length is asked first, on a ${name}`, async (page) => {
      await add(page, "Another upper arm");
      assert.equal((await cursor(page)).name, "Axis to ball, longer");
      await page.keyboard.type("15/32");
      await page.keyboard.press("Enter");
      await settled(page);
      await holds(page, ["arm_swap upper_arm", "dropped_spindle"]);
      const arm = (await planned(page)).find(({ change }) => change === "arm_swap upper_arm");
      assert.ok(Math.abs(arm.longer - (25.4 * 15) / 32) < 0.006, JSON.stringify(arm));
      assert.ok(number(await readout(page, "Camber")) > 0, "a longer upper arm leans the wheel out at the top");
      await press(page, "All parts");
      assert.deepEqual(await lines(page), ["2 in spindle", "upper arm 15/32 in longer"]);
    });
  }

  on({ viewport: PHONE, at: frontAlone() }, "what can hurt someone stays in sight over the number that the cursor is in", async (page) => {
    await turnTo(page, "Parts");
    await press(page, "Bar or spring", ".hands");
    await until(async () => (await cursor(page)).name, "Turns of the bolt, + in, raises");
    await settled(page);
    assert.match(await page.$eval(".parts .danger", (one) => one.textContent), /^A torsion bar can kill: /);
    assert.deepEqual(await unseen(page, ".parts .danger, .parts .card .entry"), []);
  });

  on({ viewport: PHONE }, "is one touch on a truck that has no plan yet", async (page) => {
    await press(page, "Put in my truck", ".first");
    await turnTo(page, "Parts");
    await press(page, "Spindle", ".hands");
    await until(async () => (await planned(page)).map(({ change, drop }) => [change, drop]), [["dropped_spindle", 50.8]]);
    assert.equal((await cursor(page)).name, "Drop, pin higher on the knuckle");
  });
});
