// Lessons on the release page: alone on a phone, before a class, by a link.

import assert from "node:assert/strict";
import { describe } from "node:test";
import { DESK, PHONE, URL_, axe, code, drag, hit, onPagesOf, open, press, readout, ready, runningBrowser, settled, turnTo, type } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

const HEIGHT = "Frame height";

/** What the open step of a lesson says. */
function step(page) {
  return page.$eval(".lessons .step", (found) => found.textContent.replace(/\s+/g, " "));
}

/** Begins the lesson of this place in the list. */
async function begin(page, number) {
  await turnTo(page, "Lessons");
  await hit(page, (await page.$$(".lessons li button"))[number - 1]);
}

/** Walks through the open lesson, guessing everything; gives how many steps it has, and adds what was right. */
async function walk(page, rights = []) {
  let asked = 0;
  for (let at = 1; ; at += 1) {
    const [, place, steps] = (await page.$eval(".lessons .row", (row) => row.textContent)).match(/Step (\d) of (\d)/);
    assert.equal(Number(place), at);
    const words = await step(page);
    assert.doesNotMatch(words, /—|NaN/, `step ${at}`);
    const choices = await page.$$(".lessons .step p:not(.reads-off) button");
    if (choices.length > 0) {
      asked += 1;
      const answer = () => page.$eval(".lessons .step > div > p:last-child", (found) => found.checkVisibility());
      assert.ok(!(await answer()), "hidden before the guess");
      const said = [];
      for (const choice of choices) {
        await hit(page, choice);
        said.push(await page.$eval(".lessons .verdict", (verdict) => verdict.textContent));
      }
      assert.equal(said.filter((verdict) => verdict === "Right. ").length, 1, `${words}: ${said}`);
      const right = await page.$$eval(".lessons .step button.right", (found) => found.map((one) => one.textContent));
      assert.equal(right.length, 1);
      rights.push(...right);
      assert.ok(await answer());
    }
    const last = await page.$eval(".lessons .row button.primary", (next) => next.disabled);
    assert.equal(last, at === Number(steps));
    if (last) break;
    await press(page, "Next", ".lessons");
  }
  assert.ok(asked >= 2);
  return page.$eval(".lessons .row span", (place) => Number(place.textContent.at(-1)));
}

const WIDE = { width: 1920, height: 1080 };

describe("a lesson", () => {
  for (const [name, viewport] of [["phone", PHONE], ["projector", WIDE]]) {
    on({ viewport }, `is walked through, and left with one's own design back: ${name}`, async (page) => {
      await turnTo(page, "Parts");
      await type(page, "Drop, pin higher", "3");
      const own = await code(page);
      await begin(page, 1);
      if (name === "projector") {
        const plain = await page.$eval(".lessons .step p", (words) => parseFloat(getComputedStyle(words).fontSize));
        await press(page, "Full screen");
        const large = await page.$eval(".lessons .step p", (words) => parseFloat(getComputedStyle(words).fontSize));
        assert.ok(large >= 1.4 * plain && large >= 24, `${large} px against ${plain}`);
        // The first step speaks of the frame's height alone.
        const written = await page.$$eval('.sketch[data-aspect="Front"] .drawing text', (all) => all.map((text) => text.textContent));
        assert.ok(written.some((text) => /^[\d/⁄\s]+in$/u.test(text)) && written.every((text) => !/camber|roll|bump|fender|rim|arm|rail/.test(text)), written.join("; "));
        const label = await page.$eval(".sketch .drawing text", (text) => parseFloat(getComputedStyle(text).fontSize));
        assert.ok(label >= 18, `labels of ${label} px`);
      }
      assert.equal(await walk(page), 8);
      await press(page, "Back", ".lessons");
      await press(page, "Leave the lesson");
      assert.equal(await code(page), own);
      assert.equal(await readout(page, HEIGHT), "8 13/16 in");
    });
  }

  on({ viewport: WIDE }, "moves from one way to the other before a class, and jumps for who wants no motion", async (page) => {
    // Counted as they begin: on a slow machine one may be over before it is looked at.
    await page.evaluate(() => {
      window.begun = 0;
      document.addEventListener("transitionrun", (event) => { window.begun += event.target.matches(".sketch path"); });
    });
    const gliding = async (choice) => {
      await page.evaluate(() => { window.begun = 0; });
      await press(page, choice, ".which");
      await settled(page);
      return page.evaluate(() => window.begun);
    };
    const still = () => page.waitForFunction(() => document.getAnimations().every((one) => one.playState === "finished"));
    await begin(page, 1);
    await press(page, "Full screen");
    for (const [motion, least] of [["reduce", 0], ["no-preference", 10]]) {
      await page.emulateMediaFeatures([{ name: "prefers-reduced-motion", value: motion }]);
      await press(page, "Dropped spindle", ".which");
      await still();
      const begun = await gliding("Cut spring");
      assert.ok(least === 0 ? begun === 0 : begun >= least, `${motion}: ${begun}`);
      await still();
      assert.equal(await gliding("As it sits"), 0, "there are other parts: they jump");
    }
  });

  on({ viewport: WIDE }, "gives no answer away before a class has guessed", async (page) => {
    const told = () => page.evaluate(() => [".readout b", ".sketch .drawing text"].map((of) => [...document.querySelectorAll(of)].filter((one) => one.checkVisibility({ visibilityProperty: true })).length));
    await begin(page, 1);
    await press(page, "Full screen");
    assert.ok((await told()).every((count) => count > 0), "the first step asks nothing");
    await press(page, "Next", ".lessons");
    assert.deepEqual(await told(), [0, 0]);
    await hit(page, await page.$(".lessons .step button"));
    assert.ok((await told()).every((count) => count > 0));
  });

  on({ viewport: PHONE }, "has one right answer to each question, whichever it is", async (page) => {
    await turnTo(page, "Lessons");
    const many = (await page.$$(".lessons li button")).length;
    const inches = [];
    const millimetres = [];
    for (let number = 2; number <= many; number += 1) {
      await begin(page, number);
      assert.ok((await walk(page, inches)) >= 5);
      await press(page, "Leave the lesson");
      assert.equal(await readout(page, HEIGHT), "9 13/16 in");
    }
    await press(page, "in: change to millimeters");
    for (let number = 2; number <= many; number += 1) {
      await begin(page, number);
      await walk(page, millimetres);
      await press(page, "Leave the lesson");
    }
    assert.deepEqual(millimetres, inches, "units change no answer");
  });

  on({ viewport: DESK }, "says the numbers of the sketch, and follows what is dragged", async (page) => {
    await begin(page, 1);
    for (let times = 0; times < 4; times += 1) await press(page, "Next", ".lessons");
    assert.ok((await step(page)).includes(`is ${await readout(page, "Camber")},`));
    const before = await step(page);
    await press(page, "As it sits", ".top");
    await drag(page, "upper-axis", [[6, 0]]);
    assert.notEqual(await step(page), before);
    // The step speaks of the cut spring, whatever is on the sketch.
    await hit(page, (await page.$$(".which .proposal"))[1]);
    assert.ok((await step(page)).includes(`is ${await readout(page, "Camber")},`), await step(page));
  });

  on({ viewport: PHONE }, "keeps sketch, slider and the way on in sight while it is read", async (page) => {
    await begin(page, 4);
    await press(page, "Next", ".lessons");
    await hit(page, await page.$(".lessons .step button"));
    await page.$eval(".lessons .step > div > p:last-child", (answer) => answer.scrollIntoView());
    await settled(page);
    const box = (of) => page.$eval(of, (found) => found.getBoundingClientRect().toJSON());
    const [sketch, sliders, on] = [await box(".sketch"), await box(".sliders"), await box(".lessons .row")];
    const bar = await box(".bar");
    assert.ok(sketch.top > 0 && sketch.height > 200, JSON.stringify(sketch));
    assert.ok(sliders.top >= sketch.bottom - 2 && sliders.bottom < on.top && on.bottom <= bar.top + 1, JSON.stringify([sliders, on, bar]));
  });

  on({ viewport: DESK }, "is one step to undo, and undo ends it", async (page) => {
    const own = await code(page);
    await begin(page, 1);
    await press(page, "Undo");
    assert.equal(await code(page), own);
    assert.ok(await page.$(".lessons ol"), "the list is there again");
  });

  on({ viewport: PHONE }, "of the rear is seen from there by a link too, and the next one from the front", async (page) => {
    await begin(page, 9);
    await press(page, "Next", ".lessons");
    const rear = () => page.$eval("[data-aspect] .pad", (pad) => pad.getAttribute("aria-label"));
    assert.equal(await rear(), "Rear end");
    const sent = await code(page);
    const { context, page: other } = await open(running.browser, { viewport: PHONE, at: `#${sent}` });
    await other.waitForSelector(".lessons .step");
    await settled(other);
    assert.equal(await other.$eval("[data-aspect] .pad", (pad) => pad.getAttribute("aria-label")), "Rear end");
    await context.close();
    await press(page, "Leave the lesson");
    await begin(page, 2);
    assert.equal(await rear(), "Front view of the left front corner");
    await press(page, "Leave the lesson");
    await begin(page, 8);
    assert.equal(await rear(), "Whole truck");
  });

  on({ viewport: DESK }, "is reached by a link to its step, and a stranger's own design waits", async (page) => {
    await begin(page, 1);
    await press(page, "Next", ".lessons");
    await press(page, "Next", ".lessons");
    const sent = await code(page);
    const { context, page: stranger } = await open(running.browser, { viewport: PHONE });
    await type(stranger, "Drop, pin higher", "1");
    const own = await code(stranger);
    await stranger.goto("about:blank");
    await stranger.goto(`${URL_}#${sent}`);
    await ready(stranger);
    await stranger.waitForSelector(".lessons .step");
    assert.equal(await step(stranger), await step(page));
    assert.equal(await code(stranger), sent);
    // Nor is it lost by coming back another day.
    await stranger.reload();
    await ready(stranger);
    await stranger.waitForSelector(".lessons .step");
    // It comes into sight a frame after it is there.
    await settled(stranger);
    await press(stranger, "Leave the lesson");
    await stranger.waitForSelector(".lessons ol", { timeout: 3000 });
    assert.equal(await code(stranger), own);
    await context.close();
  });

  for (const [name, viewport, scheme] of [["phone", PHONE, "light"], ["projector", WIDE, "dark"]]) {
    on({ viewport, scheme }, `nothing for axe to find in a step: ${name}, ${scheme}`, async (page) => {
      await begin(page, 1);
      await press(page, "Next", ".lessons");
      if (name === "projector") await press(page, "Full screen");
      await hit(page, await page.$(".lessons .step button"));
      assert.deepEqual(await axe(page), []);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(over <= 0, `${over} px too wide`);
    });
  }
});

describe("the lesson of twenty tapes", () => {
  for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) on({ viewport }, `closes up by a reading on a ${name}`, async (page) => {
    await begin(page, 11);
    const dots = async () => {
      await page.waitForFunction(() => document.querySelectorAll(".lessons .tapes circle").length === 20);
      return page.$$eval(".lessons .tapes circle", (all) => all.map((dot) => Number(dot.getAttribute("cx"))));
    };
    const width = (all) => Math.max(...all) - Math.min(...all);
    // Of 5° to each side of 160: twenty draws of ± 2.3° reach over more than 2.3° and less than thrice that.
    const tape = width(await dots());
    assert.ok(tape > 74 && tape < 221, `${tape}`);
    for (const wanted of [/Each puts on/, /roll center/, /sweep/]) {
      await press(page, "Next", ".lessons");
      assert.match(await step(page), wanted);
      const choices = await page.$$(".lessons .step p:not(.reads-off) button");
      if (choices.length === 0) continue;
      await hit(page, choices[0]);
      const change = width(await dots());
      // What the spindle does to caster is the same by each; where the roll center goes is not.
      if (/Each puts on/.test(await step(page))) assert.ok(change < 0.2, `${change}`);
      else assert.ok(change > 40, `of 12 mm to each side, some ± 5.5: ${change}`);
    }
    assert.ok(width(await dots()) > 74);
    await press(page, "Read it off the truck");
    await page.waitForFunction(() => {
      const all = [...document.querySelectorAll(".lessons .tapes circle")].map((dot) => Number(dot.getAttribute("cx")));
      return all.length === 20 && Math.max(...all) - Math.min(...all) < 20;
    });
    assert.deepEqual(await axe(page), []);
  });
});
