// The rear, on a phone: its numbers typed, a block put under it, and what comes of both ends; the same numbers as the
// command's; and where the second module does not come, what is read against the ground says so.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { BIN, DESK, PHONE, axe, code, onPagesOf, press, runningBrowser, searched, settled, turnTo, type } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

const CASTER = "Caster, against the ground";
const STAND = [["Frame bottom over the axle", "18 1/2"], ["Axle center, above", "12 3/16"], ["Axle center below", "-2 7/16"], ["Rear bump stop to the axle tube", "3"], ["Axle tube to the frame", "4 5/8"]];

const said = (page) => page.$eval(".panel.rear", (panel) => panel.textContent);
const answer = (page, name) => page.$eval(".panel.rear", (panel, name) => {
  const term = [...panel.querySelectorAll("dt")].find((term) => term.textContent === name);
  return term?.nextElementSibling.textContent ?? null;
}, name);

on({ viewport: PHONE }, "a rear is measured and lowered by thumb, and both ends keep caster", async (page) => {
  await turnTo(page, "The rear");
  assert.doesNotMatch(await said(page), /What comes of it/, "nothing is guessed");
  await press(page, "How it stands", ".panel");
  for (const [name, value] of STAND) await type(page, name, value);
  assert.match(await answer(page, "Rear frame height"), /^18 1\/2 in ± 1\/16 in$/);
  await press(page, "Rear parts of the plan");
  await press(page, "Rear", ".panel");
  await press(page, "Add Rear block");
  await turnTo(page, "The rear");
  assert.match(await answer(page, "Rear frame height"), /^16 1\/2 in ± 1\/16 in; as it sits 18 1\/2/);
  assert.match(await answer(page, "Rear bump travel"), /^1 in ± 1\/16 in; as it sits 3 in/);
  assert.match(await said(page), /brake valve on a rod/, "what can hurt is said");
  assert.match(await answer(page, "Nose down against as it sits"), /^0\.00° ± 0\.03°$/);
  const rows = JSON.parse(execFileSync(BIN, ["rear", await code(page), "--units", "in", "--format", "json"], { encoding: "utf8" }));
  const height = rows.find((row) => row.answer === "rear_frame_height" && row.truck !== "as it sits");
  assert.ok(Math.abs(height.value - 16.5) < 0.01, `the command says ${height.value}`);
});

on({ viewport: DESK }, "caster against the ground follows the rear's parts", async (page) => {
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
  await press(page, "Parts", "nav");
  await press(page, "Rear", ".panel");
  await press(page, "Add Rear block");
  await settled(page);
  assert.match(await tile(), /2\.08°.*as it sits/);
});

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  on({ viewport }, `the rear comes down as far with every way on a ${name}, as the command has it`, async (page) => {
    const wanted = () => page.evaluateHandle(() => [...document.querySelectorAll(".panel label")].find((label) => label.textContent.includes("Bring the rear down as far")) ?? null);
    await turnTo(page, "Find a drop");
    assert.equal(await (await wanted()).jsonValue(), null, "nothing is asked of a rear that nobody has measured");
    await turnTo(page, "The rear");
    await press(page, "How it stands", ".panel");
    const far = STAND.map(([name, value]) => [name, { "Rear bump stop to the axle tube": "4 3/8", "Axle tube to the frame": "6 3/8" }[name] ?? value]);
    for (const [name, value] of far) await type(page, name, value);
    const before = await code(page);
    await turnTo(page, "Find a drop");
    await (await wanted()).asElement().click();
    await searched(page, "2");
    const list = await page.$$eval(".panel > .cards > *", (all) => all.map((one) => (one.matches("article") ? "card" : one.textContent)));
    const said = list.findIndex((text) => /rear brakes lock first/.test(text));
    assert.ok(said >= 0 && said < list.indexOf("card"), `what can hurt is said before any way: ${list.join(" | ")}`);
    const found = await page.$$eval(".panel .card", (cards) => cards.map((card) => card.textContent));
    const asked = ["ways", before, "--drop", "2", "--keep-rake", "--no-trim", "--units", "in", "--format", "json"];
    const rows = JSON.parse(execFileSync(BIN, asked, { encoding: "utf8" }));
    assert.equal(found.length, rows.length);
    for (const [at, row] of rows.entries()) {
      assert.ok(found[at].startsWith(row.parts), `${found[at]}: ${row.parts}`);
      assert.match(row.parts, /rear block|shackle/);
      assert.match(found[at], /, the rear down by its parts/);
      const frequency = Number(/([\d.]+) Hz/.exec(found[at])[1]);
      assert.ok(Math.abs(frequency - row.ride_frequency_hz) < 0.006, `${found[at]}: ${row.ride_frequency_hz}`);
      assert.equal(Number(/gives up (?:~ )?([\d.]+)/.exec(found[at])[1]).toFixed(2), row.cost.toFixed(2));
    }
    assert.deepEqual(await axe(page), []);
    // Front and rear with one press, and back with one.
    await press(page, "Put it on the sketch", ".panel");
    const laid = JSON.parse(execFileSync(BIN, ["open", await code(page), "--format", "json"], { encoding: "utf8" }));
    const kinds = laid.proposals.at(-1).changes.map(({ change }) => change);
    assert.ok(kinds.some((kind) => kind.startsWith("rear_")) && kinds.some((kind) => !kind.startsWith("rear_")), kinds.join());
    const first = JSON.parse(execFileSync(BIN, ["open", rows[0].code, "--format", "json"], { encoding: "utf8" }));
    assert.deepEqual(laid.proposals.at(-1).changes, first.proposals[0].changes);
    await press(page, "Undo");
    const [back, was] = [await code(page), before].map((one) => JSON.parse(execFileSync(BIN, ["open", one, "--format", "json"], { encoding: "utf8" })));
    assert.deepEqual([back.truck, back.proposals], [was.truck, was.proposals]);
  });
}

on({ viewport: PHONE }, "a rear that nothing brings down so far says so", async (page) => {
  await turnTo(page, "The rear");
  await press(page, "How it stands", ".panel");
  for (const [name, value] of STAND) await type(page, name, value);
  await turnTo(page, "Find a drop");
  await page.evaluate(() => [...document.querySelectorAll(".panel label")].find((label) => label.textContent.includes("Bring the rear down as far")).click());
  await type(page, "Lower by", "6");
  await press(page, "Search");
  assert.match(await page.$eval(".notices", (notices) => notices.textContent), /No block or shackle on the table brings the rear down so far/);
});
