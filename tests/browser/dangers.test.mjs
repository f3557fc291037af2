// What can hurt or mislead is said on the page as the command says it, and first; and what Compare says is the
// command's, row by row.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { describe } from "node:test";
import { BIN, DESK, PHONE, frontAlone, note, number, onPagesOf, press, readout, runningBrowser, searched, turnTo, type } from "./driver.mjs";

const running = runningBrowser();
const on = onPagesOf(() => running.browser);

const run = (...args) => execFileSync(BIN, args, { encoding: "utf8" });

const said = (page, which) => page.$$eval(which, (all) => all.map((one) => one.textContent));

describe("alignment", () => {
  on({ viewport: PHONE }, "says first that a height is on the bump stop, and leads to the lowest that is not", async (page) => {
    await press(page, "As it sits", ".which");
    await turnTo(page, "Alignment");
    await type(page, "Frame height", "7 1/2");
    const command = run("setup", "--plan", "0", "--height", "7 1/2 in", "--units", "in").split("\n");
    const danger = command.find((line) => line.startsWith("Dangerous: "));
    const [first, ...others] = await page.$$eval(".panel .cards > *", (all) => all.map((one) => [one.getAttribute("role"), one.textContent]));
    assert.deepEqual(first, ["alert", danger]);
    // What is to be minded stands over the first order, in the command's words and order.
    const orders = others.findIndex(([, text]) => text.includes("Adjuster bolt"));
    const minded = others.slice(0, orders).map(([, text]) => text).filter((text) => command.includes(text));
    assert.equal(minded.length, 4, minded.join("\n"));
    assert.deepEqual(minded, command.filter((line) => minded.includes(line)));
    assert.match(minded[0], /let it down fully at its bolt before anything .* paint, never a scratch/);
    assert.match(others[orders - 1][1], /^Stands on: bump stop, solid\. Bump travel: 0 in, ended by bump stop\.$/);

    const lowest = danger.match(/: ([\d/ ]+ in)\.$/)[1];
    await press(page, `Set it to ${lowest}`);
    assert.deepEqual(await said(page, '.panel [role="alert"]'), []);
    assert.match((await said(page, ".panel .cards > p")).join("\n"), /Stands on: spring\. Bump travel: 1(?: 1\/16)? in, /);
  });

  on({ viewport: PHONE }, "leads to one height, which leaves both sides their travel where each is short of another", async (page) => {
    await turnTo(page, "My truck");
    await press(page, "Right side", ".panel");
    await press(page, "4. Fore and aft, tie rod, lock");
    await type(page, "Frame height, above the ground", "11 1/2");
    await turnTo(page, "Alignment");
    await type(page, "Frame height", "7 1/2");
    const dangers = await said(page, '.panel [role="alert"]');
    assert.deepEqual(dangers.map((danger) => danger.split(":")[0]), ["Left", "Right"]);
    const heights = dangers.map((danger) => danger.match(/: ([\d/ ]+ in)\.$/)[1]);
    assert.notEqual(heights[0], heights[1]);
    const [highest] = heights.sort((one, other) => number(other) - number(one));
    assert.deepEqual((await said(page, ".panel .cards > button")).filter((label) => label.startsWith("Set it")), [`Set it to ${highest}`]);
    await press(page, `Set it to ${highest}`);
    assert.deepEqual(await said(page, '.panel [role="alert"]'), []);
  });

  on({ viewport: DESK, at: frontAlone() }, "takes no caster from a truck whose rear comes down alike", async (page) => {
    const caster = "Caster, against the ground";
    assert.match(await note(page, caster), /if the rear stays up$/);
    assert.equal(await readout(page, caster), "1.00°");
    await turnTo(page, "Parts");
    await type(page, "Rear comes down by", "2");
    assert.equal(await readout(page, caster), "2.08°", "both ends down alike");
    assert.doesNotMatch(await note(page, caster), /rear/);
    await turnTo(page, "Alignment");
    assert.doesNotMatch((await said(page, ".panel table")).join(), /if the rear stays up/);
  });
});

describe("find a drop", () => {
  on({ viewport: PHONE }, "says what comes nearest where nothing reaches, and how the bar is let down", async (page) => {
    await searched(page, "8");
    const [reason] = await said(page, ".reasons li");
    assert.match(reason, /^\d+ stand at another height; nearest: [\d/ ]+ in lower, [\d/ ]+ in short, .*: \d.* in spindle, /);
    assert.match(await page.$eval(".progress", (line) => line.textContent), /: none is within the limits\.$/);
    // As the command has it of the same parts, and before what was left out.
    const lines = run("ways", "--drop", "8 in", "--units", "in", "--no-trim", "--turns", "12").split("\n");
    const lowest = lines.find((line) => line.startsWith("Lowest these parts reach: frame height "));
    assert.deepEqual(await said(page, ".panel .cards .lowest"), [lowest]);
    assert.match(lowest, / in lower: .*\. The next ones down /);
    const order = await said(page, ".panel .cards > *");
    assert.match(order[0], /^A torsion bar can kill: /);
    assert.equal(order[1], lowest);
    assert.match(await page.$eval(".panel", (panel) => panel.textContent), /let down fully at its bolt before anything .* paint, never a scratch/);
  });
});

describe("what is printed", () => {
  on({ viewport: PHONE }, "of the scrub line says for what it holds", async (page) => {
    await turnTo(page, "What hits");
    assert.ok((await said(page, ".panel h3")).includes("Scrub line, front axle, standing still"));
    assert.match(run("report"), /^Scrub line: front axle only, standing still, under the worst load that is stated$/m);
  });

  /** The rows of Compare by the command's keys, of its report and of the middle of its sweep. */
  const KEYS = {
    "Frame height": "ride_height_in",
    "Top of the tire to the fender lip, straight up": "fender_above_tire_in",
    "Bump travel": "bump_left_in",
    "Bump travel, ended by": "bump_ended_by",
    "Droop travel": "droop_left_in",
    "Camber": "camber_deg",
    "Caster, against the ground": "caster_ground_deg",
    "Camber gained in bump, for an inch": "camber_rate_deg_per_in",
    "Bump steer: toe in bump, for an inch": "toe_rate_deg_per_in",
    "Roll center": "roll_centre_in",
    "Track": "track_in",
    "Tire to frame": "tire_to_frame_in",
    "Tire to fender": "tire_to_fender_in",
    "Ride frequency, tire left out": "ride_frequency_hz",
    "Frame height with the driver": "ride_height_driver_in",
    "Frame height with the load in the bed": "ride_height_bed_in",
    "Spring at the bump stop, of what it may bear": "spring_share_bump",
    "Spring at full droop": "spring_at_droop",
  };

  /** All that the command says of a plan by keys, at rest. */
  function told(plan) {
    const [head, , middle] = run("sweep", "--plan", plan, "--steps", "3", "--units", "in", "--format", "csv").split("\n").map((line) => line.split(","));
    const swept = Object.fromEntries(head.map((name, at) => [name, Number(middle[at])]));
    const report = JSON.parse(run("report", "--units", "in", "--format", "json")).trucks[Number(plan)];
    return { ...swept, ...report, track_in: 2 * report.half_track_in };
  }

  on({ viewport: DESK }, "in Compare is what the command has, in every row and column", async (page) => {
    const all = [told("0"), told("1"), told("2")];
    await turnTo(page, "Compare");
    const rows = await page.$$eval("table.compare tbody", (all) => all.map((one) => [
      one.querySelector("th span").textContent,
      [...one.querySelectorAll("td:not([colspan])")].map((cell) => cell.querySelector("b").textContent || cell.querySelector("small:not(.spread)").textContent),
    ]));
    assert.deepEqual(rows.map(([name]) => name).sort(), Object.keys(KEYS).sort(), "no row is left out");
    for (const [name, values] of rows) {
      assert.equal(values.length, 3, name);
      for (const [column, value] of values.entries()) {
        const want = all[column][KEYS[name]];
        if (typeof want === "string") {
          assert.equal(value, want, name);
          continue;
        }
        // A sixteenth of an inch, a hundredth of a degree or a hertz, a percent.
        const [own, half] = value.endsWith(" in") ? [number(value), 1 / 32] : value.endsWith("%") ? [number(value) / 100, 0.005] : [number(value), 0.005];
        assert.ok(Math.abs(own - want) <= half + 1e-4, `${name}: ${value} of ${want}`);
      }
    }
  });
});
