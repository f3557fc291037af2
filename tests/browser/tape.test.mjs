// The one number that the cursor is in: its tape stands over its field, and what a finger has come to stays under it.

import assert from "node:assert/strict";
import { describe } from "node:test";
import { DESK, PHONE, axe, onPagesOf, press, runningBrowser, settled } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

/** What is left of a phone over its keyboard, CSS px. */
const OVER_KEYBOARD = 380;

const input = (key) => `[data-asks="${key}"] input`;

/** Where the field with the cursor is, and the tape with its picture and the keys under it, CSS px down the page. */
const stands = (page) => page.evaluate(() => {
  const box = (one) => {
    const { top, bottom, left, right } = one?.checkVisibility() ? one.getBoundingClientRect() : {};
    const seen = top !== undefined && one.contains(document.elementFromPoint((left + right) / 2, top + 1));
    return top === undefined ? null : { top, bottom, seen };
  };
  const here = document.activeElement;
  const field = here.closest("[data-asks]");
  return {
    key: field?.dataset.asks,
    marked: here.value?.slice(here.selectionStart, here.selectionEnd) === here.value,
    cursor: box(here),
    field: box(field),
    picture: box(document.querySelector(".taped")),
    over: field?.previousElementSibling?.className ?? "",
    tape: document.querySelector(".taped svg")?.getAttribute("aria-label"),
    keys: box(document.querySelector(".sixteenths")),
  };
});

/** A finger on a field that is in sight, and how far that went off under it. */
async function tap(page, key) {
  const middle = () => page.$eval(input(key), (one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2 };
  });
  const from = await middle();
  await page.touchscreen.tap(from.x, from.y);
  await settled(page);
  return (await middle()).y - from.y;
}

/** The fields in sight over which there is room for the picture. */
const roomy = (page) => page.$$eval("[data-asks] input", (all) => {
  const edge = document.querySelector(".grip").getBoundingClientRect().bottom;
  const seen = all.filter((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    const field = one.closest("[data-asks]").getBoundingClientRect();
    return field.top > edge + 150 && document.elementFromPoint(x + width / 2, y + height / 2) === one;
  });
  return seen.map((one) => one.closest("[data-asks]").dataset.asks);
});

/** The tape over the cursor's field, all of it in sight together even over a keyboard. */
async function taped(page, what) {
  const now = await stands(page);
  assert.match(now.tape ?? "", new RegExp(`${what}$`));
  assert.equal(now.over, "taped");
  assert.ok(now.picture.seen && now.cursor.seen, JSON.stringify(now));
  assert.ok(now.picture.bottom - now.picture.top <= 150, "a small picture");
  const low = now.keys?.bottom ?? now.field.bottom;
  assert.ok(low - now.picture.top <= OVER_KEYBOARD, `${low - now.picture.top} px over the keyboard`);
  return now;
}

describe("the tape at a number", () => {
  on({ viewport: PHONE }, "stands over the field that a finger comes to, which stays where it is", async (page) => {
    await press(page, "Put in my truck", ".first");
    await taped(page, "Tire, section width");
    for (let at = 0; at < 6; at += 1) {
      const keys = await roomy(page);
      const key = keys[at % keys.length];
      const off = await tap(page, key);
      assert.ok(Math.abs(off) <= 1, `${key} went ${off} px`);
      const now = await stands(page);
      assert.equal(now.key, key);
      assert.ok(now.marked && now.picture.seen, JSON.stringify(now));
    }
    // Without room over it the field goes down as far as the picture needs.
    const other = (await stands(page)).key === "droop_left" ? "bump_gap" : "droop_left";
    await page.$eval(`[data-asks="${other}"]`, (field) => {
      const edge = document.querySelector(".grip").getBoundingClientRect().bottom;
      document.querySelector(".pane").scrollTop += field.getBoundingClientRect().top - edge - 20;
    });
    assert.ok(await tap(page, other) > 1);
    await taped(page, other === "bump_gap" ? "daylight" : "Droop travel");
    assert.deepEqual(await axe(page), []);
  });

  on({ viewport: PHONE }, "goes on by Enter, Next and Skip, and is gone where no view shows the number", async (page) => {
    await press(page, "Put in my truck", ".first");
    await page.keyboard.type("205/70R14");
    await page.keyboard.press("Enter");
    await settled(page);
    await taped(page, "Frame height");
    await page.keyboard.type("11");
    await press(page, "1/2", ".sixteenths");
    await taped(page, "straight up");
    // What was typed is not kept, and the cursor is in the next one.
    await page.keyboard.type("5");
    await press(page, "Skip", ".sixteenths");
    assert.equal((await taped(page, "Droop travel")).marked, true);
    assert.equal(await page.$eval(input("fender_above_tire"), (one) => one.value), "");
    await press(page, "Next", ".sixteenths");
    await taped(page, "Daylight at the bump stop, at rest");
    await press(page, "2. The arms from the front");
    for (const [key, what] of [["lower_ball_y", "Lower ball, from the centerline"], ["lower_front_z", "front pivot, above the ground"]]) {
      await page.focus(input(key));
      await settled(page);
      assert.ok((await taped(page, what)).marked, key);
    }
    await page.focus(input("camber"));
    await settled(page);
    assert.equal((await stands(page)).picture, null, "an angle has no tape");
  });

  on({ viewport: PHONE }, "goes on by the same keys in millimeters, which have no sixteenths", async (page) => {
    await press(page, "in: change to millimeters");
    await press(page, "Put in my truck", ".first");
    await page.keyboard.type("205/70R14");
    await page.keyboard.press("Enter");
    await settled(page);
    await page.keyboard.type("292");
    const shown = await page.$$eval(".sixteenths button", (all) => all.filter((key) => key.checkVisibility()).map((key) => key.textContent));
    assert.deepEqual(shown, ["Skip", "Next"]);
    await press(page, "Next", ".sixteenths");
    await taped(page, "straight up");
    await press(page, "Skip", ".sixteenths");
    await taped(page, "Droop travel");
    assert.equal(await page.$eval(input("ride_height"), (one) => one.value), "292.0 mm");
  });

  on({ viewport: PHONE }, "a number that cannot be keeps what was typed, says the range and keeps the cursor", async (page) => {
    await press(page, "Put in my truck", ".first");
    await press(page, "2. The arms from the front");
    await page.focus(input("lower_ball_y"));
    const guess = await page.$eval(input("lower_ball_y"), (one) => one.value);
    await page.keyboard.type("99");
    await press(page, "Next", ".sixteenths");
    const said = () => page.$eval('[data-asks="lower_ball_y"] .echo', (one) => one.textContent);
    assert.match(await said(), /^From 4 in to 51 1\/8 in$/, "100 to 1300 mm, to the eighth that is inside");
    assert.deepEqual(await page.evaluate(() => [document.activeElement.value, document.activeElement.getAttribute("aria-invalid")]), ["99", "true"]);
    assert.equal((await stands(page)).key, "lower_ball_y");
    await press(page, "Skip", ".sixteenths");
    assert.deepEqual([await said(), (await stands(page)).key], ["", "lower_ball_z"]);
    assert.equal(await page.$eval(input("lower_ball_y"), (one) => one.value), guess);
  });

  on({ viewport: DESK }, "stands over the field at a desk too, under no edge", async (page) => {
    await press(page, "Put in my truck", ".first");
    await press(page, "2. The arms from the front");
    for (const key of ["upper_rear_z", "lower_ball_y", "wheel_centre_z"]) {
      await page.focus(input(key));
      await settled(page);
      const now = await stands(page);
      assert.ok(now.picture.seen && now.cursor.seen && now.over === "taped", `${key} ${JSON.stringify(now)}`);
      assert.equal(now.keys, null, "who has keys types a slash");
    }
  });
});
