// How figures are put side by side.

export function heading(title, columns) {
  console.log(`\n${title.padEnd(44)}${columns.map((column) => column.padStart(17)).join("")}`);
}

export function row(title, cells) {
  console.log(`  ${title.padEnd(42)}${cells.map((cell) => cell.padStart(17)).join("")}`);
}

/** Nanoseconds in the unit that suits them. */
export function time(ns) {
  if (ns === undefined) return "-";
  const [size, unit] = ns < 1e4 ? [1, "ns"] : ns < 1e6 ? [1e3, "us"] : [1e6, "ms"];
  const value = ns / size;
  return `${value.toFixed(value < 10 && size > 1 ? 2 : value < 100 ? 1 : 0)} ${unit}`;
}

export function ratio(above, below) {
  return below === undefined || above === undefined ? "-" : `${(above / below).toFixed(2)} x`;
}

export function ms(value) {
  return `${value.toFixed(1)} ms`;
}

export function median(numbers) {
  return percentile(numbers, 0.5);
}

/** The least number that at least this part of all does not exceed. */
export function percentile(numbers, part) {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(part * sorted.length) - 1)];
}
