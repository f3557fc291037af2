// A link over the person's own work: both are kept, compared, and answered.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { after, before, describe, test } from "node:test";
import { BIN, DESK, PHONE, URL_, code, drag, launch, firstLines, onPagesOf, open, press, readout, ready, said, settled, turnTo, type } from "./driver.mjs";

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

describe("what somebody sent", () => {
  const chips = (page) => firstLines(page, ".which .proposal");
  /** The panel that is open, which is so before what it shows has come. */
  const place = async (page) => (await firstLines(page, 'nav [aria-current="page"]'))[0];
  const chosen = async (page) => (await firstLines(page, '.which [aria-pressed="true"]'))[0];
  let two;
  before(async () => {
    // The same without the third plan, beside which there is no room.
    const { context, page } = await open(browser, { at: `#${theirs}` });
    await turnTo(page, "Compare");
    await press(page, "Remove Both ends");
    two = await code(page);
    await context.close();
  });
  /** Where a person has nothing of their own yet. */
  const sent = (viewport, name, body) => test(name, async () => {
    const { context, page, faults } = await open(browser, { viewport, at: `#${two}`, sheet: true });
    try {
      await body(page);
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
    }
  });

  sent(PHONE, "is a half sheet under the sketch: whose, which parts, and what to do", async (page) => {
    assert.equal(await page.$eval(".page", (whole) => whole.dataset.sheet), "half");
    assert.equal(await page.$eval(".theirs h2", (head) => head.textContent), "Somebody's plans for Juniper pickup");
    assert.deepEqual(await page.$$eval(".theirs .tape :is(b, li)", (all) => all.map((one) => one.textContent)), ["Deeper", "3 in spindle"]);
    const pane = await page.$eval(".pane", (one) => one.getBoundingClientRect().bottom);
    for (const button of await page.$$(".theirs .row button")) {
      assert.ok((await button.boundingBox()).y + 44 <= pane, "what there is to do needs no scrolling");
    }
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await press(page, "As it sits", ".which");
    await press(page, "3 in spindle", ".theirs");
    assert.equal(await chosen(page), "3 in spindle");
    assert.deepEqual(await page.$$eval(".theirs .tape :is(b, li)", (all) => all.map((one) => one.textContent)), ["3 in spindle"]);
    await press(page, "Lower");
    assert.equal(await page.$eval(".pane", (one) => one.checkVisibility()), false);
  });

  for (const viewport of [PHONE, DESK]) sent(viewport, `is answered by the first drag, which undo takes back, ${viewport.width} px wide`, async (page) => {
    const before = await chips(page);
    await drag(page, "wheel-centre", [[0, 8]]);
    assert.match(await said(page), /This is your answer/);
    assert.deepEqual((await chips(page)).sort(), [...before, "My answer"].sort());
    assert.equal(await chosen(page), "My answer");
    const mine = await readout(page, HEIGHT);
    assert.notEqual(mine, "8 13/16 in");
    await press(page, "Deeper", ".which");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in", "theirs is as it came");
    // Beside each other, and sent from there.
    await press(page, "My answer", ".which");
    await press(page, "Send my answer");
    assert.match(await page.$eval(".panels h2", (head) => head.textContent), /Send/);
    await press(page, "Undo", ".tools");
    assert.deepEqual(await chips(page), before);
    assert.equal(await chosen(page), "Deeper", "what was looked at before");
    await press(page, "Redo", ".tools");
    assert.deepEqual([await chosen(page), await readout(page, HEIGHT)], ["My answer", mine]);
    // And once more, after it was taken back.
    await press(page, "Undo", ".tools");
    await press(page, "Lower").catch(() => {});
    await drag(page, "wheel-centre", [[0, 8]]);
    assert.equal(await chosen(page), "My answer");
    // With three there is no room for a second one, which is said.
    await press(page, "Deeper", ".which");
    await drag(page, "wheel-centre", [[0, 8]]);
    assert.match(await said(page), /no room for another plan: what you change is theirs/);
  });

  sent(DESK, "is still an answer to it when the page was left in between, until that is removed", async (page) => {
    const again = async () => {
      await code(page);
      await page.reload();
      await ready(page);
    };
    const offered = () => page.$$eval(".panels button", (all) => all.some((one) => one.checkVisibility() && one.textContent === "Send my answer"));
    await type(page, "Drop, pin higher", "2");
    assert.equal(await place(page), "Parts");
    await again();
    assert.equal(await place(page), "Parts", "an answer is one's own");
    await turnTo(page, "Compare");
    assert.ok(await offered());
    await press(page, "Remove My answer");
    assert.equal(await offered(), false, "with the answer gone there is none to send");
    await press(page, "3 in spindle", ".which");
    await type(page, "Drop, pin higher", "1");
    assert.match(await said(page), /This is your answer/, "theirs is still known from one's own");
    assert.deepEqual((await chips(page)).sort(), ["3 in spindle", "Deeper", "My answer"]);
  });

  sent(DESK, "is theirs again when an answer was taken back and the link is opened once more", async (page) => {
    await type(page, "Drop, pin higher", "2");
    await code(page);
    await press(page, "Undo", ".tools");
    await code(page);
    await page.goto("about:blank");
    await page.goto(`${URL_}#${two}`);
    await ready(page);
    await page.waitForSelector(".theirs h2");
    assert.equal(await place(page), "From a link");
    assert.match(await page.$eval(".theirs h2", (head) => head.textContent), /^Somebody's plans/);
    await press(page, "I sent this myself", ".theirs");
    await page.reload();
    await ready(page);
    assert.equal(await place(page), "Parts", "what was once said is not asked again");
  });

  sent(DESK, "is answered by a typed number, and the next goes into the same answer", async (page) => {
    await type(page, "Drop, pin higher", "2");
    assert.equal(await chosen(page), "My answer");
    await type(page, "Drop, pin higher", "2 1/2");
    assert.deepEqual((await chips(page)).sort(), ["3 in spindle", "Deeper", "My answer"]);
    assert.equal(await readout(page, HEIGHT), "9 5/16 in");
    await press(page, "Deeper", ".which");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
  });

  test("says first what can hurt someone, and last what the rear does", async () => {
    const command = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input }).trim();
    const file = JSON.parse(command(["open", command(["link"]), "--format", "json"]));
    Object.assign(file.proposals[0], { rear_down: 25.4 });
    file.proposals[0].changes.push({ change: "joint_turned", place: "lower_joint_up", plate: 2, flange: 3, shift: 64 });
    file.opening.proposal = file.proposals[0].id;
    const at = `#${command(["link", "-"], JSON.stringify(file))}`;
    const { context, page } = await open(browser, { viewport: PHONE, at, sheet: true });
    const all = await page.$$eval(".theirs > *", (all) => all.map((one) => [one.className, one.textContent]));
    const [[, head], [first, words]] = all;
    assert.match(head, /^Somebody's plans for /);
    assert.equal(first, "danger", JSON.stringify(all));
    assert.match(words, /^Danger: /);
    const parts = await page.$$eval(".theirs .tape li", (all) => all.map((one) => one.textContent));
    assert.deepEqual([parts[0], parts.at(-1)], ["2 in spindle", "rear down 1 in"]);
    await context.close();
    // On a phone's side the sheet lies under the sketch: what is first in it is said above that.
    const side = { ...PHONE, width: 740, height: 360 };
    const { context: other, page: turned } = await open(browser, { viewport: side, at, sheet: true });
    await turned.waitForSelector(".notice.wrong");
    assert.equal((await said(turned)).replace("×", ""), words);
    await other.close();
    const { context: third, page: harmless } = await open(browser, { viewport: side, at: `#${two}`, sheet: true });
    await harmless.waitForSelector(".notice");
    assert.match(await said(harmless), /^What they sent is below the sketch/);
    await third.close();
  });

  sent(DESK, "keeps its plans whatever else was changed first, and each has an answer of its own", async (page) => {
    await turnTo(page, "Compare");
    await press(page, "Remove 3 in spindle");
    await turnTo(page, "Send");
    await type(page, "Name of this truck", "Seen at the yard");
    await type(page, "Drop, pin higher", "2");
    assert.deepEqual(await chips(page), ["Deeper", "My answer"]);
    await press(page, "Deeper", ".which");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    await type(page, "Drop, pin higher", "1");
    assert.deepEqual(await chips(page), ["Deeper", "My answer 2", "My answer"]);
    await press(page, "Deeper", ".which");
    assert.equal(await readout(page, HEIGHT), "8 13/16 in", "theirs is as it came");
  });

  sent(PHONE, "is come back to after it was lowered, and gone with undo", async (page) => {
    await press(page, "Lower");
    await press(page, "More", "nav");
    await press(page, "From a link", "nav");
    assert.match(await page.$eval(".theirs h2", (head) => head.textContent), /^Somebody's plans/);
    await press(page, "Undo", ".tools");
    assert.equal(await page.$(".theirs"), null, "the demo is nobody's");
    await press(page, "More", "nav");
    assert.ok(!(await page.$eval("nav", (nav) => nav.textContent)).includes("From a link"));
  });

  sent(PHONE, "begins one's own truck with their plan, and not with their words", async (page) => {
    await press(page, "Put it on my truck", ".theirs");
    assert.deepEqual((await chips(page)).sort(), ["3 in spindle", "Deeper"]);
    assert.equal(await page.$eval("h1", (title) => title.textContent), "Scrubline");
    await turnTo(page, "Compare");
    assert.ok(!(await page.$eval(".panels", (panel) => [...panel.querySelectorAll("button")].filter((one) => one.checkVisibility()).map((one) => one.textContent).join())).includes("Send my answer"));
  });

  on({ viewport: PHONE }, "goes onto one's own truck from there", async (page) => {
    await over(page);
    await press(page, "Put it on my truck", ".theirs");
    assert.deepEqual(await chips(page), ["1 in spindle", "Both ends", "Deeper"]);
    assert.equal(await chosen(page), "Deeper");
    assert.equal(await page.$eval(".page", (whole) => whole.dataset.sheet), "lowered");
  });

  on({ viewport: PHONE }, "and goes away for one's own", async (page) => {
    await over(page);
    await press(page, "Back to my truck", ".theirs");
    assert.equal(await chosen(page), "1 in spindle");
    assert.equal(await page.$eval(".page", (whole) => whole.dataset.sheet), "lowered");
  });
});
