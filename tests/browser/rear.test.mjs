// The rear, on a phone: its numbers typed, a block put under it, and what comes of both ends; the same numbers as the
// command's; and where the second module does not come, what is read against the ground says so.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { BIN, DESK, PHONE, add, code, frontAlone, onPagesOf, press, runningBrowser, settled, spot, swipe, turnTo, type } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

const command = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input }).trim();
const CASTER = "Caster, against the ground";
const STAND = [["Frame bottom over the axle", "18 1/2"], ["Axle center, above", "12 3/16"], ["Axle center below", "-2 7/16"], ["Rear bump stop to the axle tube", "3"], ["Axle tube to the frame", "4 5/8"]];

const said = (page) => page.$eval(".panel.rear", (panel) => panel.textContent);
const answer = (page, name) => page.$eval(".panel.rear", (panel, name) => {
  const term = [...panel.querySelectorAll("dt")].find((term) => term.textContent === name);
  return term?.nextElementSibling.textContent ?? null;
}, name);

on({ viewport: PHONE, at: frontAlone() }, "a rear is measured and lowered by thumb, and both ends keep caster", async (page) => {
  await turnTo(page, "The rear");
  assert.doesNotMatch(await said(page), /What comes of it/, "nothing is guessed");
  await press(page, "How it stands", ".panel");
  for (const [name, value] of STAND) await type(page, name, value);
  assert.match(await answer(page, "Rear frame height"), /^18 1\/2 in ± 1\/16 in$/);
  await press(page, "Rear parts of the plan");
  await add(page, "Rear block");
  await turnTo(page, "The rear");
  assert.match(await answer(page, "Rear frame height"), /^16 1\/2 in ± 1\/16 in; as it sits 18 1\/2/);
  assert.match(await answer(page, "Rear bump travel"), /^1 in ± 1\/16 in; as it sits 3 in/);
  assert.match(await said(page), /brake valve on a rod/, "what can hurt is said");
  assert.match(await answer(page, "Nose down against as it sits"), /^0\.00° ± 0\.03°$/);
  const rows = JSON.parse(command(["rear", await code(page), "--units", "in", "--format", "json"]));
  const height = rows.find((row) => row.answer === "rear_frame_height" && row.truck !== "as it sits");
  assert.ok(Math.abs(height.value - 16.5) < 0.01, `the command says ${height.value}`);
});

on({ viewport: DESK, at: frontAlone() }, "caster against the ground follows the rear's parts", async (page) => {
  const tile = () => page.$$eval(".readout", (all, name) => all.find((one) => one.querySelector("dt").textContent === name)?.textContent, CASTER);
  assert.match(await tile(), /if the rear stays up/);
  await press(page, "The rear", "nav");
  await press(page, "How it stands", ".panel");
  await type(page, "Axle center below", "-2 7/16");
  assert.match(await tile(), /if the rear stays up/, "how it stands is not measured yet");
  await type(page, "Frame bottom over the axle", "18 1/2");
  await settled(page);
  assert.doesNotMatch(await tile(), /if the rear stays up/, "a rear that is measured is known to stay");
  assert.match(await tile(), /1\.00°/);
  await add(page, "Rear block");
  await settled(page);
  assert.match(await tile(), /2\.08°.*no change/);
});

/** What the command says of the rear of the plan on the sketch, in inches. */
async function told(page, answer) {
  const rows = JSON.parse(command(["rear", await code(page), "--units", "in", "--format", "json"]));
  return rows.filter((row) => row.answer === answer)[1].value;
}

/** What is written on the picture from the side. */
const written = (page) => page.$eval('[data-aspect="Side"] svg', (svg) => [...svg.querySelectorAll("[aria-label]")].map((label) => label.getAttribute("aria-label")).join("; "));
/** What is said behind a name there. */
const seen = async (page, name) => (await written(page)).split("; ").find((words) => words.startsWith(name)).slice(name.length).trim();

/** Goes to the rear end on a phone, by what stands on it. */
async function toRear(page) {
  await press(page, "Side");
  await page.waitForSelector(".padtools .goes-on:not([hidden])", { timeout: 20_000 });
  await press(page, "Whole truck");
}

on({ viewport: PHONE }, "the whole truck stands to scale, and its rear comes down by thumb", async (page) => {
  await toRear(page);
  assert.equal(await seen(page, "Rear frame height"), "20 and one sixteenth inches");
  // The front's spindle is dragged here too, and the nose goes with it.
  const before = Number.parseFloat(await seen(page, "Nose down"));
  await swipe(page, await spot(page, "wheel-centre", "Side"), [0, -6]);
  assert.ok(Number.parseFloat(await seen(page, "Nose down")) > before);
  await press(page, "Rear end");
  const leaf = await spot(page, "rear-block", "Side");
  await swipe(page, leaf, [0, 12]);
  const down = await told(page, "rear_comes_down");
  assert.ok(down > 1, `a block lowers: ${down}`);
  assert.match(await seen(page, "Rear frame down"), /^1 and|^2 and|^2 inch/);
  await swipe(page, await spot(page, "rear-block", "Side"), [0, -24]);
  assert.ok(await told(page, "rear_comes_down") < 0, "drawn the other way it raises");
});

on({ viewport: PHONE }, "shackle, hanger and stop are dragged by thumb", async (page) => {
  await toRear(page);
  await press(page, "Rear end");
  // Its eye hangs below the bolt: longer raises.
  await swipe(page, await spot(page, "rear-shackle", "Side"), [0, 9]);
  assert.ok(await told(page, "rear_comes_down") < -0.2);
  await press(page, "↶");
  assert.ok(Math.abs(await told(page, "rear_comes_down")) < 0.001, "undone");
  await swipe(page, await spot(page, "rear-hanger", "Side"), [0, -6]);
  assert.ok(await told(page, "rear_comes_down") > 0.2, "a bolt higher on the frame lets it down");
  const gap = await told(page, "rear_stop");
  await swipe(page, await spot(page, "rear-stop", "Side"), [0, -5]);
  assert.ok(await told(page, "rear_stop") > gap + 0.5);
});

on({ viewport: PHONE }, "a shackle that cannot reach is said, and a drag back undoes it", async (page) => {
  await toRear(page);
  await press(page, "Rear end");
  const said = () => page.$eval("#said-Side", (all) => all.textContent);
  let pulls = 0;
  for (; pulls < 6 && !/does not reach|pulled straight/.test(await said()); pulls += 1) {
    await swipe(page, await spot(page, "rear-shackle", "Side"), [0, -16]);
  }
  assert.match(await said(), /does not reach|pulled straight/);
  await swipe(page, await spot(page, "rear-shackle", "Side"), [0, 16 * pulls]);
  assert.doesNotMatch(await said(), /does not reach|pulled straight/);
});

const goesOn = (page) => page.$eval(".padtools .goes-on", (button) => button.checkVisibility());

on({ viewport: PHONE }, "a truck of one's own has no rear to go on to, and is seen from the side all the same", async (page) => {
  await toRear(page);
  await press(page, "Put in my truck");
  await settled(page);
  assert.ok(!(await goesOn(page)));
  const own = await page.$eval('[data-aspect="Side"]', (pad) => pad.textContent);
  assert.match(own, /caster/);
  assert.doesNotMatch(own, /draws itself/);
  await turnTo(page, "The rear");
  assert.ok(!(await page.$$eval(".panel.rear .row button", (all) => all.some((one) => /See it/.test(one.textContent) && one.checkVisibility()))));
});
