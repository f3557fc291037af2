// From a first visit to answers about one's own truck: touches and keys are counted, and nothing is pressed that
// is covered. What is typed differs from every guess. Of the first stage the answers are hand arithmetic: a dropped
// spindle lowers frame and fender by its drop, whatever else is guessed; of the second they are the command's.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe, test } from "node:test";
import { BIN, DESK, PHONE, code, hit, number, onPagesOf, press, readout, runningBrowser, settled, turnTo } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

/** As a person would type them: the size from the sidewall, then frame to floor and tire to lip, inches. */
const SIZE = "205/70R14";
const [FRAME, LIP] = ["11 1/2", "5 1/4"];

/** The rest of the first stage, and the whole of the second, each by the name of its field; inches, and degrees of camber. */
const NUMBERS = {
  "Frame height": FRAME,
  "Top of the tire to the fender lip, straight up": LIP,
  "Droop travel": "3 1/4",
  "Daylight at the bump stop, at rest": "1 3/8",
  "Lower ball, from the centerline": "26 1/8",
  "Lower ball, above the ground": "9 1/4",
  "Upper ball, from the centerline": "24 5/8",
  "Upper ball, above the ground": "17 7/8",
  "Wheel center, from the centerline": "28",
  "Wheel center, above the ground": "12 1/2",
  "Camber, + top out": "0.3",
  "Lower arm, front pivot, from the centerline": "12 5/8",
  "Lower arm, front pivot, above the ground": "10 1/2",
  "Lower arm, rear pivot, from the centerline": "11 5/8",
  "Lower arm, rear pivot, above the ground": "10 1/4",
  "Upper arm, front pivot, from the centerline": "16 3/8",
  "Upper arm, front pivot, above the ground": "18 1/2",
  "Upper arm, rear pivot, from the centerline": "16 1/2",
  "Upper arm, rear pivot, above the ground": "18 1/8",
  "Bump stop, from the lower pivot axis": "6 3/4",
  "Fender lip, lower edge, above the ground": "30 3/8",
  "Fender lip, inner edge, from the centerline": "31 1/8",
  "Rim, width between flanges": "6",
  "Tire, shoulder radius": "1 3/8",
};

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

  async touchAt(place) {
    await hit(this.page, await this.page.$(place));
    this.count += 1;
  }

  async key(key) {
    await this.page.keyboard.press(key);
    this.count += 1;
  }

  async type(text) {
    await this.page.keyboard.type(text);
    this.count += text.length;
    await this.key("Enter");
    await settled(this.page);
  }

  /** By a thumb: inches on the phone's keys, the sixteenths on those under the field, which lead on. */
  async thumb(text) {
    const [, inches, sixteenths] = text.match(/^(\d*(?:\.\d+)?) ?(\d+\/\d+)?$/);
    await this.page.keyboard.type(inches);
    this.count += inches.length;
    if (await this.page.$(".sixteenths")) await this.touch(sixteenths ?? "Next", ".sixteenths");
    else await this.key("Enter");
    await settled(this.page);
  }

  /** Puts every number of the first two stages in, by what the cursor's field is called, until a third one begins. */
  async measure(put) {
    await this.type(SIZE);
    const left = new Set(Object.keys(NUMBERS));
    while (left.size > 0) {
      const { name, guess, seen } = await cursor(this.page);
      assert.ok(left.delete(name), `"${name}" is asked for, of ${[...left].join("; ")}`);
      assert.ok(seen, `"${name}" is in sight`);
      assert.ok(!guess.startsWith(NUMBERS[name]), `${name}: ${NUMBERS[name]} is the guess`);
      await put.call(this, NUMBERS[name]);
    }
  }

  /** Goes to what has this name by Tab alone, forward or back. */
  async tab(words, most, back = false) {
    if (back) await this.page.keyboard.down("Shift");
    for (let tabs = 1; tabs <= most; tabs += 1) {
      await this.key("Tab");
      const here = await this.page.evaluate(() => document.activeElement.getAttribute("aria-label") ?? document.activeElement.textContent.trim());
      if (here !== words) continue;
      if (back) await this.page.keyboard.up("Shift");
      return tabs;
    }
    return assert.fail(`"${words}" is no ${most} tabs away`);
  }
}

/** The field that the cursor is in: what it is called, what stands in it, and whether it can be seen. */
const cursor = (page) => page.evaluate(() => {
  const input = document.activeElement;
  const box = input.getBoundingClientRect();
  return {
    name: input.closest(".number")?.querySelector(".name").firstChild.textContent ?? input.tagName,
    guess: input.value,
    seen: document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2) === input,
  };
});

/** How far one is with each stage. */
const far = (page) => page.$$eval("summary .far", (all) => all.map((one) => one.textContent));

/** What the command says of the truck in the page's address: bump travel and what ends it, as it sits and of the plan, and the plan's camber in bump. */
async function commanded(page) {
  const own = await code(page);
  const run = (...args) => execFileSync(BIN, args, { encoding: "utf8" });
  const lines = run("report", own, "--units", "in").split("\n");
  const at = lines.findIndex((line) => line.startsWith("Bump travel  "));
  const [bump, by] = lines.slice(at, at + 2).map((line) => line.trim().split(/ {2,}/).slice(1));
  const [rest] = JSON.parse(run("sweep", own, "--plan", "1", "--from", "0", "--to", "0", "--steps", "1", "--units", "in", "--format", "json"));
  return { bump, by, gain: rest.camber_rate_deg_per_in };
}

/** The row of the comparison whose name begins so: as it sits, then the plan. */
const row = (page, name) => page.$$eval(".compare tbody tr", (rows, wanted) => {
  const at = rows.findIndex((one) => one.querySelector("th")?.firstChild.textContent.startsWith(wanted));
  // What is in words has no number above it.
  const said = (cell) => cell.querySelector("b").textContent || cell.querySelector("small").textContent;
  return [...rows[at + 1].querySelectorAll("td")].map(said);
}, name);

/** The frame height of what is on the sketch, once it is found that no guess moves it. */
const certain = (page, height) => page.waitForFunction(
  (wanted) => document.querySelector(".readout b").textContent === wanted, { timeout: 60000 }, height);

/** What the command says of the truck in the page's address. */
async function told(page) {
  const report = execFileSync(BIN, ["report", await code(page), "--format", "json", "--units", "in"], { encoding: "utf8" });
  return JSON.parse(report).trucks;
}

/** Camber in bump and the first hit, which the page says as the command does, marks and all: what they rest on is found at rest. */
async function secondAnswers(page) {
  const { bump, by, gain } = await commanded(page);
  for (const [name, wanted] of [["Bump travel", bump], ["Bump travel, ended by", by]]) {
    let shown = [];
    for (let wait = 0; shown.join() !== wanted.join(); wait += 1) {
      assert.ok(wait < 120, `${name}: ${shown.join()} is not ${wanted.join()}`);
      if (wait > 0) await new Promise((done) => setTimeout(done, 500));
      shown = await row(page, name);
    }
  }
  const [, said] = await row(page, "Camber gained in bump");
  assert.ok(Math.abs(number(said) - gain) <= 0.0051, `${said} is not ${gain}`);
  // Of the front alone it is near enough to pick parts by, and no verdict.
  assert.match(said, /^~ /);
  return `${said}, ${bump[1]}, ${by[1]}`;
}

describe("one's own truck", () => {
  on({ viewport: PHONE }, "says how low it will sit and what is left over the tire after 35 touches and keys", async (page) => {
    const person = new Counted(page);
    await person.touch("Put in my truck", ".first");
    await person.type(SIZE);
    await person.type(FRAME);
    await person.type(LIP);
    assert.equal((await far(page))[0], "3 of 6");
    await person.touch("Parts", ".bar");
    await person.touch("Spindle");
    await person.touch("Compare", ".bar");
    console.log(`Frame height and the gap: ${person.count} touches and keys`);
    assert.ok(person.count <= 35, `${person.count} touches and keys`);
    await certain(page, "9 1/2 in");
    assert.deepEqual(await row(page, "Frame height"), ["11 1/2 in", "9 1/2 in"]);
    assert.deepEqual(await row(page, "Top of the tire to the fender lip, straight up"), ["5 1/4 in", "3 1/4 in"]);
    const [sits, plan] = await told(page);
    assert.ok(Math.abs(sits.ride_height_in - 11.5) < 1e-9 && Math.abs(plan.ride_height_in - 9.5) < 1e-9, JSON.stringify([sits, plan]));
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), PHONE.width);
  });

  on({ viewport: PHONE }, "says camber in bump and what hits first after 110 touches and keys", async (page) => {
    const person = new Counted(page);
    await person.touch("Put in my truck", ".first");
    await person.touchAt('xpath///label[normalize-space()="Torsion bar"]');
    await person.touchAt(".read-off input");
    await person.measure(person.thumb);
    assert.deepEqual(await far(page), ["✓ all 6", "✓ all 20", "0 of 16", "0 of 31", "0 of 35"]);
    assert.match(await page.$eval(".start p", (line) => line.textContent), /^82 numbers to go\./);
    await person.touch("Parts", ".bar");
    await person.touch("Spindle");
    await person.touch("Compare", ".bar");
    console.log(`Camber in bump and the first hit: ${person.count} touches and keys: ${await secondAnswers(page)}`);
    assert.ok(person.count <= 110, `${person.count} touches and keys`);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), PHONE.width);
  });

  on({ viewport: DESK }, "says both by keys alone", async (page) => {
    const person = new Counted(page);
    let tabs = await person.tab("Put in my truck", 12);
    await person.key("Enter");
    await settled(page);
    await person.measure(person.type);
    tabs += await person.tab("Parts", 60, true);
    await person.key("Enter");
    await settled(page);
    tabs += await person.tab("Spindle", 20);
    await person.key("Enter");
    await settled(page);
    tabs += await person.tab("Compare", 30, true);
    await person.key("Enter");
    await settled(page);
    await certain(page, "9 1/2 in");
    console.log(`By keys alone: ${person.count}, ${tabs} of them Tab: ${await secondAnswers(page)}`);
    assert.ok(person.count <= 230, `${person.count} keys`);
  });

  on({ viewport: PHONE }, "has each number once, and says which are guesses", async (page) => {
    await press(page, "Put in my truck", ".first");
    const names = await page.$$eval("summary .name", (all) => all.map((one) => one.textContent));
    assert.equal(names.length, 5);
    for (const [at, name] of names.entries()) if (at > 0) await press(page, name);
    await press(page, "Read off the truck");
    const fields = await page.$$eval(".panel label", (all) => all.map((one) => one.querySelector(".name")?.firstChild.textContent).filter(Boolean));
    assert.ok(fields.length > 110, `${fields.length}`);
    assert.deepEqual(fields.filter((name, at) => fields.indexOf(name) !== at), []);
    const ids = await page.$$eval("[id]", (all) => all.map((one) => one.id));
    assert.deepEqual(ids.filter((id, at) => ids.indexOf(id) !== at), []);
    // A coil's truck is asked for no bar.
    const named = (word) => page.$$eval(".panel .name", (all, start) => all.filter((one) => one.textContent.startsWith(start)).length, word);
    assert.deepEqual([await named("Bar, diameter"), await named("Coil, wire")], [1, 0]);
    await page.$$eval(".choice label", (all) => all.find((one) => one.textContent === "Coil").click());
    await settled(page);
    assert.deepEqual([await named("Bar, diameter"), await named("Coil, wire")], [0, 1]);
    // A place that nobody has measured is said to a quarter of an inch.
    const places = await page.$$eval(".number.guess", (all) => all.filter((one) => /above the ground|from the centerline/.test(one.textContent)).map((one) => one.querySelector("input").value));
    assert.ok(places.length > 20 && places.every((value) => /^−?\d*( ?(1\/4|1\/2|3\/4))? in$/.test(value)), `${places.length}: ${places.join("; ")}`);
    const guesses = await page.$$eval(".number.guess", (all) => all.every((one) => /a guess/.test(one.querySelector(".badge").innerHTML)));
    assert.ok(guesses);
  });

  on({ viewport: PHONE }, "keeps a size that is none, and says what is wrong with it", async (page) => {
    await press(page, "Put in my truck", ".first");
    await page.keyboard.type("205/70R99");
    await page.keyboard.press("Enter");
    await settled(page);
    assert.match(await page.$eval(".read-off .echo.wrong", (echo) => echo.textContent), /^Type a rim diameter from 8 to 26\.$/);
    assert.equal(await page.$eval(".read-off input", (input) => input.value), "205/70R99");
    assert.equal((await far(page))[0], "0 of 6");
    const type = async (text) => {
      await page.$eval(".read-off input", (input) => input.select());
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
      await settled(page);
    };
    await page.focus(".read-off input");
    await type("F78-14");
    assert.match(await page.$eval(".read-off .echo.wrong", (echo) => echo.textContent), /^Type a size like .* does not say how high it is/);
    // In inches it is kept as the metric one that it is nearest to, and stands there as it was typed.
    await page.focus(".read-off input");
    await type("31x10.50R15");
    assert.equal((await far(page))[0], "1 of 6");
    assert.equal(await page.$eval(".read-off input", (input) => input.value), "31x10.50R15");
  });

  on({ viewport: PHONE }, "stands in a pane that the bar, the grip and Back lower", async (page) => {
    const height = () => page.$eval(".page", (whole) => whole.dataset.sheet);
    const seen = () => page.$eval(".sketch", (sketch) => sketch.checkVisibility());
    assert.equal(await height(), "lowered");
    await press(page, "Parts", ".bar");
    assert.deepEqual([await height(), await seen()], ["half", true]);
    await press(page, "Parts", ".bar");
    assert.equal(await height(), "lowered", "a second touch");
    await press(page, "My truck", ".bar");
    assert.deepEqual([await height(), await seen()], ["full", false]);
    await press(page, "Show the sketch");
    assert.deepEqual([await height(), await seen()], ["half", true]);
    await press(page, "Lower");
    assert.equal(await height(), "lowered");
    // An edit under a raised pane is not lost on the way back, nor taken for somebody's link.
    await press(page, "Parts", ".bar");
    await press(page, "2 in spindle", ".lines");
    await press(page, "More: Drop, pin higher on the knuckle");
    const mine = await code(page);
    await page.goBack();
    await settled(page);
    assert.equal(await height(), "lowered", "Back");
    assert.equal(await code(page), mine);
    assert.equal(await readout(page, "Frame height"), "9 3/4 in");
    await page.goForward();
    await settled(page);
    assert.deepEqual([await height(), await code(page)], ["half", mine]);
  });
});
