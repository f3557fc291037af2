// A link over the person's own work: both are kept, compared, and answered.

import assert from "node:assert/strict";
import { after, before, describe } from "node:test";
import { DESK, PHONE, URL_, code, launch, firstLines, onPagesOf, open, press, readout, ready, said, settled, turnTo, type } from "./driver.mjs";

let browser;
let theirs;
const HEIGHT = "Frame height";

before(async () => {
  browser = await launch();
  // Somebody else's answer: three inches, and half a turn less on the bolt.
  const { context, page } = await open(browser);
  await type(page, "Drop, pin higher", "3");
  await turnTo(page, "Compare");
  await press(page, "Duplicate 3 in spindle");
  await page.$eval(".card.chosen input", (input) => { input.focus(); input.select(); });
  await page.keyboard.type("Deeper");
  await page.keyboard.press("Enter");
  await page.evaluate(() => document.activeElement.blur());
  await settled(page);
  theirs = await code(page);
  await context.close();
});
after(() => browser?.close());

const on = onPagesOf(() => browser);

const list = (page) => page.$$eval(".beside li", (lines) => lines.map((line) => line.textContent));

/** Work of one's own, then the link in the same tab. */
async function over(page) {
  await type(page, "Drop, pin higher", "1");
  const own = await code(page);
  await page.evaluate((text) => { location.hash = text; }, theirs);
  await page.waitForSelector(".notice");
  return own;
}

describe("a link over one's own work", () => {
  on({ viewport: DESK }, "keeps both, also when the page is left in between", async (page) => {
    const own = await over(page);
    assert.match(await said(page), /Your own design is kept/);
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await code(page);
    await page.reload();
    await ready(page);
    await turnTo(page, "Send");
    await press(page, "Show mine");
    assert.equal(await code(page), own);
    await page.reload();
    await ready(page);
    await turnTo(page, "Send");
    await press(page, "Show the link's");
    assert.equal(await code(page), theirs);
  });

  on({ viewport: DESK }, "opened from elsewhere keeps what was here on an earlier visit", async (page) => {
    await type(page, "Drop, pin higher", "1");
    const own = await code(page);
    await page.goto("about:blank");
    await page.goto(`${URL_}#${theirs}`);
    await ready(page);
    assert.match(await said(page), /Your own design is kept/);
    await turnTo(page, "Send");
    await press(page, "Show mine");
    assert.equal(await code(page), own);
  });

  on({ viewport: PHONE }, "says what the link changes, yours first", async (page) => {
    await over(page);
    await turnTo(page, "Send");
    assert.deepEqual(await list(page), ["1 in spindle, Dropped spindle: 1 in → 3 in", "Only the link's: Deeper"]);
  });

  on({ viewport: DESK }, "gives one of its proposals, and the answer is a link of one's own", async (page) => {
    await over(page);
    await turnTo(page, "Send");
    await press(page, "Take “Deeper” into mine");
    const plans = ".which button:not([hidden])";
    const which = await firstLines(page, plans);
    assert.deepEqual(which, ["As it sits", "1 in spindle", "Both ends", "Deeper"]);
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await press(page, "1 in spindle", ".which");
    assert.equal(await readout(page, HEIGHT), "10 13/16 in", "one's own is as it was");
    const answer = await page.$eval("textarea.code", (area) => area.value);
    const { context, page: other } = await open(browser, { at: `#${answer.split("#").pop()}` });
    assert.deepEqual(await firstLines(other, plans), which);
    await context.close();
    for (const words of ["Take “Deeper” into mine", "Take “Deeper” into mine"]) await press(page, words);
    assert.match(await said(page), /no more than three/, "what does not fit is said");
    await press(page, "Drop the link's");
    assert.equal(await page.$(".beside *"), null);
  });

  on({ viewport: DESK }, "undone, brings back the plan that was chosen with its travel and steer", async (page) => {
    const { context, page: sender } = await open(browser);
    await press(sender, "As it sits", ".which");
    const measured = await code(sender);
    await context.close();
    await type(page, "Drop, pin higher", "1");
    for (const [slider, arrow] of [["#travel", "ArrowRight"], ["#steer", "ArrowLeft"]]) {
      await page.focus(slider);
      for (let times = 0; times < 9; times += 1) await page.keyboard.press(arrow);
    }
    const own = await code(page);
    const sliders = () => page.$$eval(".slider output", (all) => all.map((one) => one.textContent));
    assert.deepEqual(await sliders(), ["3/8 in", "9° left"]);
    await page.evaluate((text) => { location.hash = text; }, measured);
    await page.waitForSelector(".notice");
    assert.equal(await readout(page, HEIGHT), "11 13/16 in");
    assert.deepEqual(await sliders(), ["0 in", "0°"]);
    await press(page, "Undo");
    assert.equal(await readout(page, HEIGHT), "10 13/16 in");
    assert.deepEqual(await sliders(), ["3/8 in", "9° left"]);
    assert.equal(await code(page), own);
    await press(page, "Redo");
    assert.equal(await readout(page, HEIGHT), "11 13/16 in");
    assert.equal(await code(page), measured);
  });

  on({ viewport: DESK }, "is no matter over the demo, nor when it is one's own", async (page) => {
    await page.evaluate((text) => { location.hash = text; }, theirs);
    await page.waitForSelector(".notice");
    assert.match(await said(page), /^Opened/);
    await turnTo(page, "Send");
    assert.equal(await page.$(".beside *"), null);
    await press(page, "Undo");
    await press(page, "2 in spindle", ".which");
    assert.equal(await readout(page, HEIGHT), "9 13/16 in");
  });
});
