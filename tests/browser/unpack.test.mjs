// What unpacks the page's code, against what others pack.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import "../../web/assets/unpack.js";
import { filesOfPage } from "./site.mjs";

const REFERENCE = new URL("../reference/lzma/ruled.lzma", import.meta.url);

/** Runs, noise, and what stood near and far before, with and without a byte changed: every kind of step is in it. */
function ruled() {
  const bytes = [];
  let seed = 1;
  const next = (below) => {
    seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
    return (seed >>> 16) % below;
  };
  let back = 1;
  while (bytes.length < 60000) {
    const [kind, long] = [next(4), 1 + next(300)];
    if (kind === 2) back = 1 + next(Math.min(bytes.length + 1, 65536));
    const byte = next(256);
    for (let at = 0; at < long; at += 1) {
      if (kind === 0) bytes.push(next(256));
      else if (kind === 1) bytes.push(byte);
      else bytes.push(kind === 3 && at % 7 === 6 ? next(256) : bytes[bytes.length - back] ?? 0);
    }
  }
  return Uint8Array.from(bytes.slice(0, 60000));
}

test("what liblzma packed is what it was", async () => {
  const packed = new Uint8Array(await readFile(REFERENCE));
  assert.deepEqual(await scrublineUnpack(packed), ruled());
  // With its turns between others'.
  assert.deepEqual(await scrublineUnpack(packed, 0), ruled());
});

test("both modules of the page are code once they are unpacked", async () => {
  const files = await filesOfPage();
  const packed = [...files].filter(([name]) => name.endsWith(".lzma"));
  assert.deepEqual(packed.map(([name]) => name.split("-")[0]), ["later", "web_bg"]);
  for (const [name, bytes] of packed) {
    assert.ok(WebAssembly.validate(await scrublineUnpack(new Uint8Array(bytes))), name);
  }
});

test("what is packed otherwise, is cut short or was changed is refused", async () => {
  const packed = new Uint8Array(await readFile(REFERENCE));
  const changed = (at, byte) => {
    const other = packed.slice();
    other[at] = byte;
    return other;
  };
  const page = new TextEncoder().encode("<!doctype html><title>Sign in</title>".padEnd(60));
  // Other properties; a size of 16 MiB and more, and of 4 GiB; a first byte of the coder that is none; a match that
  // reaches back before the beginning: the first bit is that of a match where the code is as great as can be.
  const wrong = [page, new Uint8Array(), changed(0, 93), changed(8, 255), changed(9, 1), changed(13, 7), changed(14, 254)];
  for (const [at, other] of wrong.entries()) await assert.rejects(scrublineUnpack(other), `${at}`);
  for (const length of [20, 5000, packed.length - 100]) await assert.rejects(scrublineUnpack(packed.subarray(0, length)), `${length}`);
});
