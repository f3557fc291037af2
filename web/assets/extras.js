// What the page does without its own code: QR codes, and pictures as pixels.

/**
 * The modules of a QR code (ISO/IEC 18004) of a text: rows of booleans, true for dark, without the quiet zone.
 * Bytes at error correction level M; null where the text is too long for the largest.
 */
export function modulesOf(text) {
  const bytes = new TextEncoder().encode(text);
  let version = 1;
  const length = () => 4 + (version < 10 ? 8 : 16) + 8 * bytes.length;
  while (version <= 40 && length() > 8 * dataCodewords(version)) version += 1;
  return version > 40 ? null : new Code(version).drawn(interleaved(packed(bytes, version), version));
}

// Table 9 of the standard, level M: check codewords of a block, and blocks, by version.
const CHECK = [10, 16, 26, 18, 24, 16, 18, 22, 22, 26, 30, 22, 22, 24, 24, 28, 28, 26, 26, 26, 26, ...Array(19).fill(28)];
const BLOCKS = [
  1, 1, 1, 2, 2, 4, 4, 4, 5, 5, 5, 8, 9, 9, 10, 10, 11, 13, 14, 16, 17, 17, 18, 20, 21, 23, 25, 26, 28, 29, 31, 33,
  35, 37, 38, 40, 43, 45, 47, 49,
];

/** How many rows of alignment patterns a version has. */
const alignments = (version) => (version === 1 ? 0 : Math.floor(version / 7) + 2);

/** All codewords of a version: what the function patterns leave free, in whole bytes. */
function codewords(version) {
  const rows = alignments(version);
  const side = 17 + 4 * version;
  const finders = 3 * 64 + 2 * 15 + 1;
  const timing = 2 * (side - 16);
  // Two of the patterns in the timing rows' way share five modules with them each.
  const aligned = rows ? 25 * (rows * rows - 3) - 2 * 5 * (rows - 2) : 0;
  return Math.floor((side * side - finders - timing - aligned - (version > 6 ? 36 : 0)) / 8);
}

const dataCodewords = (version) => codewords(version) - CHECK[version - 1] * BLOCKS[version - 1];

/** Mode, length, the bytes, an end, and padding. */
function packed(bytes, version) {
  const bits = [];
  const put = (value, count) => {
    for (let bit = count - 1; bit >= 0; bit -= 1) bits.push((value >> bit) & 1);
  };
  put(4, 4);
  put(bytes.length, version < 10 ? 8 : 16);
  for (const byte of bytes) put(byte, 8);
  const room = 8 * dataCodewords(version);
  put(0, Math.min(4, room - bits.length));
  put(0, -bits.length & 7);
  for (let pad = 0xec; bits.length < room; pad ^= 0xec ^ 0x11) put(pad, 8);
  return Array.from({ length: room / 8 }, (_, at) => bits.slice(8 * at, 8 * at + 8).reduce((byte, bit) => 2 * byte + bit));
}

/** A product in the field of 256 elements over x^8 + x^4 + x^3 + x^2 + 1. */
function times(a, b) {
  let product = 0;
  for (let bit = 7; bit >= 0; bit -= 1) {
    product = (product << 1) ^ ((product >> 7) * 0x11d);
    product ^= ((b >> bit) & 1) * a;
  }
  return product;
}

/** The remainder of a block by the generator polynomial of a degree. */
function checked(block, degree) {
  const divisor = [...Array(degree - 1).fill(0), 1];
  let root = 1;
  for (let factor = 0; factor < degree; factor += 1) {
    for (let at = 0; at < degree; at += 1) divisor[at] = times(divisor[at], root) ^ (divisor[at + 1] ?? 0);
    root = times(root, 2);
  }
  const rest = Array(degree).fill(0);
  for (const byte of block) {
    const factor = byte ^ rest.shift();
    rest.push(0);
    divisor.forEach((part, at) => { rest[at] ^= times(part, factor); });
  }
  return rest;
}

/** Blocks with their check codewords, one codeword of each in turn. */
function interleaved(data, version) {
  const count = BLOCKS[version - 1];
  const short = Math.floor(data.length / count);
  const longer = data.length % count;
  let from = 0;
  const blocks = Array.from({ length: count }, (_, at) => {
    const size = short + (at >= count - longer ? 1 : 0);
    from += size;
    return data.slice(from - size, from);
  });
  const checks = blocks.map((block) => checked(block, CHECK[version - 1]));
  const turns = (lists, most) => Array.from({ length: most }, (_, at) => lists.map((list) => list[at])).flat();
  return [...turns(blocks, short + 1), ...turns(checks, CHECK[version - 1])].filter((byte) => byte !== undefined);
}

/** The conditions of the eight masks, by row and column. */
const MASKS = [
  (y, x) => (y + x) % 2, (y) => y % 2, (y, x) => x % 3, (y, x) => (y + x) % 3,
  (y, x) => (Math.floor(y / 2) + Math.floor(x / 3)) % 2, (y, x) => ((y * x) % 2) + ((y * x) % 3),
  (y, x) => (((y * x) % 2) + ((y * x) % 3)) % 2, (y, x) => (((y + x) % 2) + ((y * x) % 3)) % 2,
];

/** A code being drawn: its modules, and which of them are patterns that no mask touches. */
class Code {
  constructor(version) {
    this.version = version;
    this.side = 17 + 4 * version;
    this.dark = Array.from({ length: this.side }, () => Array(this.side).fill(false));
    this.fixed = Array.from({ length: this.side }, () => Array(this.side).fill(false));
    this.patterns();
  }

  put(x, y, dark) {
    if (x < 0 || y < 0 || x >= this.side || y >= this.side) return;
    this.dark[y][x] = Boolean(dark);
    this.fixed[y][x] = true;
  }

  /** A square of rings around a module; the rings named are light. */
  rings(x, y, radius, light) {
    for (let dy = -radius; dy <= radius; dy += 1) {
      for (let dx = -radius; dx <= radius; dx += 1) {
        this.put(x + dx, y + dy, !light.includes(Math.max(Math.abs(dx), Math.abs(dy))));
      }
    }
  }

  patterns() {
    const { side, version } = this;
    for (let at = 0; at < side; at += 1) {
      this.put(6, at, at % 2 === 0);
      this.put(at, 6, at % 2 === 0);
    }
    for (const [x, y] of [[3, 3], [side - 4, 3], [3, side - 4]]) this.rings(x, y, 4, [2, 4]);
    const rows = alignments(version);
    const step = version === 32 ? 26 : Math.ceil((4 * version + 4) / (2 * rows - 2)) * 2;
    const places = Array.from({ length: rows }, (_, at) => (at === 0 ? 6 : side - 7 - (rows - 1 - at) * step));
    for (const x of places) {
      for (const y of places) {
        const finder = (x === 6 && y === 6) || (x === 6 && y === side - 7) || (x === side - 7 && y === 6);
        if (!finder) this.rings(x, y, 2, [1]);
      }
    }
    this.format(0);
    if (version > 6) {
      const bits = withRemainder(version, 12, 0x1f25);
      for (let at = 0; at < 18; at += 1) {
        const [a, b] = [side - 11 + (at % 3), Math.floor(at / 3)];
        this.put(a, b, (bits >> at) & 1);
        this.put(b, a, (bits >> at) & 1);
      }
    }
  }

  /** Level M, whose bits are zero, and the mask, twice. */
  format(mask) {
    const bits = withRemainder(mask, 10, 0x537) ^ 0x5412;
    const bit = (at) => (bits >> at) & 1;
    const last = this.side - 1;
    for (let at = 0; at < 15; at += 1) {
      this.put(8, at < 6 ? at : at < 8 ? at + 1 : last - 14 + at, bit(at));
      this.put(at < 8 ? last - at : at === 8 ? 7 : 14 - at, 8, bit(at));
    }
    this.put(8, last - 7, true);
  }

  /** Places the codewords, and keeps the mask that leaves least to confuse a reader. */
  drawn(bytes) {
    let at = 0;
    for (let right = this.side - 1; right > 0; right -= 2) {
      if (right === 6) right = 5;
      for (let step = 0; step < this.side; step += 1) {
        const y = (right + 1) & 2 ? step : this.side - 1 - step;
        for (const x of [right, right - 1]) {
          if (this.fixed[y][x]) continue;
          this.dark[y][x] = Boolean((bytes[at >> 3] >> (7 - (at & 7))) & 1);
          at += 1;
        }
      }
    }
    const tried = MASKS.map((_, mask) => {
      this.masked(mask);
      const penalty = this.penalty();
      this.masked(mask);
      return penalty;
    });
    this.masked(tried.indexOf(Math.min(...tried)));
    return this.dark;
  }

  masked(mask) {
    this.format(mask);
    this.dark.forEach((row, y) => row.forEach((dark, x) => {
      if (!this.fixed[y][x]) row[x] = dark !== (MASKS[mask](y, x) === 0);
    }));
  }

  /** The four features of the standard's section on masks, each with its weight. */
  penalty() {
    const { dark, side } = this;
    let total = 0;
    let count = 0;
    for (const lines of [dark, dark[0].map((_, x) => dark.map((row) => row[x]))]) {
      for (const line of lines) {
        const text = line.map(Number).join("");
        for (const run of text.match(/0{5,}|1{5,}/g) ?? []) total += run.length - 2;
        for (const like of [/(?=00001011101)/g, /(?=10111010000)/g]) total += 40 * (text.match(like) ?? []).length;
      }
    }
    for (let y = 0; y < side; y += 1) {
      for (let x = 0; x < side; x += 1) {
        count += dark[y][x];
        const same = y > 0 && x > 0 && dark[y][x] === dark[y - 1][x] && dark[y][x] === dark[y][x - 1] && dark[y][x] === dark[y - 1][x - 1];
        total += same ? 3 : 0;
      }
    }
    return total + 10 * Math.floor(Math.abs((20 * count) / side ** 2 - 10));
  }
}

/** A number with the remainder of a BCH code behind it. */
function withRemainder(data, degree, generator) {
  let rest = data;
  for (let bit = 0; bit < degree; bit += 1) rest = (rest << 1) ^ ((rest >> (degree - 1)) * generator);
  return (data << degree) | rest;
}

/** `<qr-code text="…">`: dark on light in every theme, with the quiet zone that readers need. */
class QrCode extends HTMLElement {
  static observedAttributes = ["text"];

  attributeChangedCallback() {
    const modules = modulesOf(this.getAttribute("text") ?? "");
    if (!modules) {
      this.textContent = "This is too long for a QR code.";
      return;
    }
    const side = modules.length + 8;
    const squares = modules.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x + 4} ${y + 4}h1v1h-1z` : "")));
    this.innerHTML = `<svg role="img" aria-label="QR code" viewBox="0 0 ${side} ${side}" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h${side}v${side}H0z"/><path fill="#000" d="${squares.join("")}"/></svg>`;
  }
}
customElements.define("qr-code", QrCode);

/** Saves a picture of lines as pixels, at twice its size: a thread shows it sharp on a phone too. */
async function savePng(svg, name) {
  const source = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const picture = new Image();
    picture.src = source;
    await picture.decode();
    const canvas = document.createElement("canvas");
    canvas.width = 2 * picture.naturalWidth;
    canvas.height = 2 * picture.naturalHeight;
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
    const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(blob), download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  } catch (error) {
    console.error(error);
    window.dispatchEvent(new CustomEvent("scrubline-say", { detail: "This browser cannot make the picture. Save it as SVG." }));
  } finally {
    URL.revokeObjectURL(source);
  }
}
window.scrublinePng = savePng;
