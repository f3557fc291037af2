// Every way out of the page: QR code, text for a thread, table, pictures.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, readdir, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import LinkifyIt from "linkify-it";
import { BIN, DESK, PHONE, frontAlone, launch, firstLines, open, openIn, press, readout, said, settled, turnTo, type } from "./driver.mjs";
import { filesOfPage, livingAt, serve } from "./site.mjs";

const jsQR = createRequire(import.meta.url)("jsqr");
const HOME = "https://example.org/scrubline/";

let browser;
let site;
before(async () => {
  browser = await launch();
  site = await serve(livingAt(await filesOfPage(), HOME));
});
after(async () => {
  await browser?.close();
  await site?.stop();
});

/** Runs a test on the Share panel; what is saved or copied is caught in `window.out`. */
function on(options, name, body) {
  test(name, async () => {
    const { context, page, faults } = await open(browser, { url: site.url, ...options });
    try {
      await page.evaluate(() => {
        window.out = [];
        const made = new Map();
        const make = URL.createObjectURL;
        URL.createObjectURL = (blob) => {
          const address = make.call(URL, blob);
          made.set(address, blob);
          return address;
        };
        HTMLAnchorElement.prototype.click = function click() {
          window.out.push({ name: this.download, blob: made.get(this.href) });
        };
        navigator.clipboard.writeText = (text) => {
          window.out.push({ name: "copied", text });
          return Promise.resolve();
        };
      });
      await turnTo(page, "Send");
      await body(page);
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
    }
  });
}

const link = (page) => page.$eval("textarea.code", (area) => area.value);

/** What was last saved or copied, as text. */
const out = (page) => page.evaluate(async () => {
  for (let times = 0; times < 100 && !window.out.length; times += 1) await new Promise((done) => setTimeout(done, 50));
  const last = await window.out.pop();
  return { name: last.name, text: last.text ?? (await last.blob.text()) };
});

/** The QR code on the page as a camera sees it: pixels. */
const seen = (page) => page.$eval("qr-code svg", async (svg) => {
  const side = 900;
  const copy = svg.cloneNode(true);
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.setAttribute("width", side);
  copy.setAttribute("height", side);
  const picture = new Image();
  picture.src = `data:image/svg+xml,${encodeURIComponent(copy.outerHTML)}`;
  await picture.decode();
  const canvas = new OffscreenCanvas(side, side).getContext("2d");
  canvas.drawImage(picture, 0, 0);
  return { side, pixels: [...canvas.getImageData(0, 0, side, side).data] };
});

async function scanned(page) {
  const { side, pixels } = await seen(page);
  return jsQR(Uint8ClampedArray.from(pixels), side, side)?.data;
}

/** Runs a test on the page with nothing of the browser's replaced. */
function untouched(name, body) {
  test(name, async () => {
    const { context, page, faults } = await open(browser, { url: site.url, viewport: DESK });
    try {
      await turnTo(page, "Send");
      await body(page, context);
      assert.deepEqual(faults, []);
    } finally {
      await context.close();
    }
  });
}

describe("what leaves by the browser's own ways", () => {
  test("an answer to three plans, beside which there is no room, says that it is one of theirs that changes", async () => {
    const command = (args, input) => execFileSync(BIN, args, { encoding: "utf8", input }).trim();
    const file = JSON.parse(command(["open", command(["link"]), "--format", "json"]));
    file.proposals.push({ ...file.proposals[0], id: 2, name: "Third" });
    const { context, page } = await open(browser, { url: site.url, viewport: PHONE, sheet: true, at: `#${command(["link", "-"], JSON.stringify(file))}` });
    try {
      await press(page, "2 in spindle", ".which");
      await press(page, "Try a change", ".theirs");
      await type(page, "Drop, pin higher", "2 1/2");
      assert.match(await said(page), /no room for another plan: what you change is theirs/);
    } finally {
      await context.close();
    }
  });

  untouched("is on the clipboard: the link, and the text with it", async (page, context) => {
    await context.overridePermissions(new URL(site.url).origin, ["clipboard-read", "clipboard-write", "clipboard-sanitized-write"]);
    await page.bringToFront();
    await press(page, "Copy");
    const copied = () => page.evaluate(() => navigator.clipboard.readText());
    assert.equal(await copied(), await link(page));
    await press(page, "Copy as text");
    const text = await copied();
    assert.ok(text.endsWith(`\n${await link(page)}\n`), text);
    assert.ok(text.includes(`→ ${await readout(page, "Frame height")}`), text);
  });

  test("an answer to somebody's plan stands beside it, and says what it changes of it", async () => {
    const sent = (await readFile(new URL("../links/v1/knuckle_swap.link", import.meta.url), "utf8")).trim();
    const at = sent.slice(sent.indexOf("#"));
    const { context, page } = await open(browser, { url: site.url, viewport: PHONE, at, sheet: true });
    try {
      await context.overridePermissions(new URL(site.url).origin, ["clipboard-read", "clipboard-write", "clipboard-sanitized-write"]);
      const plans = () => firstLines(page, ".which .proposal");
      const theirs = await plans();
      await press(page, "Try a change", ".theirs");
      await type(page, "Rear comes down by", "1");
      assert.deepEqual((await plans()).sort(), [...theirs, "My answer"].sort());
      assert.equal((await firstLines(page, '.which [aria-pressed="true"]'))[0], "My answer");
      const post = async (of) => {
        await turnTo(of, "Send");
        await of.bringToFront();
        await press(of, "Copy as text");
        return of.evaluate(() => navigator.clipboard.readText());
      };
      assert.match(await post(page), /\nAgainst what was sent:\nBeside it: My answer\n/);
      // Also when the page was left in between.
      const { page: later } = await openIn(context, { url: site.url, viewport: PHONE });
      assert.match(await post(later), /\nAgainst what was sent:\nBeside it: My answer\n/);
    } finally {
      await context.close();
    }
  });

  untouched("is a sheet on the printer, which is asked for by a button", async (page) => {
    await page.evaluate(() => { window.print = () => { window.printed = true; }; });
    await press(page, "Print sheet");
    assert.equal(await page.evaluate(() => window.printed), true);
  });

  untouched("is a file on the disk, which the command opens as the design of the page", async (page, context) => {
    const folder = await mkdtemp(join(tmpdir(), "saved-"));
    try {
      const session = await page.createCDPSession();
      await session.send("Browser.setDownloadBehavior", { behavior: "allow", downloadPath: folder, browserContextId: context.id });
      await type(page, "Name of this truck", "Saved");
      await press(page, "Save file");
      const names = () => readdir(folder).then((all) => all.filter((name) => name.endsWith(".json")));
      for (let times = 0; times < 100 && !(await names()).length; times += 1) await new Promise((done) => setTimeout(done, 50));
      const [name] = await names();
      assert.match(name, /^saved.*\.json$/);
      const opened = (design) => execFileSync(BIN, ["open", design, "--format", "json"], { encoding: "utf8" });
      assert.equal(opened(join(folder, name)), opened(await link(page)));
      assert.equal(JSON.parse(await readFile(join(folder, name), "utf8")).proposals[0].changes[0].drop, 50.8);
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  });
});

describe("sharing", () => {
  for (const [name, options] of [["phone, dark", { viewport: PHONE, scheme: "dark" }], ["desk", { viewport: DESK }]]) {
    on(options, `the QR code on the screen is the link: ${name}`, async (page) => {
      await press(page, "QR code");
      await page.waitForSelector("qr-code svg");
      assert.equal(await scanned(page), await link(page));
      // A longer link is a larger code, and it follows.
      await type(page, "Note", "What would the fender say to two inches and a half, and the bars a turn out? ".repeat(8));
      const long = await link(page);
      assert.ok(long.length > 500, `${long.length}`);
      assert.equal(await scanned(page), long);
    });
  }

  on({ viewport: DESK }, "text for a thread has the readouts' numbers and a link that is found whole", async (page) => {
    await press(page, "Copy as text");
    const { text } = await out(page);
    assert.ok(text.includes("2 in spindle"), text);
    assert.ok(text.includes(`→ ${await readout(page, "Frame height")}`), text);
    const found = new LinkifyIt().match(text);
    assert.deepEqual(found.map((one) => one.url), [await link(page)]);
    await press(page, "Copy with [b] marks");
    const marked = (await out(page)).text;
    assert.match(marked, /^\[b\][^[\]]+\[\/b\]\n/);
    assert.equal(marked.match(/\[list\]([^]*)\[\/list\]/)[1].trim().split("\n").every((line) => line.startsWith("[*]")), true);
    assert.deepEqual(new LinkifyIt().match(marked).map((one) => one.url), [await link(page)]);
  });

  on({ viewport: DESK }, "a title brings no markup, no address and no call of its own into a thread", async (page) => {
    const finder = new LinkifyIt({ fuzzyIP: true });
    finder.add("@", { validate: /^\w+/ });
    for (const title of [
      "[url=http://evil.example]Win[/url]", "[click](https://evil.example/)", "![](//evil.example/a.png)", "<a href=//evil.example>x</a>",
      "see http://evil.example", "www.evil.example", "evil.example.com", "me@evil.example.com", "@everyone look", "# **Loud**", "ht[b]tp://evil.example",
    ]) {
      await type(page, "Name of this truck", title);
      for (const button of ["Copy as text", "Copy with [b] marks"]) {
        await press(page, button);
        const { text } = await out(page);
        const [first] = text.split("\n");
        assert.match(first, /[a-z]{3}.*2 in spindle/i, "the words stay");
        assert.doesNotMatch(first.replace(/^\[b\]|\[\/b\]$/g, ""), /[[\]<>*_`~|\\]|^\s*#/, title);
        assert.deepEqual(finder.match(text).map((one) => one.url), [await link(page)], `${title}: ${first}`);
      }
    }
    await type(page, "Name of this truck", "Juniper's 2.5 in & 1:25 (low)");
    await press(page, "Copy as text");
    assert.match((await out(page)).text, /^Juniper's 2\.5 in & 1:25 \(low\): 2 in spindle\n/, "what is no markup is as it was typed");
  });

  on({ viewport: DESK }, "a link survives automatic linking wherever it stands in a sentence", async (page) => {
    const finder = new LinkifyIt();
    for (const note of ["", "longer", "and longer still, with more to say"]) {
      await type(page, "Note", note);
      const whole = await link(page);
      assert.ok(whole.startsWith(`${HOME}#`));
      for (const [before, behind] of [
        ["see ", " and say"], ["(", ")"], ["[", "]"], ["[url]\n", "\n[/url]"], ["\"", "\""], ["'", "'"], ["<", ">"],
        ["at the end: ", "."], ["or: ", ","], ["is it ", "?"], ["look: ", "!"], ["first\n", "\nlast"], ["| ", " |"],
      ]) {
        const found = finder.match(before + whole + behind);
        assert.deepEqual(found?.map((one) => one.url), [whole], `${before}…${behind}`);
      }
    }
  });

  on({ viewport: DESK }, "what a finder takes beyond the link does no harm", async (page) => {
    await turnTo(page, "Parts");
    await type(page, "Drop, pin higher", "3");
    await turnTo(page, "Send");
    const whole = await link(page);
    // Curved quotes, stars and board markup are part of an address for this finder.
    for (const behind of ["”", "’", "*", "[/url]"]) {
      const [{ url }] = new LinkifyIt().match(whole + behind);
      assert.equal(url, whole + behind);
      const { context, page: stranger } = await open(browser, { url: site.url, at: `#${encodeURI(url.split("#")[1])}` });
      assert.equal(await readout(stranger, "Frame height"), "8 13/16 in", behind);
      await context.close();
    }
  });

  on({ viewport: DESK, at: frontAlone() }, "the table is the comparison, and no name in it becomes a formula", async (page) => {
    await turnTo(page, "Compare");
    await page.$eval(".card input", (input) => { input.focus(); input.select(); });
    await page.keyboard.type('=1+1,"x"');
    await page.keyboard.press("Enter");
    await page.evaluate(() => document.activeElement.blur());
    await settled(page);
    const rows = await page.$$eval(".compare tbody", (groups) => groups.length);
    await turnTo(page, "Send");
    await press(page, "Table, CSV");
    const { name, text } = await out(page);
    assert.match(name, /\.csv$/);
    const lines = text.replace(/^\ufeff/, "").trimEnd().split("\r\n");
    assert.equal(lines.length, rows + 1);
    assert.equal(lines[0], ',"As it sits","\'=1+1,""x"""');
    const height = lines.find((line) => line.startsWith('"Frame height"'));
    // With how far off it may be, where that is known by now.
    assert.match(height, new RegExp(`,"${await readout(page, "Frame height")}( ± 1/8 in)?"$`));
  });

  on({ viewport: PHONE }, "pictures are as wide as a thread, with their numbers under them", async (page) => {
    await press(page, "Picture, SVG");
    const { name, text } = await out(page);
    assert.match(name, /\.svg$/);
    assert.match(text, /<svg [^>]*width="600"/);
    for (const words of ["2 in spindle", "As it sits", "Bump travel", "Bump steer"]) assert.ok(text.includes(words), words);
    await press(page, "Picture, PNG");
    const picture = await page.evaluate(async () => {
      for (let times = 0; times < 100 && !window.out.length; times += 1) await new Promise((done) => setTimeout(done, 50));
      const { name: file, blob } = await window.out.pop();
      const bitmap = await createImageBitmap(blob);
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
      canvas.drawImage(bitmap, 0, 0);
      // Ink in the drawing and in the caption: shares of pixels that are dark.
      const dark = (top, height) => {
        const { data } = canvas.getImageData(0, top, bitmap.width, height);
        let count = 0;
        for (let at = 0; at < data.length; at += 4) count += data[at] + data[at + 1] + data[at + 2] < 300;
        return count / (data.length / 4);
      };
      return { file, type: blob.type, width: bitmap.width, drawing: dark(0, 860), caption: dark(870, bitmap.height - 870) };
    });
    assert.match(picture.file, /\.png$/);
    assert.equal(picture.type, "image/png");
    assert.equal(picture.width, 1200);
    assert.ok(picture.drawing > 0.01 && picture.caption > 0.01, JSON.stringify(picture));
  });
});
