// What unpacks the page's code, against what others pack.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
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

test("what is packed otherwise, says it is huge or is cut short is refused, or ends all the same", async () => {
  const packed = new Uint8Array(await readFile(REFERENCE));
  const page = new TextEncoder().encode("<!doctype html><title>Sign in</title>".padEnd(60));
  await assert.rejects(scrublineUnpack(page));
  const huge = packed.slice();
  huge.fill(255, 5, 9);
  await assert.rejects(scrublineUnpack(huge));
  await assert.rejects(scrublineUnpack(new Uint8Array()));
  const digest = (bytes) => createHash("sha256").update(bytes).digest("hex");
  assert.notEqual(digest(await scrublineUnpack(packed.subarray(0, 5000))), digest(ruled()));
});
