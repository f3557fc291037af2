// The rear, on a phone: its numbers typed, a block put under it, and what comes of both ends; the same numbers as the
// command's; and where the second module does not come, what is read against the ground says so.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { BIN, DESK, PHONE, code, onPagesOf, press, runningBrowser, settled, turnTo, type } from "./driver.mjs";

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
