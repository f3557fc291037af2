// Every word that the page says or speaks, with its kind: a new one is a decision, and one that is no longer said goes.
//
// `words.txt` has a word and its kind a line, sorted: `trade` is a mechanic's, from any manual; `general` is everybody's;
// `ours` is a name that this page gave something, to be learned here. Names of people's own trucks and plans are none.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import { BIN, DESK, launch, openIn, press, searched, settled, turnTo } from "./driver.mjs";

const KINDS = ["general", "ours", "trade"];
const kept = readFileSync(new URL("words.txt", import.meta.url), "utf8").trimEnd().split("\n");
const PLACES = ["Parts", "Compare", "Curves", "What hits", "Alignment", "The rear", "Bolts up", "My truck", "Lessons", "My trucks", "Send", "Safety"];

const run = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input }).trim();
const file = (code) => JSON.parse(run(["open", code, "--format", "json"]));
const address = (design) => `#${run(["link", "-"], JSON.stringify(design))}`;

/** A released link's design by its file. */
const released = (name) => JSON.parse(readFileSync(new URL(`../links/v1/${name}.json`, import.meta.url), "utf8"));

/** A design without what a person called it. */
function nameless(design) {
  delete design.title;
  delete design.note;
  for (const plan of design.proposals ?? []) plan.name = "";
  return design;
}

/** The demo, its front a guess, its right side another; and a truck with a rear that is lowered by several parts. */
const demo = () => {
  const design = nameless(file(run(["link"])));
  design.truck.right = { upper_ball_z: 440 };
  design.truck.sources = { rule: "assumed" };
  return design;
};
const everything = () => nameless(released("rear_on_leaves"));

/** All that is said by the page as it is: texts, names, what stands in empty fields and what is spoken of a slider. */
const said = (page) => page.evaluate(() => {
  for (const one of document.querySelectorAll("details")) one.open = true;
  const texts = [];
  for (const within of document.querySelectorAll(".page, #words")) {
    const walk = document.createTreeWalker(within, NodeFilter.SHOW_TEXT, (node) => (node.parentElement.matches("style") ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_ACCEPT));
    while (walk.nextNode()) texts.push(walk.currentNode.data);
  }
  for (const one of document.querySelectorAll(".page [aria-label], .page [placeholder], .page [aria-valuetext]")) {
    for (const name of ["aria-label", "placeholder", "aria-valuetext"]) texts.push(one.getAttribute(name) ?? "");
  }
  return texts.join("\n");
});

/** The libraries' sources and the page's, which hold every sentence, those of messages that are seldom said too. */
const SOURCES = ["web", ...["drawing", "truck", "study", "mating", "measure", "sharing", "linkage"].map((name) => `crates/${name}`)];
/** What holds no sentences but styles, marks and queries. */
const SILENT = /(svg|palette|dom|picture|view|dress|signals|schema)\.rs$/;

function sources(folder) {
  const inside = readdirSync(new URL(`../../${folder}/`, import.meta.url), { withFileTypes: true });
  return inside.flatMap((one) => (one.isDirectory() ? sources(`${folder}/${one.name}`) : /\.rs$/.test(one.name) && !SILENT.test(one.name) ? [`${folder}/${one.name}`] : []));
}

/** The sentences and names in a source: what it says, not what it asks for, calls an element or never comes to. */
function sentences(file) {
  const code = readFileSync(new URL(`../../${file}`, import.meta.url), "utf8")
    .split("#[cfg(test)]\nmod ")[0]
    .replace(/^\s*\/\/.*$/gm, "")
    .replace(/(expect|unreachable!|panic!|assert!)\(\s*"(?:[^"\\]|\\.)*"/gs, "")
    .replace(/reason = "[^"]*"/g, "")
    .replace(/(block|el)\(\s*"[^"]*"(,\s*(if [^{]*\{ )?"[^"]*"( \} else \{ "[^"]*" \})?)?/gs, "")
    .replace(/\.attr\(\s*"(class|role|type|style|tabindex)",\s*(if [^{]*\{ )?"[^"]*"( \} else \{ "[^"]*" \})?/gs, "")
    .replace(/class_if\(\s*"[^"]*"/g, "");
  const texts = [...code.matchAll(/"((?:[^"\\]|\\.)*)"/gs)].map(([, text]) => text.replace(/\\\n\s*/g, "").replaceAll("\\n", "\n"));
  return texts.filter((text) => (/ /.test(text.trim()) || /^[A-Z][a-z]+\b/.test(text)) && !/[{}<>=[\]]|\((prefers|max-|min-)|sans-|^[a-z]+( [a-z]+)?, [.a-z]+$|^[@.]/.test(text));
}

/** What the demo is called, and today's month. */
const NAMES = /Juniper|\b(Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) (?=\d)/g;

/** The words of a text, in small letters; numbers, signs, codes and names are none. */
function wordsOf(text) {
  const words = text.replaceAll("’", "'").replace(NAMES, "").match(/(?<![\w'#.])[A-Za-z][A-Za-z']*(?![\w#])/g) ?? [];
  return words.map((word) => word.toLowerCase().replace(/'s$|'+$/g, "")).filter((word) => word.length > 1);
}

test("every word on the page has its kind, and every word with a kind is on the page", async () => {
  const browser = await launch();
  const found = new Map();
  const take = (text, where) => {
    for (const word of wordsOf(text)) if (!found.has(word)) found.set(word, where);
  };
  for (const file of SOURCES.flatMap((name) => sources(`${name}/src`))) take(sentences(file).join("\n"), file);
  try {
    const walk = async (at, places, units) => {
      const context = await browser.createBrowserContext();
      const { page } = await openIn(context, { viewport: DESK, at });
      if (units === "mm") await press(page, "in: change to millimeters");
      for (const place of places) {
        await turnTo(page, place);
        // Twice: what folds is built once it is open.
        for (let times = 0; times < 3; times += 1) {
          take(await said(page), place);
          await settled(page);
        }
        if (place === "Parts") {
          for (const hand of await page.$$eval(".hands button", (all) => all.map((one) => one.textContent))) {
            await press(page, hand, ".hands");
            for (let times = 0; times < 2; times += 1) take(await said(page), place);
            await press(page, "All parts", ".parts");
          }
        }
      }
      return { page, context };
    };
    const first = await walk("", PLACES);
    await searched(first.page, "8");
    take(await said(first.page), "Find a drop");
    await first.context.close();
    await (await walk(address(demo()), ["Parts", "What hits", "Alignment", "My truck"], "mm")).context.close();
    await (await walk(address(everything()), ["Parts", "The rear", "What hits", "Compare", "Send"])).context.close();
  } finally {
    await browser.close();
  }
  if (process.env.SCRUBLINE_WORDS) {
    for (const [word, where] of [...found].sort()) console.log(`WORD ${word} ${where}`);
  }
  // The hour at which a truck was kept, where it is on the page already.
  for (const hour of ["am", "pm"]) found.delete(hour);
  const kinds = new Map(kept.map((line) => line.split(" ")));
  assert.deepEqual(kept, [...kept].sort(), "sorted");
  assert.equal(kinds.size, kept.length, "each word once");
  assert.deepEqual(kept.filter((line) => !KINDS.includes(line.split(" ")[1])), [], "a word and its kind");
  const unknown = [...found].filter(([word]) => !kinds.has(word)).map(([word, where]) => `${word} (${where})`);
  assert.deepEqual(unknown, [], "words without a kind");
  assert.deepEqual([...kinds.keys()].filter((word) => !found.has(word)), [], "words that are said nowhere");
});
