// Unpacks the page's code, which is sent by LZMA: a sixth smaller than as a server packs a file. The build writes this
// into the scripts that need it.
//
// The format is that of `.lzma` files (LZMA specification, 2015), with the one set of properties that the build packs
// by: four bits of the byte before go with a literal, where it stands does not matter.

// What a file begins with: its properties, the dictionary's size, its own size once unpacked, the coder's first bytes.
const PROPERTIES = 4;
const HEADER = { size: 5, rest: 9, code: 13, packed: 18 };
// Where the odds of each question are kept, by state where there are twelve.
const IS_MATCH = 0, IS_AGAIN = 12, NOT_LAST = 24, NOT_SECOND = 36, NOT_THIRD = 48, IS_LONG = 60;
const SLOT = 72, NEAR = 328, ALIGN = 456, LENGTH = 472, LENGTH_AGAIN = 746, LITERAL = 1020, ODDS = LITERAL + (768 << 4);
// More than this no page's code is, in bytes: what says so is something else, and would fill the memory.
const MOST = 1 << 24;
// Below this much the coder takes in another byte.
const NARROW = 1 << 24;

/**
 * The bytes that were packed; it rejects what was not packed so. Every `slice` milliseconds, where they are given,
 * others have their turn.
 */
globalThis.scrublineUnpack = async (packed, slice = Infinity) => {
  const view = new DataView(packed.buffer, packed.byteOffset);
  const refuse = (is) => {
    if (is) throw new Error("This is not packed as the page's code is.");
  };
  const size = view.getUint32(HEADER.size, true);
  refuse(packed[0] !== PROPERTIES || size > MOST || view.getUint32(HEADER.rest) || packed[HEADER.code]);
  const out = new Uint8Array(size);
  const odds = new Uint16Array(ODDS).fill(1024);
  // How wide the coder's interval is, and where in it the code lies: an array keeps both whole numbers of 32 bits.
  const coder = new Uint32Array([-1, view.getUint32(HEADER.code + 1)]);
  let at = HEADER.packed;

  const bit = (question) => {
    const odd = odds[question];
    const bound = Math.imul(coder[0] >>> 11, odd) >>> 0;
    const is = coder[1] < bound ? 0 : 1;
    let width = bound, code = coder[1];
    if (is) {
      width = coder[0] - bound;
      code -= bound;
      odds[question] = odd - (odd >> 5);
    } else {
      odds[question] = odd + ((2048 - odd) >> 5);
    }
    const isNarrow = width < NARROW;
    coder[0] = isNarrow ? width << 8 : width;
    coder[1] = isNarrow ? (code << 8) | packed[at++] : code;
    return is;
  };
  /** A number of so many bits, the highest first. */
  const tree = (from, bits) => {
    let read = 1;
    while (read < 1 << bits) read = (read << 1) | bit(from + read);
    return read - (1 << bits);
  };
  /** The same, the lowest first. */
  const lowFirst = (from, bits) => {
    let read = 1, number = 0;
    for (let place = 0; place < bits; place += 1) {
      const is = bit(from + read);
      read = (read << 1) | is;
      number |= is << place;
    }
    return number;
  };
  /** So many bits that are as often set as not. */
  const plain = (bits) => {
    let number = 0;
    for (let left = bits; left > 0; left -= 1) {
      coder[0] >>>= 1;
      const is = coder[1] >= coder[0];
      if (is) coder[1] -= coder[0];
      number = 2 * number + is;
      if (coder[0] < NARROW) {
        coder[0] <<= 8;
        coder[1] = (coder[1] << 8) | packed[at++];
      }
    }
    return number;
  };
  const length = (from) => {
    if (!bit(from)) return 2 + tree(from + 2, 3);
    return bit(from + 1) ? 18 + tree(from + 18, 8) : 10 + tree(from + 10, 3);
  };
  const distance = (long) => {
    const slot = tree(SLOT + 64 * Math.min(long - 2, 3), 6);
    if (slot < 4) return slot;
    const bits = (slot >> 1) - 1;
    const far = (2 | (slot & 1)) << bits;
    return far + (slot < 14 ? lowFirst(NEAR + far - slot, bits) : 16 * plain(bits - 4) + lowFirst(ALIGN, 4));
  };

  // The last four distances less one, the last first.
  let last = 0, second = 0, third = 0, fourth = 0;
  let done = 0, state = 0, steps = 0, until = performance.now() + slice;
  while (done < size) {
    steps = (steps + 1) & 1023;
    if (steps === 0 && performance.now() > until) {
      await new Promise((go) => setTimeout(go));
      until = performance.now() + slice;
    }
    const like = out[done - last - 1];
    if (!bit(IS_MATCH + state)) {
      const from = LITERAL + 768 * (out[done - 1] >> 4);
      let read = 1;
      // Behind a match it is told by the byte that does not go on like it, as long as they are alike.
      for (let place = 7, alike = state > 6; alike && place >= 0; place -= 1) {
        const wanted = (like >> place) & 1;
        const is = bit(from + 256 * (1 + wanted) + read);
        read = (read << 1) | is;
        alike = is === wanted;
      }
      while (read < 256) read = (read << 1) | bit(from + read);
      out[done] = read;
      done += 1;
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
      continue;
    }
    let long = 1;
    if (!bit(IS_AGAIN + state)) {
      long = length(LENGTH);
      [last, second, third, fourth] = [distance(long), last, second, third];
      state = state < 7 ? 7 : 10;
    } else {
      const isOther = bit(NOT_LAST + state);
      if (isOther && !bit(NOT_SECOND + state)) [last, second] = [second, last];
      else if (isOther && !bit(NOT_THIRD + state)) [last, second, third] = [third, last, second];
      else if (isOther) [last, second, third, fourth] = [fourth, last, second, third];
      const isByte = !isOther && !bit(IS_LONG + state);
      if (!isByte) long = length(LENGTH_AGAIN);
      state = state > 6 ? 11 : isByte ? 9 : 8;
    }
    refuse(last >= done);
    for (; long > 0; long -= 1, done += 1) out[done] = out[done - last - 1];
  }
  refuse(at > packed.length || done > size);
  return out;
};
