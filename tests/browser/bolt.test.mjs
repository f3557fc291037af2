// Whether parts go together, on the finished page: in a junkyard without a network, and in a thread.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import { execFileSync } from "node:child_process";
import { BIN, DESK, PHONE, axe, code, hit, launch, openCard, openIn, press, ready, settled, turnTo, whole } from "./driver.mjs";
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
      const drawn = await page.$$eval(".both svg", (all) => all.map((one) => one.getAttribute("aria-label")));
      assert.deepEqual(drawn, [`bracket–bar, not to scale. Arrow at: ${[name, said].filter(Boolean).join(", ")}`]);
      const arrows = await page.$$eval(".both .d-accent-solid", (all) => all.map((one) => one.getAttribute("d")));
      assert.equal(arrows.length, 1);
      seen.add(arrows[0]);
      // It stands in its field, and over nothing.
      const boxes = await page.$eval(".field .both", (sides) => [sides.parentElement, sides, sides.querySelector("svg"), sides.nextElementSibling].map((one) => one.getBoundingClientRect()).map(({ left, right, top, bottom }) => ({ left, right, top, bottom })));
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

/** 22 mm typed where inches are read: kept, and asked about; 60 mm, the most as a rule, are 2.362 in. */
on("a size in the wrong unit is kept as typed and asked about", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
  await turnTo(page, "Bolts up");
  await hit(page, await head(page, "Rotor in its caliper"));
  await ask(page, "Rotor, thickness");
  await keys(page, "22");
  const doubt = () => page.$$eval(".mates .remark", (all) => all.map((one) => one.textContent).join(""));
  assert.equal(await doubt(), "Rotor, thickness: 22.000 in? As a rule 0.157 to 2.362 in.");
  await ask(page, "Rotor, thickness");
  await page.keyboard.down("Control");
  await page.keyboard.press("a");
  await page.keyboard.up("Control");
  await keys(page, "22 mm");
  assert.equal(await doubt(), "");
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(faults, []);
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
  assert.match(await told(), /The stud sits 0\.126 in deeper than flush, ± 0\.030 in\. If the old one sat flush and the studs point at each other, the two balls are that much nearer together: a knuckle swap, and a guess\./);
  const before = await code(page);
  await press(page, "Put it into the plan", ".mates");
  assert.notEqual(await code(page), before);
  const offered = () => page.$$eval(".mates button", (all) => all.filter((one) => one.textContent === "Put it into the plan" && one.checkVisibility()).length);
  assert.equal(await offered(), 0, "it is there already");
  await openCard(page, "Knuckle swap");
  await press(page, "Undo");
  assert.equal(await code(page), before);
  await turnTo(page, "Bolts up");
  assert.deepEqual(faults, []);
});

on("rows lie by what is in the hand, each with the number that it is asked for first", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
  await turnTo(page, "Bolts up");
  const lines = await page.$$eval(".mates > li", (all) => all.map((one) => [one.querySelector(":scope > h3")?.textContent, one.querySelector(".mate b")?.textContent]));
  const under = (heading) => {
    const at = lines.findIndex(([found]) => found === heading);
    const rest = lines.slice(at + 1);
    const end = rest.findIndex(([found]) => found);
    return rest.slice(0, end < 0 ? rest.length : end).map(([, name]) => name);
  };
  assert.equal(lines.filter(([heading]) => heading).length, 8);
  assert.deepEqual(under("Bar, bracket, anchor").sort(), ["Adjuster bolt in its thread", BAR, "Bar in its anchor", "Bracket on the arm"].sort());
  assert.ok(under("Wheel").includes("Caliper inside the rim"));
  const asked = () => head(page, BAR).then((found) => found.evaluate((one) => one.querySelector("span i").textContent));
  assert.equal(await asked(), "Teeth of the bar");
  await hit(page, await head(page, BAR));
  assert.equal(await asked(), "", "open, it is asked below");
  assert.equal(await page.$eval(".callout[aria-expanded=true] span", (one) => one.textContent), "Teeth of the bar");
  for (const text of ["36", "32"]) await keys(page, text);
  await hit(page, await head(page, BAR));
  assert.equal(await asked(), "", "it is decided");
  // Of one part no heading says what is in the hand, and what is counted is what is listed.
  const counted = () => page.$eval(".bolt > .hint[aria-live]", (one) => one.textContent);
  const choice = await page.$(".bolt > label select");
  await choice.select(await choice.$$eval("option", (all) => all.find((one) => one.textContent === "bar").value));
  await settled(page);
  assert.equal(await page.$(".mates > li > h3"), null);
  assert.deepEqual(await page.$$eval(".mate b", (all) => all.map((one) => one.textContent)), [BAR, "Bar in its anchor"]);
  assert.equal(await counted(), "1 of 2 decided, 1 of them no");
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(faults, []);
});

on("a part of one's own is named, joins a place of one's own, and goes again", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
  await turnTo(page, "Bolts up");
  await press(page, "Where each part is from");
  await press(page, "Add a part");
  await settled(page);
  const added = ".origin:last-of-type";
  const name = await page.$(`${added} label:nth-of-type(1) input`);
  await hit(page, name);
  await keys(page, "skid plate");
  const from = await page.$(`${added} label:nth-of-type(2) input`);
  await hit(page, from);
  await keys(page, "a long bed");
  // A kept part has no name to type; one from elsewhere has.
  const named = (part) => page.$$eval(".origin", (all, wanted) => {
    const found = all.find((one) => one.querySelector("span").textContent === wanted);
    return [...found.querySelectorAll("label")].filter((one) => one.checkVisibility()).map((one) => one.querySelector("span").textContent);
  }, part);
  assert.deepEqual(await named("bar"), []);
  await page.select('[aria-label="Where from: bar"]', "2");
  await settled(page);
  assert.deepEqual(await named("bar"), ["Its name"]);
  assert.deepEqual(await named("skid plate"), ["Its name", "Which truck, which year"]);
  await press(page, "Add a place where two parts meet");
  for (const [label, part] of [["First part", "skid plate"], ["Second part", "lower arm"]]) {
    const menu = await page.$(`[aria-label="${label}"]`);
    await menu.select(await menu.$$eval("option", (all, wanted) => all.find((one) => one.textContent === wanted).value, part));
  }
  await press(page, "Add it");
  await settled(page);
  assert.equal(await line(page), "skid plate–lower arm: not asked yet: 0 of 3");
  // It is there again, and named so, for whoever opens the link.
  const link = await code(page);
  const own = await openIn(await browser.createBrowserContext(), { viewport: DESK, url: site.url, at: `#${link}` });
  await turnTo(own.page, "Bolts up");
  assert.deepEqual(await own.page.$$eval(".bolt > label option", (all) => all.slice(-1).map((one) => one.textContent)), ["skid plate"]);
  await own.page.close();
  await press(page, "Take it off the list");
  await settled(page);
  assert.deepEqual(await page.$$eval(".origin", (all) => all.filter((one) => one.querySelector("button")).length), 0);
  assert.deepEqual(await axe(page), []);
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

/** The order of the work, open. */
async function openOrder(page) {
  await turnTo(page, "Bolts up");
  await press(page, "The order of the work");
}

/** Types a torque or a manual of a fastener, by its name. */
async function torque(page, name, kind, text) {
  const found = await page.evaluateHandle((wanted, which) => [...document.querySelectorAll(".torque")].find((one) => one.querySelector(".name").textContent.startsWith(wanted))?.querySelector(which === "manual" ? ".text input" : ".entry input") ?? null, name, kind);
  assert.ok(found.asElement(), name);
  await hit(page, found.asElement());
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await settled(page);
}

/** What stands in the fields of a fastener, and beside its name. */
const typed = (page, name) => page.evaluate((wanted) => {
  const one = [...document.querySelectorAll(".torque")].find((each) => each.querySelector(".name").textContent.startsWith(wanted));
  return [...[...one.querySelectorAll("input")].map((input) => input.value), one.querySelector(".badge").textContent];
}, name);

/** A box to tick beside a task. */
const box = async (page, task) => (await page.evaluateHandle((wanted) => [...document.querySelectorAll(".order .check")].find((one) => one.textContent.includes(wanted)), task)).asElement();

/** What is to be heeded: above the list, and at the tasks. */
const heeded = (page) => page.evaluate(() => ["[role=alert].remark", "ol.order .remark:not(:empty)"].map((which) => [...document.querySelectorAll(`.panel ${which}`)].map((one) => one.textContent)));

/** By the list: a bar waits for both joints of the demo's knuckle; its headlamps wait for toe and height. */
on("a task that is ticked too early says so, and a loaded bar above all else", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
  await openOrder(page);
  assert.deepEqual(await heeded(page), [[], []]);
  await hit(page, await box(page, "Headlamps aimed"));
  const lamps = "Ticked, but before it: Driver's weight in; set the height, both sides; Toe, wheel straight.";
  assert.deepEqual(await heeded(page), [[], [lamps]]);
  await hit(page, await box(page, "Load the bar"));
  const [[stop], said] = await heeded(page);
  assert.match(stop, /^Stop: the bar is loaded, but before it: .*Both joints' nuts torqued and pinned, never backed off/);
  assert.deepEqual(said, [stop, lamps]);
  assert.ok(await page.evaluate(() => document.querySelector("[role=alert].remark").getBoundingClientRect().bottom <= document.querySelector("ol.order").getBoundingClientRect().top));
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(faults, []);
});

const open = (page) => page.$$eval("ul.order li", (all) => all.map((one) => one.textContent));

/** By hand: 115 N·m is 84.82 ft-lb of 1.355818 N·m (NIST SP 811). */
on("a torque is typed with its manual, is there after a reload, and goes with no link", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: PHONE, url: site.url });
  await openOrder(page);
  const values = await page.$$eval(".torque input", (all) => all.map((input) => input.value));
  assert.ok(values.length > 8 && values.every((value) => value === ""), `nothing is filled in: ${values}`);
  await torque(page, "Upper ball-joint nut", "number", "50");
  assert.deepEqual(await typed(page, "Upper ball-joint nut"), ["50 ft-lb", "", "no manual named"]);
  // Enter in a torque leads to its manual.
  await page.keyboard.type("1994 shop manual");
  await page.keyboard.press("Tab");
  await settled(page);
  await torque(page, "Lower ball-joint nut", "number", "115 Nm");
  assert.deepEqual(await typed(page, "Upper ball-joint nut"), ["50 ft-lb", "1994 shop manual", ""]);
  assert.deepEqual(await typed(page, "Lower ball-joint nut"), ["84.8 ft-lb", "", "no manual named"]);
  await torque(page, "Wheel nuts", "number", "2000");
  assert.match(await page.$eval(".torque .echo.wrong:not(:empty)", (one) => one.textContent), /^From .* to 737\.6 ft-lb$/);
  await page.keyboard.press("Escape");
  const before = await open(page);
  assert.ok(before.includes("ball-joint nuts and their pins"), before.join());
  await hit(page, await box(page, "Both joints' nuts"));
  assert.deepEqual(await open(page), before.filter((item) => item !== "ball-joint nuts and their pins"));
  assert.deepEqual(await axe(page), []);
  const link = await code(page);
  await page.waitForFunction(() => Object.keys(localStorage).some((key) => localStorage[key].includes("1994 shop manual")));
  await page.reload({ waitUntil: "load" });
  await ready(page);
  await openOrder(page);
  assert.equal(await code(page), link, "the address is that of the truck alone");
  assert.deepEqual(await typed(page, "Upper ball-joint nut"), ["50 ft-lb", "1994 shop manual", ""]);
  assert.equal(await (await box(page, "Both joints' nuts")).$eval("input", (input) => input.checked), true);
  const other = await browser.createBrowserContext();
  try {
    const { page: theirs } = await openIn(other, { viewport: DESK, url: site.url, at: `#${link}` });
    await openOrder(theirs);
    assert.deepEqual(await typed(theirs, "Upper ball-joint nut"), ["", "", ""]);
    assert.equal(await (await box(theirs, "Both joints' nuts")).$eval("input", (input) => input.checked), false);
  } finally {
    await other.close();
  }
  assert.deepEqual(faults, []);
});

/** The demo's spindle with turns of the bar and shims, as most who lower a truck have it. */
function usualPlan() {
  const run = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input });
  const file = JSON.parse(run(["open", run(["link"]).trim()]));
  file.proposals.length = 1;
  file.opening.proposal = 0;
  file.proposals[0].changes.push({ change: "bar_adjuster", turns: -3 }, { change: "shims", front: 1.6, rear: 3.2 });
  return `#${run(["link", "-"], JSON.stringify(file)).trim()}`;
}

on("the work is one printed page, Letter and A4, with a line for every torque that is not typed", async (context, site) => {
  const { page, faults } = await openIn(context, { viewport: DESK, url: site.url, at: usualPlan() });
  await openOrder(page);
  await torque(page, "Wheel nuts", "number", "85");
  await torque(page, "Wheel nuts", "manual", "1994 shop manual");
  await hit(page, await box(page, "Truck on stands"));
  await hit(page, await box(page, "Both joints' nuts"));
  const pages = (pdf) => [...Buffer.from(pdf).toString("latin1").matchAll(/\/Type\s*\/Page\b/g)].length;
  for (const format of ["letter", "a4"]) assert.equal(pages(await page.pdf({ format })), 1, format);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await settled(page);
  const lines = (selector) => page.$$eval(selector, (all) => all.map((one) => one.textContent));
  const [first, second] = await lines(".sheet tbody tr");
  assert.match(first, /^1Write down heights.*nothing of it can be read/);
  assert.match(second, /^2Truck on stands.*☑$/);
  assert.deepEqual((await lines(".sheet .blank")).slice(0, 3), ["Steering arm to the knuckle, where it is bolted: ", "Upper ball-joint nut: ", "Lower ball-joint nut: "]);
  const wheels = (await lines(".sheet tr")).filter((row) => row.includes("Wheel nuts: 85 ft-lb by 1994 shop manual"));
  assert.equal(wheels.length, 2, "on the ground, and after 100 miles");
  assert.match(wheels[1], /after 100 miles$/);
  const [box_] = await lines(".sheet .open");
  assert.match(box_, /^Open items\. Not on the road until this box is empty\.☐ steering arms' bolts, where they are bolted☐ tie-rod nuts/);
  assert.doesNotMatch(box_, /☑|ball-joint nuts/, "what is ticked is not in the box");
  assert.match((await lines(".sheet .lists")).join(), /^Get2 in spindleModify, set.*3 turns out/);
  // With another panel open it is the sheet of the plan again.
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await turnTo(page, "Compare");
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await settled(page);
  assert.match(await page.$eval(".sheet", (sheet) => sheet.textContent), /scale 1:/);
  assert.deepEqual(faults, []);
});
