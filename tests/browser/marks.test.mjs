// The mark of a guess in everything that the page prints: seen, and said to who does not see it.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, axe, onPagesOf, press, runningBrowser, settled, spot, turnTo, type } from "./driver.mjs";

const running = runningBrowser();

const on = onPagesOf(() => running.browser);

/** The code of the demo with numbers assumed by a rule, its right side other than its left. */
function demo(sources) {
  const run = (args, input) => execFileSync(BIN, args, { input, encoding: "utf8" });
  const file = JSON.parse(run(["open", run(["link"])]));
  file.truck.sources = sources;
  file.truck.right = { upper_ball_z: 440 };
  return `#${run(["link", "-"], JSON.stringify(file)).trim()}`;
}

const ALL = () => demo({ rule: "assumed" });
const NONE = () => demo({ rule: "measured" });
/** Pitch of the sleeve: a figure may rest on the rod that it is on, and none is moved by it. */
const IDLE = () => demo({ rule: "measured", other: { tie_thread: "assumed" } });

const texts = (page, selector) => page.$$eval(selector, (all) => all.map((one) => one.textContent).filter(Boolean));

/** Numbers with a unit in a text, each with what stands before it: all of them, and those with a mark. */
function numbers(text) {
  const found = [...text.matchAll(/(~ ?)?[−+]?\d[\d .]*(?:\/\d+)?(?:\d+\/\d+)?[\s\u00a0]?(?:in\b|mm\b|°|Hz\b|%)/g)];
  return { all: found.length, marked: found.filter((one) => one[1]).length };
}

/** Marks that nobody hears: not in words beside them, nor in the name of what they stand in. */
function unheard(page, within) {
  return page.$$eval(within, (roots) => roots.flatMap((root) => {
    const walk = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    const found = [];
    while (walk.nextNode()) {
      const node = walk.currentNode;
      if (!node.data.includes("~")) continue;
      const named = node.parentElement.closest("[aria-label]");
      if (!named?.getAttribute("aria-label").includes("a guess")) found.push(node.parentElement.outerHTML);
    }
    return found;
  }));
}

/** Waits until what the figures rest on was looked for: the tiles say the same for a second. */
async function calm(page) {
  let last = "";
  for (let same = 0; same < 4;) {
    await new Promise((done) => setTimeout(done, 250));
    const now = (await texts(page, ".readout dd b")).join();
    same = now === last ? same + 1 : 0;
    last = now;
  }
}

/** What each panel prints of its answers, and how many numbers there are at least. */
const PRINTED = [
  ["Compare", ".compare td b", 20],
  ["What hits", ".hits", 1],
  ["What hits", ".pair b", 10],
  ["What hits", ".ends li", 4],
  ["Alignment", ".panel .scroll td", 10],
  ["Alignment", ".sides td", 10],
  ["Curves", "thead th:not(:first-child)", 4],
  ["Find a drop", ".card .what", 1],
];

async function turn(page, panel) {
  await turnTo(page, panel);
  if (panel === "What hits" && !(await page.$(".folded .pair"))) await press(page, "All of them");
  if (panel === "Alignment") for (const name of await texts(page, ".cards details:not([open]) > summary")) await press(page, name);
  if (panel === "Curves") await press(page, "The same as numbers");
  if (panel === "Find a drop") {
    await type(page, "Lower by", "1 1/2 in");
    await press(page, "Search", ".panel");
    await page.waitForSelector(".card .what", { timeout: 60000 });
  }
  await settled(page);
}

describe("a guess", () => {
  for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
    on({ viewport, at: ALL() }, `keeps its mark in every panel of a ${name}`, async (page) => {
      await calm(page);
      const tiles = await texts(page, ".readout dd b");
      assert.ok(tiles.length === 6 && tiles.every((tile) => tile.startsWith("~ ")), tiles.join());
      assert.deepEqual(await unheard(page, ".readouts"), []);
      for (const [panel, selector, least] of PRINTED) {
        await turn(page, panel);
        const told = await texts(page, selector);
        assert.ok(told.length >= least, `${panel}: ${told.length} of ${selector}`);
        for (const text of told) {
          // What is not stated is no guess, what is alike no number.
          if (text === "—" || text === "cannot stand") continue;
          assert.match(text, /~ /, `${panel}: ${text}`);
          const { all, marked } = numbers(text);
          // Of a curve's heading and of words there is no number, and what is lowest has two.
          if (panel !== "Curves") assert.ok(marked >= all || (all === 1 && text.startsWith("~ ")), `${panel}: ${text}`);
        }
        assert.deepEqual(await unheard(page, selector), [], panel);
      }
      assert.deepEqual(await axe(page), []);
    });
  }

  on({ viewport: DESK, at: ALL() }, "keeps its mark on each side of the sketch, on paper and to the ear", async (page) => {
    await calm(page);
    for (const [aspect, least] of [["Front", 5], ["Side", 3], ["Top", 2]]) {
      if (aspect !== "Front") await press(page, aspect, `[data-aspect="${aspect}"]`);
      const { labels, said } = await page.$eval(`[data-aspect="${aspect}"]`, (pad) => ({
        labels: [...pad.querySelectorAll("svg text")].map((text) => text.textContent),
        said: pad.querySelector(".unseen").textContent,
      }));
      const told = labels.filter((label) => /°|\u00a0in/.test(label));
      assert.ok(told.length >= least, `${aspect}: ${labels.join(" | ")}`);
      assert.ok(said.split("a guess, ").length > least, `${aspect}: ${said}`);
      for (const label of told) assert.ok(label.includes("~ "), `${aspect}: ${label}`);
    }
  });

  on({ viewport: PHONE, at: ALL() }, "keeps its mark beside what is to be read off", async (page) => {
    await turnTo(page, "My truck");
    await press(page, "Read off the truck");
    const told = await texts(page, ".read-off .badge");
    assert.ok(told.length > 15, told.join());
    for (const text of told) assert.match(text, /model says ~ /);
    assert.deepEqual(await unheard(page, ".read-off .badge"), []);
    // What was read is none, but by how much a guessed curve is off it is one.
    await type(page, "Camber", "-1");
    await turnTo(page, "Curves");
    const [off] = await texts(page, ".panel .curve .hint");
    assert.match(off, /all of it is ~ \d\.\d\d° (more|less)\.$/);
    assert.deepEqual(await unheard(page, ".panel .curve .hint"), []);
  });

  on({ viewport: DESK }, "keeps its mark in a lesson", async (page) => {
    await turnTo(page, "Lessons");
    await press(page, "Two inches, two ways: spindle or spring", ".lessons");
    const told = () => texts(page, ".lessons .step b:not(.verdict)");
    const before = await told();
    assert.ok(before.length > 0 && before.every((text) => !text.includes("~")), before.join());
    // In the middle of a lesson every number becomes one's own to be measured.
    await turnTo(page, "My truck");
    await press(page, "Put in my truck");
    await turnTo(page, "Lessons");
    const after = await told();
    assert.deepEqual(after, before.map((text) => `~ ${text}`));
    assert.deepEqual(await unheard(page, ".lessons .step b"), []);
  });

  on({ viewport: DESK, at: ALL() }, "keeps its mark on the printed sheet and in a thread", async (page) => {
    await calm(page);
    await turnTo(page, "Send");
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    await settled(page);
    const near = await texts(page, ".near li");
    assert.ok(near.length > 3 && near.every((line) => line.includes(": ~ ")), near.join());
    const cells = (await texts(page, ".sheet td")).filter((cell) => /\d/.test(cell));
    assert.ok(cells.length > 20 && cells.every((cell) => cell.startsWith("~ ")), cells.join(" | "));
  });
});

describe("where everything is measured", () => {
  on({ viewport: DESK, at: NONE() }, "nothing is marked", async (page) => {
    for (const [panel, selector] of [["Parts", ".readout dd b"], ...PRINTED]) {
      await turn(page, panel);
      const told = await texts(page, selector);
      assert.ok(told.every((text) => !text.includes("~")), `${panel}: ${told.join(" | ")}`);
    }
    const labels = await texts(page, "[data-aspect] svg text");
    assert.ok(labels.length > 5 && labels.every((label) => !label.includes("~")), labels.join(" | "));
  });
});

describe("a mark", () => {
  const marked = (page) => page.$$eval(".readout.guessed dt", (names) => names.map((name) => name.textContent));

  on({ viewport: DESK, at: IDLE() }, "may appear in a drag, and goes only when the finger is off", async (page) => {
    // At rest none of the numbers rests on it, once that was looked for.
    await page.waitForFunction(() => document.querySelector(".readout.guessed") === null, { timeout: 20000 });
    const from = await spot(page, "wheel-centre");
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    let before = [];
    // Away, and back to where it was.
    for (const dy of [-4, -12, -20, -12, -4, 0]) {
      await page.mouse.move(from.x, from.y + dy, { steps: 2 });
      await settled(page);
      const now = await marked(page);
      for (const name of before) assert.ok(now.includes(name), `${name} lost its mark at ${dy} px`);
      before = now;
    }
    assert.ok(before.includes("Camber"), before.join());
    // A finger that lies still is down.
    await new Promise((done) => setTimeout(done, 700));
    assert.deepEqual(await marked(page), before);
    await page.mouse.up();
    await page.waitForFunction(() => document.querySelector(".readout.guessed") === null, { timeout: 10000 });
  });
});
