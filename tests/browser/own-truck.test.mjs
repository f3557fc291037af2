// From a first visit to an answer about one's own truck: touches and keys are counted, and nothing is pressed that
// is covered. What is typed differs from every guess, and the answers are hand arithmetic: a dropped spindle lowers
// frame and fender by its drop, whatever else is guessed.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe, test } from "node:test";
import { BIN, DESK, PHONE, code, hit, onPagesOf, press, readout, runningBrowser, settled, turnTo } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

/** As a person would type them: the size from the sidewall, then frame to floor and tire to lip, inches. */
const SIZE = "205/70R14";
const [FRAME, LIP] = ["11 1/2", "5 1/4"];

/** A person who counts. */
class Counted {
  count = 0;

  constructor(page) {
    this.page = page;
  }

  async touch(words, within) {
    await press(this.page, words, within);
    this.count += 1;
  }

  async type(text) {
    await this.page.keyboard.type(text);
    await this.page.keyboard.press("Enter");
    await settled(this.page);
    this.count += text.length + 1;
  }
}

/** The row of the comparison with this name: as it sits, then the plan. */
const row = (page, name) => page.$$eval(".compare tbody tr", (rows, wanted) => {
  const at = rows.findIndex((one) => one.querySelector("th")?.firstChild.textContent.trim() === wanted);
  return [...rows[at + 1].querySelectorAll("td b")].map((cell) => cell.textContent);
}, name);

/** The frame height of what is on the sketch, once it is found that no guess moves it. */
const certain = (page, height) => page.waitForFunction(
  (wanted) => document.querySelector(".readout b").textContent === wanted, { timeout: 60000 }, height);

/** What the command says of the truck in the page's address. */
async function told(page) {
  const report = execFileSync(BIN, ["report", await code(page), "--format", "json", "--units", "in"], { encoding: "utf8" });
  return JSON.parse(report).trucks;
}

describe("one's own truck", () => {
  on({ viewport: PHONE }, "says how low it will sit and what is left over the tire after 35 touches and keys", async (page) => {
    const person = new Counted(page);
    await person.touch("Put in my truck", ".first");
    await hit(page, await page.$(".five input"));
    person.count += 1;
    await person.type(SIZE);
    await person.type(FRAME);
    await person.type(LIP);
    assert.match(await page.$eval(".five header", (head) => head.textContent), /3 of 5/);
    await person.touch("Parts", ".bar");
    await person.touch("Add a plan");
    await person.touch("Add Dropped spindle");
    await person.touch("Compare", ".bar");
    assert.ok(person.count <= 35, `${person.count} touches and keys`);
    await certain(page, "9 1/2 in");
    assert.deepEqual(await row(page, "Frame height"), ["11 1/2 in", "9 1/2 in"]);
    assert.deepEqual(await row(page, "Top of the tire to the fender lip, straight up"), ["5 1/4 in", "3 1/4 in"]);
    const [sits, plan] = await told(page);
    assert.ok(Math.abs(sits.ride_height_in - 11.5) < 1e-9 && Math.abs(plan.ride_height_in - 9.5) < 1e-9, JSON.stringify([sits, plan]));
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), PHONE.width);
  });

  on({ viewport: DESK }, "says the same by keys alone", async (page) => {
    const to = async (words, most) => {
      for (let tabs = 0; tabs < most; tabs += 1) {
        await page.keyboard.press("Tab");
        const here = await page.evaluate(() => document.activeElement.getAttribute("aria-label") ?? document.activeElement.textContent.trim());
        if (here === words) return;
      }
      assert.fail(`"${words}" is no ${most} tabs away`);
    };
    await to("Put in my truck", 12);
    await page.keyboard.press("Enter");
    await settled(page);
    await page.$eval(".five input", (input) => input.focus());
    for (const text of [SIZE, FRAME, LIP]) {
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
      await settled(page);
    }
    await certain(page, "11 1/2 in");
    await turnTo(page, "Parts");
    await press(page, "Add a plan");
    await press(page, "Add Dropped spindle");
    await certain(page, "9 1/2 in");
  });

  on({ viewport: PHONE }, "keeps a size that is none, and says what is wrong with it", async (page) => {
    await press(page, "Put in my truck", ".first");
    await hit(page, await page.$(".five input"));
    await page.keyboard.type("205/70R99");
    await page.keyboard.press("Enter");
    await settled(page);
    assert.match(await page.$eval(".five .echo.wrong", (echo) => echo.textContent), /between 8 and 26/);
    assert.equal(await page.$eval(".five input", (input) => input.value), "205/70R99");
    assert.match(await page.$eval(".five header", (head) => head.textContent), /0 of 5/);
  });

  on({ viewport: PHONE }, "stands in a sheet that the bar, the grip and Back lower", async (page) => {
    const sheet = () => page.$eval(".page", (whole) => whole.dataset.sheet);
    const seen = () => page.$eval(".sketch", (sketch) => sketch.checkVisibility());
    assert.equal(await sheet(), "lowered");
    await press(page, "Parts", ".bar");
    assert.deepEqual([await sheet(), await seen()], ["half", true]);
    await press(page, "Parts", ".bar");
    assert.equal(await sheet(), "lowered", "a second touch");
    await press(page, "My truck", ".bar");
    assert.deepEqual([await sheet(), await seen()], ["full", false]);
    await press(page, "Show the sketch");
    assert.deepEqual([await sheet(), await seen()], ["half", true]);
    await press(page, "Lower");
    assert.equal(await sheet(), "lowered");
    // An edit under a raised sheet is not lost on the way back, nor taken for somebody's link.
    await press(page, "Parts", ".bar");
    await press(page, "More: Drop, pin higher on the knuckle");
    const mine = await code(page);
    await page.goBack();
    await settled(page);
    assert.equal(await sheet(), "lowered", "Back");
    assert.equal(await code(page), mine);
    assert.equal(await readout(page, "Frame height"), "9 3/4 in");
    await page.goForward();
    await settled(page);
    assert.deepEqual([await sheet(), await code(page)], ["half", mine]);
  });
});
