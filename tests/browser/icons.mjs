// The icon of an installed page where a drawing of lines is not taken, drawn from web/assets/icon.svg: `node tests/browser/icons.mjs`.

import { readFileSync, writeFileSync } from "node:fs";
import { deflateSync } from "node:zlib";
import { launch } from "./driver.mjs";

const ASSETS = new URL("../../web/assets/", import.meta.url);
// A system may cut an icon to a circle of four fifths of its width; the drawing keeps within three quarters.
const FRAME = "-6.4 -6.4 44.8 44.8";
const SIZE = 192;
// The drawing's paper, ink and red, and the shade between paper and ink that its edges pass through: a pixel is
// the nearest of them, in two bits, and the file half as long as with all shades.
const PALETTE = ["#fbfaf6", "#1d2733", "#c8401a", "#8c9195"].map((colour) => colour.match(/\w\w/g).map((part) => parseInt(part, 16)));

/** A PNG (ISO/IEC 15948) with that palette, of 8-bit RGBA that leaves no pixel transparent. */
function png(size, rgba) {
  const line = size / 4 + 1;
  const rows = Buffer.alloc(size * line);
  for (let at = 0; at < size * size; at += 1) {
    const far = PALETTE.map((colour) => colour.reduce((sum, part, index) => sum + (part - rgba[at * 4 + index]) ** 2, 0));
    const [across, down] = [at % size, Math.floor(at / size)];
    rows[down * line + 1 + (across >> 2)] |= far.indexOf(Math.min(...far)) << (6 - 2 * (across & 3));
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([2, 3, 0, 0, 0], 8);
  const parts = [["IHDR", header], ["PLTE", Buffer.from(PALETTE.flat())], ["IDAT", deflateSync(rows, { level: 9 })], ["IEND", Buffer.alloc(0)]];
  return Buffer.concat([Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]), ...parts.map(([name, data]) => chunk(name, data))]);
}

function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(data.length, 0);
  body.copy(whole, 4);
  whole.writeUInt32BE(crc(body), body.length + 4);
  return whole;
}

/** CRC-32 as in annex D of the standard. */
function crc(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}

const browser = await launch();
const page = await browser.newPage();
const icon = readFileSync(new URL("icon.svg", ASSETS), "utf8");
// The paper runs to the edge instead of having round corners of its own.
const drawing = icon.replace(/viewBox="[^"]*"/, `viewBox="${FRAME}"`)
  .replace(/<rect [^>]*fill="([^"]*)"\/>/, '<rect x="-8" y="-8" width="48" height="48" fill="$1"/>');
const rgba = await page.evaluate(async (svg, side) => {
  const picture = new Image();
  picture.src = `data:image/svg+xml,${encodeURIComponent(svg.replace("<svg ", `<svg width="${side}" height="${side}" `))}`;
  await picture.decode();
  const canvas = new OffscreenCanvas(side, side).getContext("2d");
  canvas.drawImage(picture, 0, 0);
  return [...canvas.getImageData(0, 0, side, side).data];
}, drawing, SIZE);
writeFileSync(new URL(`icon-${SIZE}.png`, ASSETS), png(SIZE, rgba));
await browser.close();
