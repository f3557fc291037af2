// Whether parts go together, on the finished page: in a junkyard without a network, and in a thread.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import { DESK, PHONE, axe, code, hit, launch, openIn, press, ready, settled, turnTo, whole } from "./driver.mjs";
import { filesKept, filesOfPage, onSitesOf } from "./site.mjs";

let browser;
let files;
before(async () => {
  browser = await launch();
  files = await filesOfPage();
});
after(() => browser?.close());

const on = onSitesOf(() => ({ browser, files }));

const BAR = "Bar in its bracket";

/** The head of a row. */
async function head(page, name) {
  const found = await page.evaluateHandle((wanted) => [...document.querySelectorAll(".mate")].find((one) => one.querySelector("b").textContent === wanted) ?? null, name);
  assert.ok(found.asElement(), name);
  return found.asElement();
}

/** The verdict under the head of a row, as it stands there. */
const short = async (page, name) => (await head(page, name)).evaluate((one) => one.querySelector("small").textContent);

/** The row that is open as a line. */
const line = (page) => page.$eval(".mates .line", (one) => one.textContent);

/** Types what the focus is on, key by key, and ends with Enter; gives how many keys that took. */
async function keys(page, text) {
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await settled(page);
  return text.length + 1;
}

/** A number of the open row by its name, with its button pressed so that it is asked for, unless it is already. */
async function ask(page, name) {
  const asked = await page.$$eval(".callout[aria-expanded=true] span", (all) => all.map((one) => one.textContent));
  if (asked.includes(name)) return;
  const found = await page.evaluateHandle((wanted) => [...document.querySelectorAll(".callout")].find((one) => one.querySelector("span").textContent === wanted) ?? null, name);
  assert.ok(found.asElement(), name);
  await hit(page, found.asElement());
}

on("the bracket in the hand is refused in a dozen taps, without a network, and the thread is told", async (context, site) => {
  await context.overridePermissions(new URL(site.url).origin, ["clipboard-read", "clipboard-write", "clipboard-sanitized-write"]);
  const first = await openIn(context, { viewport: PHONE, url: site.url });
  await filesKept(first.page);
  await first.page.close();
  await site.stop();
  const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
  let taps = 2;
  await turnTo(page, "Bolts up");
  assert.equal(await short(page, BAR), "Not asked yet: 0 of 8");
  taps += 1;
  await hit(page, await head(page, BAR));
  assert.equal(await page.$eval(".callout[aria-expanded=true] span", (one) => one.textContent), "Teeth of the bar");
  taps += await keys(page, "36");
  assert.equal(await page.$eval(".callout[aria-expanded=true] span", (one) => one.textContent), "Teeth of the socket");
  taps += await keys(page, "32");
  assert.equal(await short(page, BAR), "Does not");
  assert.ok(taps <= 12, `${taps} taps and keys`);
  assert.match(await line(page), /^bracket–bar: 32 \/ 36 teeth: does not/);
  await page.bringToFront();
  await press(page, "Copy this row");
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), await line(page));
  // It is there again, as one's own, and still without a network.
  await code(page);
  await page.reload({ waitUntil: "load" });
  await ready(page);
  await turnTo(page, "Bolts up");
  assert.equal(await short(page, BAR), "Does not");
  await hit(page, await head(page, BAR));
  assert.doesNotMatch(await line(page), /someone/);
  assert.deepEqual(faults, []);
});

on("both parts are drawn with one arrow at the number that is asked, for whoever cannot see it too", async (context, site) => {
  for (const viewport of [PHONE, DESK]) {
    const { page, faults } = await openIn(context, { viewport, url: site.url });
    await turnTo(page, "Bolts up");
    await hit(page, await head(page, BAR));
    const seen = new Set();
    for (const [name, said] of [["Socket, across between its valleys", "of the bracket"], ["Bar, across over its teeth", "of the bar"], ["Pushed home by hand", ""]]) {
      await ask(page, name);
      const drawn = await page.$$eval(".sides svg", (all) => all.map((one) => one.getAttribute("aria-label")));
      assert.deepEqual(drawn, [`bracket–bar, not to scale. Arrow at: ${[name, said].filter(Boolean).join(", ")}`]);
      const arrows = await page.$$eval(".sides .d-accent-solid", (all) => all.map((one) => one.getAttribute("d")));
      assert.equal(arrows.length, 1);
      seen.add(arrows[0]);
      // It stands in its field, and over nothing.
      const boxes = await page.$eval(".field .sides", (sides) => [sides.parentElement, sides, sides.querySelector("svg"), sides.nextElementSibling].map((one) => one.getBoundingClientRect()).map(({ left, right, top, bottom }) => ({ left, right, top, bottom })));
      const [field, sides, picture, next] = boxes;
      assert.ok(field.left <= sides.left && sides.right <= field.right, JSON.stringify(boxes));
      assert.ok(picture.bottom - picture.top > 100 && picture.bottom <= next.top, JSON.stringify(boxes));
    }
    assert.equal(seen.size, 3);
    assert.deepEqual(await axe(page), []);
    assert.deepEqual(faults, []);
    await page.close();
  }
});

/** Decimal inches as a caliper shows them, by hand: 26.5 mm is 1.0433 in. */
on("a size is read and shown as calipers do, with its tool, and a wrong one is said where it is typed", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: DESK, url: site.url });
  await turnTo(page, "Bolts up");
  await hit(page, await head(page, BAR));
  await ask(page, "Socket, across between its valleys");
  await page.keyboard.type("1.0433");
  await settled(page);
  assert.equal(await page.$eval(".field .echo", (one) => one.textContent), "= 1.043 in");
  await press(page, "caliper on rust or paint", ".field");
  await press(page, "Next", ".field");
  const told = () => page.evaluate(() => [...document.querySelectorAll(".callout")].find((one) => one.textContent.startsWith("Socket, across")).querySelector("b").textContent);
  assert.equal(await told(), "1.043 in, caliper on rust or paint");
  await ask(page, "Bar, across over its teeth");
  await keys(page, "-3");
  assert.match(await page.$eval(".field .echo", (one) => one.textContent), /No such number|minus|sign/);
  assert.equal(await page.$eval(".field input", (one) => one.getAttribute("aria-invalid")), "true");
  await page.keyboard.press("Escape");
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(faults, []);
});

on("what came by link is somebody else's, says no and never yes, until it is checked", async (context, site) => {
  const { page } = await openIn(context, { viewport: DESK, url: site.url });
  await turnTo(page, "Bolts up");
  // At least 1.1 times the longest path, common practice: 400 is more than 352, so it mates for whoever measured it.
  const ROW = "Hose from line to caliper";
  await hit(page, await head(page, ROW));
  for (const [name, text] of [["Hose, free length", "400 mm"], ["Its path, wheel hanging", "300 mm"], ["Its path, wheel hanging at the worse lock", "320 mm"]]) {
    await ask(page, name);
    await keys(page, text);
  }
  await ask(page, "Its ends");
  await press(page, "right at both ends", ".field");
  assert.equal(await short(page, ROW), "Mates by what you measured");
  const link = await code(page);
  const other = await browser.createBrowserContext();
  try {
    const { page: theirs, faults } = await openIn(other, { viewport: PHONE, url: site.url, at: `#${link}` });
    await whole(theirs);
    await turnTo(theirs, "Bolts up");
    assert.equal(await short(theirs, ROW), "Not asked yet: 0 of 4 (not all of it yours)");
    await hit(theirs, await head(theirs, ROW));
    assert.match(await line(theirs), /someone else’s numbers/);
    // Another tool makes it nobody's own.
    await ask(theirs, "Hose, free length");
    await press(theirs, "caliper", ".field");
    assert.equal(await short(theirs, ROW), "Not asked yet: 0 of 4 (not all of it yours)");
    for (const name of ["Hose, free length", "Its path, wheel hanging", "Its path, wheel hanging at the worse lock", "Its ends"]) {
      assert.notEqual(await short(theirs, ROW), "Mates by what you measured");
      await ask(theirs, name);
      await press(theirs, "I checked it on mine", ".field");
    }
    assert.equal(await short(theirs, ROW), "Mates by what you measured");
    assert.deepEqual(faults, []);
  } finally {
    await other.close();
  }
});

/** 0.4 mm thinner in a taper of 1.5 in 12: 3.2 mm deeper, by hand; a guess offers nothing. */
on("a stud that sits deeper is offered to the plan, as one step and once", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: DESK, url: site.url });
  await turnTo(page, "Bolts up");
  await hit(page, await head(page, "Upper ball-joint stud in the knuckle"));
  const sizes = { "Stud, across at its large end": "17.6 mm", "Stud, from there along, 10 to 12 mm": "12 mm", "Stud, across at that place": "16.1 mm", "Seat, across at its large end": "18 mm", "Seat, from there along": "12 mm", "Seat, across at that place": "16.5 mm" };
  for (const [name, text] of Object.entries(sizes)) {
    await ask(page, name);
    await keys(page, text);
  }
  for (const [name, word] of [["Marking blue", "all round, over three quarters of the seat"], ["Pushed home by hand", "does not rock"], ["Nut", "on its full thread"], ["Pin", "in a slot, the nut not backed off"]]) {
    assert.doesNotMatch(await page.$eval(".mates .numbers:not(:empty)", (one) => one.textContent), /deeper/);
    await ask(page, name);
    await press(page, word, ".field");
  }
  const told = () => page.$eval(".mates .numbers:not(:empty)", (one) => one.textContent);
  assert.match(await told(), /The stud sits 0\.126 in deeper than flush, ± 0\.030 in\. If the old one sat flush, the two balls are that much nearer together: a knuckle swap\./);
  const before = await code(page);
  await press(page, "Put it into the plan", ".mates");
  assert.notEqual(await code(page), before);
  const offered = () => page.$$eval(".mates button", (all) => all.filter((one) => one.textContent === "Put it into the plan" && one.checkVisibility()).length);
  assert.equal(await offered(), 0, "it is there already");
  await turnTo(page, "Parts");
  assert.match(await page.$eval(".panel", (panel) => panel.textContent), /Knuckle swap/);
  await press(page, "Undo");
  assert.equal(await code(page), before);
  await turnTo(page, "Bolts up");
  assert.deepEqual(faults, []);
});

on("the order of the work begins with what cannot be read any more once it is apart", async (context, site) => {
  const { page } = await openIn(context, { viewport: PHONE, url: site.url });
  await turnTo(page, "Bolts up");
  await press(page, "The order of the work");
  const tasks = await page.$$eval("ol.order b", (all) => all.map((one) => one.textContent));
  assert.match(tasks[0], /^Write down heights/);
  assert.ok(tasks.length > 8, `${tasks.length} tasks`);
  const at = (part) => tasks.findIndex((task) => task.includes(part));
  assert.ok(at("on stands") > 0 && at("Headlamps") > at("Toe"), tasks.join("\n"));
});
