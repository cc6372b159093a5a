/** Tables on the terminal: rows of cells in, aligned columns out. */

/** Prints a table whose first row is its head; the first column is words, the others are figures. */
/** @param {readonly (readonly string[])[]} rows */
export function table(rows) {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const line = (/** @type {readonly string[]} */ row) =>
    row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join('  ');
  const [head = [], ...rest] = rows;
  console.log([line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rest.map(line), ''].join('\n'));
}

/** A share in per cent. @param {number} share @param {number} digits */
export function percent(share, digits = 1) {
  return `${(share * 100).toFixed(digits)}%`;
}
