// What unpacks the page's code, against what packs it.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import "../../web/assets/unpack.js";
import { filesOfPage } from "./site.mjs";

const REFERENCE = new URL("../reference/packed/ruled.packed", import.meta.url);

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

const unpacked = (bytes, slice) => scrublineUnpack(new Blob([bytes]).stream(), slice);

test("what was packed is what it was", async () => {
  const packed = new Uint8Array(await readFile(REFERENCE));
  assert.deepEqual(await unpacked(packed), ruled());
  // With its turns between others'.
  assert.deepEqual(await unpacked(packed, 0), ruled());
});

test("it comes in pieces of any length", async () => {
  const packed = new Uint8Array(await readFile(REFERENCE));
  for (const long of [1, 7, 1000]) {
    let at = 0;
    const pieces = new ReadableStream({
      pull(to) {
        if (at >= packed.length) to.close();
        else to.enqueue(packed.slice(at, at += long));
      },
    });
    assert.deepEqual(await scrublineUnpack(pieces), ruled(), `${long}`);
  }
});

test("both modules of the page are code once they are unpacked", async () => {
  const files = await filesOfPage();
  const packed = [...files].filter(([name]) => name.endsWith(".packed"));
  assert.deepEqual(packed.map(([name]) => name.split("-")[0]), ["later", "web_bg"]);
  for (const [name, bytes] of packed) {
    assert.ok(WebAssembly.validate(await unpacked(bytes)), name);
  }
});

test("what is packed otherwise, is cut short or was changed is refused", async () => {
  const packed = new Uint8Array(await readFile(REFERENCE));
  const changed = (at, ...bytes) => {
    const other = packed.slice();
    other.set(bytes, at);
    return other;
  };
  const page = new TextEncoder().encode("<!doctype html><title>Sign in</title>".padEnd(60));
  // A size of 16 MiB and more; bytes that come again before there are any, as the code says that is as great as can be;
  // a byte in the middle; one more at the end.
  const wrong = [page, new Uint8Array(), changed(3, 1), changed(12, 255, 255, 255, 255), changed(5000, 1, 2, 3), [...packed, 0]];
  for (const [at, other] of wrong.entries()) await assert.rejects(unpacked(Uint8Array.from(other)), /not packed/, `${at}`);
  for (const length of [10, 20, 5000, packed.length - 100, packed.length - 1]) {
    await assert.rejects(unpacked(packed.subarray(0, length)), /not packed/, `${length}`);
  }
});
