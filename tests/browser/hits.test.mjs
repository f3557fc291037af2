// What hits: the sentence that the command has too, the nearest pairs, and what of it is a guess.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, axe, number, onPagesOf, press, runningBrowser, settled, turnTo } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

const run = (args, input) => execFileSync(BIN, args, { input, encoding: "utf8" });

/** The code of the demo, its plan named, changed by `change`. */
function demo(change = () => {}) {
  const file = JSON.parse(run(["open", run(["link"])]));
  file.proposals[0].name = "Plan";
  change(file);
  return run(["link", "-"], JSON.stringify(file)).trim();
}

/** What the command says hits: of the truck as it sits, then of the plan. */
function told(code, ...args) {
  const text = run(["report", code, ...args]);
  return ["as it sits: ", "Plan: "].map((name) => {
    const line = text.split("\n").find((found) => found.startsWith(name));
    return line.slice(name.length).trim();
  });
}

/** The sentence on the page, once the search at leisure is done and it stays the same for a second. */
async function said(page) {
  let last = "";
  for (let same = 0; same < 4;) {
    await page.waitForSelector(".pairs:not(.behind)");
    await new Promise((done) => setTimeout(done, 250));
    const now = await page.$eval(".hits", (line) => line.textContent);
    same = now === last ? same + 1 : 0;
    last = now;
  }
  return last;
}

/** Where the wheel is shown: its travel, mm, and its heading, degrees to the right. */
const shown = (page) => page.evaluate(() => ["#travel", "#steer"].map((id) => Number(document.querySelector(id).value)));

/** The rows in sight, asked for in one breath: what is found first and read after may have been built anew between. */
const rows = (page) => page.evaluate(() => [...document.querySelectorAll(".pairing")].filter((one) => one.checkVisibility()).map((one) => one.textContent));

/** The file that a demo becomes of which one thing is a guess. */
const fender = (file) => {
  file.truck.sources = { rule: "measured", other: { fender_z: "assumed" } };
};
const everything = (file) => {
  file.truck.sources = { rule: "assumed" };
};
/** An inch of rail that the tire is in, as it sits. */
const touching = (file) => {
  file.truck.frame.rail_outer_y += 130;
};
/** Shock and swing of the joints left open. */
const open = (file) => {
  delete file.truck.shock;
  delete file.truck.joints;
};

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  describe(`what hits, on a ${name}`, () => {
    const files = [["all measured", undefined], ["the fender a guess", fender], ["the tire in the frame", touching], ["much left open", open], ["every number a guess", everything]];
    for (const [what, change] of files) {
      const code = demo(change);
      on({ viewport, at: `#${code}` }, `says what the command says: ${what}`, async (page) => {
        const [measured, plan] = told(code, "--units", "in");
        await press(page, "Plan", ".which");
        await turnTo(page, "What hits");
        assert.equal(await said(page), plan);
        await press(page, "As it sits", ".which");
        assert.equal(await said(page), measured);
        if (what === "all measured") {
          assert.match(measured, /^Goes up .* to the bump stop\. Nothing looked at hits /);
          assert.match(plan, /, then the tire hits the fender with the wheel turned \d+° left\. The bump stop comes only at /);
          await press(page, "in: change to millimeters");
          assert.equal(await said(page), told(code)[0], "in millimetres");
        }
        if (change === touching) assert.match(measured, /^Already at ride height the tire hits the frame/);
        if (change === open) assert.match(measured, / Not stated, so not looked at: shock, /);
        if (change === everything) assert.match(measured, /^Goes up ~ /);
        assert.deepEqual(await axe(page), []);
      });
    }

    on({ viewport }, "has the nearest three in sight, and each is shown where it is least", async (page) => {
      await turnTo(page, "What hits");
      await page.waitForSelector(".pairs:not(.behind)");
      const three = await rows(page);
      assert.equal(three.length, 3);
      assert.ok(three.some((row) => row.includes("Right wheel: ")), "the demo's right wheel turns farther out");
      for (let at = 0; at < 3; at += 1) {
        // Where the other wheel is shown it is the one that is looked at, and is searched anew.
        await page.waitForSelector(".pairs:not(.behind)");
        const row = (await rows(page))[at];
        const looked = await page.$eval('.panel [aria-pressed].measured', (button) => button.getAttribute("aria-pressed") === "true");
        const right = row.includes("Right wheel: ") || (looked && !row.includes("Left wheel: "));
        const buttons = await page.$$('.pairing button[aria-label^="Show the sketch"]');
        await press(page, await buttons[at].evaluate((button) => button.getAttribute("aria-label")));
        assert.equal(await page.$eval('.panel [aria-pressed].measured', (button) => button.getAttribute("aria-pressed")), String(right), row);
        const [travel, steer] = await shown(page);
        const [, way, far] = row.match(/(bump|droop) ([\d/ ]+) in/) ?? [, "bump", "0"];
        const sign = way === "droop" ? -1 : 1;
        // The row has the arm's travel straight ahead to a sixteenth, the slider the wheel's as it is steered.
        assert.ok(Math.abs(travel - sign * 25.4 * number(far)) < 3, `${row}: ${travel} mm`);
        const [, degrees, side] = row.match(/steered (\d+)° (left|right)/) ?? [, "0", "left"];
        assert.ok(Math.abs(steer - (side === "left" ? -1 : 1) * Number(degrees)) < 1.01, `${row}: ${steer}°`);
      }
      await page.waitForSelector(".pairs:not(.behind)");
      const again = await rows(page);
      await press(page, "All of them");
      const all = await rows(page);
      assert.equal(all.length, 13);
      assert.deepEqual(all.slice(0, 3), again);
      assert.equal(new Set(all).size, 13, "none of them twice");
    });

    const guessed = demo(fender);
    on({ viewport, at: `#${guessed}` }, "counts the guesses, and leads to the field of the first", async (page) => {
      await turnTo(page, "What hits");
      await said(page);
      assert.match(await page.$eval(".guesses p", (line) => line.textContent), /^Guesses in this: 1\. First: Fender lip/);
      await press(page, "My truck", ".guesses");
      await settled(page);
      const cursor = await page.evaluate(() => {
        const input = document.activeElement;
        const box = input.getBoundingClientRect();
        const over = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
        return {
          name: input.closest(".number")?.querySelector(".name").textContent,
          all: input.selectionStart === 0 && input.selectionEnd === input.value.length,
          seen: over === input,
        };
      });
      assert.match(cursor.name, /^Fender lip.*a guess$/);
      assert.deepEqual([cursor.all, cursor.seen], [true, true]);
      // Typed, it is a guess no longer.
      await page.keyboard.type("680 mm");
      await page.keyboard.press("Enter");
      await settled(page);
      await turnTo(page, "What hits");
      assert.doesNotMatch(await said(page), /~/);
      assert.equal(await page.$(".guesses button"), null);
    });
  });
}
