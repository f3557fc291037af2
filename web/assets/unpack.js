// Unpacks the page's code, a quarter smaller than a server would send it. The build writes this into the scripts that
// need it.
//
// The steps are those of `.lzma` files (LZMA specification, 2015). How they are told differs: what a byte is and where
// bytes end goes by where in an instruction they stand, and where they come from is counted in such places.
// `crates/xtask/pack/src/told.rs` asks the same questions, and `odds.rs` beside it learns the same from the answers.

// What a file begins with: how long it is unpacked, and from where to where its functions reach; then its bits.
const FUNCTIONS = [4, 8], CODE = 12, PACKED = 16;
// What comes next where it is no operand, whose sort goes by its instruction: an instruction, data, or what a function
// begins with. Which instructions, from and to, have how many operands; those of a fraction are bytes.
const INSTRUCTION = 256, LONG = 257, GROUPS = 258, LOCALS = 259, DATA = 260;
const END = 11, TABLE = 14, FRACTION = 67, LONG_FRACTION = 68;
const OPERANDS = [[2, 4, 1], [12, 14, 1], [16, 16, 1], [17, 17, 2], [32, 36, 1], [40, 62, 2], [63, 66, 1], [67, 67, 4], [68, 68, 8], [252, 252, 1]];
const SORTS = 512 + 8 * DATA;
// Where the odds of each question are kept, by state where there are twelve.
const IS_AGAIN = 0, NOT_LAST = 12, NOT_SECOND = 24, NOT_THIRD = 36, IS_LONG = 48, REST = 60, REST_AGAIN = 581;
const FAR = 1102, FAR_ALIKE = 1246, SLOT = 1390, IS_OTHER = SLOT + 64 * 22, IS_MATCH = IS_OTHER + SORTS;
const ENDS = IS_MATCH + 12 * SORTS, LITERAL = ENDS + 16 * SORTS, ODDS = LITERAL + 768 * SORTS;
// From this length on no end is asked for, and what is left is a number of so many bits at most.
const ASKED = 40, MOST_BITS = 8;
// More than this no page's code is, in bytes: what says so is something else, and would fill the memory.
const MOST = 1 << 24;
// Below this much the coder takes in another byte; a step takes in fewer than so many.
const NARROW = 1 << 24, MOST_A_STEP = 256;

/**
 * The bytes that were packed, of a stream of what they were packed to, told while it comes; it rejects what was not
 * packed so. Every `slice` milliseconds, where they are given, others have their turn.
 */
globalThis.scrublineUnpack = async (stream, slice = Infinity) => {
  const refuse = (is) => {
    if (is) throw new Error("This is not packed as the page's code is.");
  };
  const reader = stream.getReader();
  let packed = new Uint8Array(), isWhole = false;
  /** Waits until so many bytes are there, or all. */
  const come = async (count) => {
    while (packed.length < count && !isWhole) {
      const { done, value = [] } = await reader.read();
      const longer = new Uint8Array(packed.length + value.length);
      longer.set(packed);
      longer.set(value, packed.length);
      packed = longer;
      isWhole = done;
    }
  };
  await come(PACKED);
  refuse(packed.length < PACKED);
  const view = new DataView(packed.buffer);
  const [size, begin, end] = [0, ...FUNCTIONS].map((place) => view.getUint32(place, true));
  refuse(size > MOST);
  const out = new Uint8Array(size);
  // Odds of 65,536 that a bit is not set, half of them turned over so that nothing is even, and below them how often they
  // were asked: what is seldom asked learns fast.
  const odds = new Int32Array(ODDS + 1);
  // How wide the coder's interval is, and where in it the code lies: an array keeps both whole numbers of 32 bits.
  const coder = new Uint32Array([-1, view.getUint32(CODE)]);
  let at = PACKED;

  const operands = new Uint8Array(256);
  for (const [from, to, count] of OPERANDS) operands.fill(count, from, to + 1);

  const bit = (question) => {
    const known = odds[question], asked = known & 31, odd = (known >> 5) ^ 32768;
    const bound = Math.imul(coder[0] >>> 12, odd >> 4) >>> 0;
    const is = coder[1] < bound ? 0 : 1;
    let width = bound, code = coder[1];
    if (is) {
      width = coder[0] - bound;
      code -= bound;
    }
    const learned = odd + ((((is ? 0 : 65535) - odd) / (asked + 2.3)) | 0);
    odds[question] = ((learned ^ 32768) << 5) | (asked < 31 ? asked + 1 : 31);
    while (width < NARROW) {
      width = (width << 8) >>> 0;
      code = (code << 8) | packed[at];
      at += 1;
    }
    coder[0] = width;
    coder[1] = code;
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
      odds[ODDS] = 0;
      number = 2 * number + bit(ODDS);
    }
    return number;
  };
  /** What is left of a length. */
  const rest = (from) => {
    let bits = 0;
    while (bits < MOST_BITS && bit(from + bits)) bits += 1;
    return (1 << bits) - 1 + lowFirst(from + 9 + (1 << bits), bits);
  };
  const distance = (slots, from) => {
    const slot = tree(slots, 6);
    if (slot < 4) return slot;
    const bits = (slot >> 1) - 1;
    const far = (2 | (slot & 1)) << bits;
    return far + (slot < 14 ? lowFirst(from + far - slot, bits) : 16 * plain(bits - 4) + lowFirst(from + 128, 4));
  };

  // Where the next byte stands: what comes next, which operand and how far into its number; the number so far, how many
  // operands are to come, and how many blocks are open.
  let next = DATA, nth = 0, shift = 0, number = 0, left = 0, depth = 0, instruction = 0, sort = 0;
  const follow = (byte) => {
    instruction = byte;
    if (byte > 1 && byte < 5) depth += 1;
    if (byte === END) depth -= 1;
    nth = 0;
    left = operands[byte];
    next = depth < 0 ? LONG : left > 0 ? byte : INSTRUCTION;
  };
  const ends = () => {
    if (next === LONG) {
      next = GROUPS;
    } else if (next === GROUPS) {
      next = LOCALS;
      left = number << 1;
      depth = nth = 0;
    } else {
      if (next === TABLE && nth === 0) left = (left + number + 1) | 0;
      left = (left - 1) | 0;
      nth = next === LOCALS ? left & 1 : Math.min(nth + 1, 3);
    }
    number = shift = 0;
    if (next === GROUPS || left > 0) return;
    next = INSTRUCTION;
    nth = 0;
  };
  // The places of each sort, but for those in data.
  const like = Array.from({ length: SORTS }, () => []);
  let done = 0;
  const pass = (byte) => {
    out[done] = byte;
    if (next !== DATA) like[sort].push(done);
    done += 1;
    if (next === INSTRUCTION) {
      follow(byte);
    } else if (next !== DATA) {
      const isFraction = next === FRACTION || next === LONG_FRACTION;
      if (!isFraction) {
        number |= (byte & 127) << shift;
        shift += 7;
      }
      if (byte < 128 || isFraction) ends();
    }
    if (done === begin) next = LONG;
    else if (done === end) next = DATA;
    sort = next === DATA ? byte >> 5 : next === INSTRUCTION ? 256 + instruction : 512 + 8 * next + 2 * nth + (shift > 0);
  };

  // The last four distances less one, the last first.
  let last = 0, second = 0, third = 0, fourth = 0;
  let state = 0, steps = 0, until = performance.now() + slice;
  while (done < size) {
    steps = (steps + 1) & 1023;
    if (steps === 0 && performance.now() > until) {
      await new Promise((go) => setTimeout(go));
      until = performance.now() + slice;
    }
    if (at + MOST_A_STEP > packed.length && !isWhole) await come(at + MOST_A_STEP);
    if (!bit(IS_MATCH + 12 * sort + state)) {
      const from = LITERAL + 768 * sort, seen = out[done - last - 1];
      let read = 1;
      // Behind a match it is told by the byte that does not go on like it, as long as they are alike.
      for (let place = 7, alike = state > 6; alike && place >= 0; place -= 1) {
        const wanted = (seen >> place) & 1;
        const is = bit(from + 256 * (1 + wanted) + read);
        read = (read << 1) | is;
        alike = is === wanted;
      }
      while (read < 256) read = (read << 1) | bit(from + read);
      pass(read & 255);
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
      continue;
    }
    const isAgain = bit(IS_AGAIN + state);
    let isByte = 0;
    if (!isAgain) {
      [second, third, fourth] = [last, second, third];
      const places = like[sort].length;
      const isOther = places === 0 || bit(IS_OTHER + sort);
      if (isOther) last = distance(SLOT, FAR);
      else last = done - 1 - like[sort][places - 1 - distance(SLOT + 64 * (32 - Math.clz32(places)), FAR_ALIKE)];
      state = state < 7 ? 7 : 10;
    } else {
      const isOther = bit(NOT_LAST + state);
      if (isOther && !bit(NOT_SECOND + state)) [last, second] = [second, last];
      else if (isOther && !bit(NOT_THIRD + state)) [last, second, third] = [third, last, second];
      else if (isOther) [last, second, third, fourth] = [fourth, last, second, third];
      isByte = !isOther && !bit(IS_LONG + state);
      state = state > 6 ? 11 : isByte ? 9 : 8;
    }
    const again = (count) => {
      refuse(!(last < done) || done + count > size);
      for (; count > 0; count -= 1) pass(out[done - last - 1]);
    };
    again(isByte ? 1 : 2);
    // Asked before each byte more whether they end there.
    for (let long = 2; !isByte; long += 1) {
      if (long === ASKED) again(rest(isAgain ? REST_AGAIN : REST));
      if (long === ASKED || bit(ENDS + 8 * (isAgain ? SORTS + sort : sort) + Math.min(long - 2, 7))) break;
      again(1);
    }
  }
  await come(Infinity);
  refuse(at !== packed.length);
  return out;
};
