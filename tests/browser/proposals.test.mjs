// Proposals beside each other.

import assert from "node:assert/strict";
import { describe } from "node:test";
import { DESK, PHONE, code, drag, frontAlone, firstLines, number, onPagesOf, open, press, readout, runningBrowser, said, settled, spot, spread, turnTo, type } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

const columns = (page) => page.$$eval(".compare thead th", (heads) => heads.map((head) => head.textContent));

/** The numbers and notes of a row of the table. */
const row = (page, name) => page.$$eval(".compare tbody", (groups, wanted) => {
  const group = groups.find((found) => found.querySelector("th").textContent.startsWith(wanted));
  return [...group.querySelectorAll("td:not([colspan])")].map((cell) => [cell.querySelector("b").textContent, cell.querySelector("small:not(.spread)").textContent]);
}, name);

/** Names the proposal that is chosen in Compare. */
async function named(page, name) {
  await page.$eval(".card.chosen input", (input) => { input.focus(); input.select(); });
  if (name) await page.keyboard.type(name);
  else await page.keyboard.press("Delete");
  await page.keyboard.press("Enter");
  await page.evaluate(() => document.activeElement.blur());
  await settled(page);
}

const chips = (page) => firstLines(page, ".which .choices button");

describe("proposals", () => {
  for (const viewport of [DESK, PHONE]) {
    on({ viewport, at: frontAlone() }, `are called by their parts until they are named, ${viewport === PHONE ? "phone" : "desk"}`, async (page) => {
      assert.deepEqual(await chips(page), ["As it sits", "2 in spindle"]);
      await type(page, "Drop, pin higher", "2 1/2");
      assert.deepEqual(await chips(page), ["As it sits", "2 1/2 in spindle"]);
      await press(page, "in");
      assert.deepEqual(await chips(page), ["As it sits", "63.5 mm spindle"]);
      await press(page, "mm");
      await turnTo(page, "Compare");
      await named(page, "Low");
      await turnTo(page, "Parts");
      await type(page, "Drop, pin higher", "3");
      assert.deepEqual(await chips(page), ["As it sits", "Low"], "a name that was given stays");
      await turnTo(page, "Compare");
      await named(page, "");
      assert.deepEqual(await chips(page), ["As it sits", "3 in spindle"], "without it the parts say it again");
      assert.equal((await columns(page))[1], "3 in spindle");
    });
  }

  on({ viewport: PHONE, at: frontAlone() }, "keep what they are called while a finger is down", async (page) => {
    const from = await spot(page, "upper-axis");
    await page.touchscreen.touchStart(from.x, from.y);
    for (let step = 1; step <= 6; step += 1) await page.touchscreen.touchMove(from.x, from.y - 2 * step);
    await settled(page);
    assert.deepEqual(await chips(page), ["As it sits", "2 in spindle"]);
    await page.touchscreen.touchEnd();
    await settled(page);
    const whole = /^2 in spindle, upper pivots .* in (up|outward|inward)$/;
    assert.match((await chips(page))[1], whole, "the one on the sketch says all of it");
    await press(page, "As it sits", ".which");
    assert.deepEqual(await chips(page), ["As it sits", "2 in spindle + 1 more"]);
    await turnTo(page, "Compare");
    assert.match((await columns(page))[1], whole);
  });

  on({ viewport: PHONE }, "say under their name what they are made of, on the sketch alone, and within its choice", async (page) => {
    const said = () => page.$$eval(".which .choices button", (all) => all.map((one) => one.textContent));
    assert.deepEqual(await said(), ["As it sits", "2 in spindle", "Both ends"]);
    const high = () => page.$$eval(".which, .sketch", (all) => all.map((one) => one.getBoundingClientRect().height));
    const before = await high();
    await press(page, "Both ends", ".which");
    assert.deepEqual(await said(), ["As it sits", "2 in spindle", "Both ends\n2 in spindle, 2 in rear block, 1/2 in off the rear stop"]);
    assert.deepEqual(await high(), before, "and nothing moves for it");
  });

  on({ viewport: DESK, at: frontAlone() }, "are duplicated, named, sorted, and removed with an undo", async (page) => {
    await turnTo(page, "Compare");
    const start = await code(page);
    await press(page, "Duplicate 2 in spindle");
    assert.deepEqual(await columns(page), ["As it sits", "2 in spindle", "2 in spindle (2)"], "two alike can be told apart");
    await named(page, "Second");
    assert.deepEqual(await columns(page), ["As it sits", "2 in spindle", "Second"]);
    await press(page, "Add a plan");
    assert.equal((await columns(page)).length, 4);
    assert.equal(await page.$eval(".panel > button", (add) => add.disabled), true, "three are all there can be");
    await press(page, "Move up: Second");
    assert.deepEqual((await columns(page)).slice(1, 3), ["Second", "2 in spindle"]);
    const three = await code(page);
    const { context, page: stranger } = await open(running.browser, { viewport: PHONE, at: `#${three}` });
    await turnTo(stranger, "Compare");
    assert.deepEqual(await columns(stranger), await columns(page), "order and names travel with the link");
    await context.close();
    await press(page, "Remove Second");
    assert.match(await said(page), /^The plan was removed\./);
    assert.equal((await columns(page)).length, 3);
    await press(page, "Undo", ".notices");
    assert.equal(await said(page), "", "what was undone is no longer said");
    assert.equal(await code(page), three);
    await press(page, "Remove Second");
    await press(page, `Move up: ${(await columns(page)).at(-1)}`);
    assert.equal(await said(page), "", "Undo beside it would take back another edit");
    for (let times = 0; times < 2; times += 1) await press(page, "Undo");
    assert.equal(await code(page), three);
    for (let times = 0; times < 4; times += 1) await press(page, "Undo");
    await press(page, "2 in spindle", ".which");
    assert.equal(await code(page), start);
  });

  on({ viewport: DESK, at: frontAlone() }, "say what each gives and takes, as the readouts do", async (page) => {
    await turnTo(page, "Compare");
    await press(page, "Duplicate 2 in spindle");
    await turnTo(page, "Parts");
    await type(page, "Drop, pin higher", "3");
    const height = await readout(page, "Frame height");
    const camber = await readout(page, "Camber");
    const bump = await spread(page, "Hits first");
    await turnTo(page, "Compare");
    const heights = await row(page, "Frame height");
    assert.deepEqual(heights.map(([, note]) => note), ["as it sits", "2 in lower", "3 in lower"]);
    assert.equal(heights[2][0], height);
    assert.equal((await row(page, "Camber"))[2][0], camber);
    assert.equal(`bump ${(await row(page, "Bump travel"))[2][0]}`, bump);
    // A spindle lowers the body by its drop and leaves camber and the spring's frequency alone.
    assert.deepEqual((await row(page, "Camber")).map(([, note]) => note), ["as it sits", "as it sits", "as it sits"]);
    assert.equal((await row(page, "Ride frequency"))[2][1], "as it sits");
    // The nose sinks, so caster against the ground is lost, more with the larger drop.
    const caster = (await row(page, "Caster")).map(([value]) => Number.parseFloat(value.replace("−", "-").replace("~", "")));
    assert.ok(caster[0] > caster[1] && caster[1] > caster[2], caster.join());
    const room = await row(page, "Tire to fender");
    assert.match(room[1][1], /less$/);
  });

  on({ viewport: DESK, at: frontAlone() }, "are drawn together in the curve, each under its name", async (page) => {
    await turnTo(page, "Compare");
    await press(page, "Duplicate 2 in spindle");
    await press(page, "As it sits", ".which");
    await press(page, "Curves", ".below");
    const names = await page.$eval(".below .frame", (frame) => frame.textContent);
    for (const name of ["as it sits", "2 in spindle", "2 in spindle (2)"]) assert.ok(names.includes(name), `${name} in ${names}`);
  });

  on({ viewport: DESK, at: frontAlone() }, "follow a drag of what was measured, all of them", async (page) => {
    await turnTo(page, "Compare");
    await press(page, "Duplicate 2 in spindle");
    await press(page, "As it sits", ".which");
    const before = await row(page, "Camber gained");
    await drag(page, "upper-axis", [[0, 12]]);
    const after = await row(page, "Camber gained");
    // By hand: pivots let down by h turn the arm of length L by h/L, and in bump the ball then goes in by that much more
    // of each inch.
    for (const at of [0, 1, 2]) assert.ok(number(after[at][0]) < number(before[at][0]) - 0.1, `column ${at}: ${before[at][0]}, then ${after[at][0]}`);
  });

  on({ viewport: PHONE, at: frontAlone() }, "can be read on a phone: nothing is cut, nothing under 11 px", async (page) => {
    await turnTo(page, "Compare");
    await press(page, "Duplicate 2 in spindle");
    await press(page, "Add a plan");
    await settled(page);
    const seen = await page.$eval(".scroll", (scroll) => ({
      over: scroll.scrollWidth - scroll.clientWidth,
      small: [...scroll.querySelectorAll("b, small, th")].filter((text) => Number.parseFloat(getComputedStyle(text).fontSize) < 11).length,
      wide: [...scroll.querySelectorAll("td")].filter((cell) => cell.scrollWidth > cell.clientWidth).map((cell) => cell.textContent),
    }));
    assert.deepEqual(seen, { over: 0, small: 0, wide: [] });
  });
});
