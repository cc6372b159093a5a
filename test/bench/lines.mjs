/**
 * Reads the lines of text out of a novel's PDF: word boxes from `pdftotext -bbox` come in, body lines in reading order
 * go out, each knowing whether it begins and ends a paragraph, and for each page where its text begins and ends. Works on
 * any single-column book; size, leading and margins are found from the boxes, so that our pages and a browser's are read
 * by the same rules.
 */
import { spawnSync } from 'node:child_process';

/**
 * @typedef {{ x0: number, x1: number, y0: number, y1: number, text: string }} Word
 * @typedef {{ words: Word[], x0: number, x1: number, base: number, height: number, page: number, text: string,
 *   body: boolean, indent: number, shortfall: number, afterGap: boolean, sunk: boolean, starts: boolean,
 *   ends: boolean }} Line
 * @typedef {{ left: number, right: number }} Margins
 * @typedef {{ first: Line | undefined, last: Line | undefined, words: Word[], margins: Margins }} Leaf a page: the first and
 *   the last line of its column in any size, notes with it, heads and folios left out; and all words on it
 * @typedef {{ pages: number, lines: Line[], leaves: Leaf[], leading: number, height: number, measure: number, top: number }} Reading
 */

/** @param {string} pdf path @returns {Reading} */
export function readLines(pdf) {
  const words = readWords(pdf);
  const pages = words.map(linesOf);
  const height = common(
    pages.flat().flatMap((line) => line.words.map((word) => ({ value: word.y1 - word.y0, weight: word.text.length }))),
    0.1,
  );
  for (const line of pages.flat()) line.body = Math.abs(line.height - height) < 0.06 * height;
  const leading = commonOf(pages.flatMap(pitches), 0.1);
  dropFurniture(pages, leading);
  const top = topOf(pages);
  for (const page of pages) if (isList(page)) for (const line of page) line.body = false;
  const margins = [0, 1].map((side) => marginsOf(pages.filter((_, page) => page % 2 === side).flat()));
  const leaves = pages.map((page, index) => {
    const own = margins[index % 2] ?? { left: 0, right: 0 };
    const column = page.filter((line) => isInColumn(line, own));
    return { first: column[0], last: column.at(-1), words: words[index] ?? [], margins: own };
  });
  const lines = pages.flatMap((page) => afterGaps(page, leading, top)).filter((line) => line.body);
  markParagraphs(lines);
  const measure = Math.max(...margins.map(({ left, right }) => right - left));
  return { pages: pages.length, lines, leaves, leading, height, measure, top };
}

/** Tells a line how far it stands from the margins; what reaches out of the column is no body line. */
/** @param {Line} line @param {Margins} margins */
function isInColumn(line, { left, right }) {
  line.indent = line.x0 - left;
  line.shortfall = right - line.x1;
  const isIn = line.indent >= -8 && line.shortfall >= -10;
  if (!isIn) line.body = false;
  return isIn && line.text !== '';
}

/** @param {string} pdf @returns {Word[][]} the words of each page */
function readWords(pdf) {
  const result = spawnSync('pdftotext', ['-bbox', pdf, '-'], { maxBuffer: 1 << 30, encoding: 'utf8' });
  if (result.status !== 0) throw new Error(`pdftotext can't read ${pdf}: ${result.stderr ?? result.error}`);
  /** @type {Word[][]} */
  const pages = [];
  const tag = /<page |<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)</g;
  for (const [, x0, y0, x1, y1, text] of result.stdout.matchAll(tag)) {
    if (text === undefined) pages.push([]);
    else if (text.trim() !== '') {
      pages.at(-1)?.push({ x0: Number(x0), y0: Number(y0), x1: Number(x1), y1: Number(y1), text: unescaped(text) });
    }
  }
  return pages;
}

/** A word as read: entities resolved, and soft hyphens dropped where no line ends at them. @param {string} text */
function unescaped(text) {
  const plain = text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
  return plain.replace(/\u00ad(?=.)/gu, '');
}

/** Gather words that stand on one line. @param {readonly Word[]} words @param {number} page @returns {Line[]} */
function linesOf(words, page) {
  const sorted = [...words].sort((a, b) => a.y0 + a.y1 - b.y0 - b.y1);
  /** @type {Word[][]} */
  const rows = [];
  for (const word of sorted) {
    const row = rows.at(-1);
    const first = row?.[0];
    const middle = (word.y0 + word.y1) / 2;
    if (
      row &&
      first &&
      middle < first.y1 &&
      Math.abs(middle - (first.y0 + first.y1) / 2) < 0.4 * (first.y1 - first.y0)
    ) {
      row.push(word);
    } else rows.push([word]);
  }
  return rows.map((row) => {
    row.sort((a, b) => a.x0 - b.x0);
    const height = common(
      row.map((word) => ({ value: word.y1 - word.y0, weight: word.text.length })),
      0.1,
    );
    const x0 = row[0]?.x0 ?? 0;
    const x1 = Math.max(...row.map((word) => word.x1));
    const base = common(
      row.map((word) => ({ value: word.y1, weight: word.text.length })),
      0.1,
    );
    const text = row.map((word) => word.text).join(' ');
    const open = { body: false, indent: 0, shortfall: 0, afterGap: false, sunk: false, starts: false, ends: false };
    return { words: row, x0, x1, base, height, page, text, ...open };
  });
}

/** The distances between body lines that follow each other. @param {readonly Line[]} page */
function pitches(page) {
  return page.slice(1).flatMap((line, i) => {
    const before = page[i];
    return before?.body && line.body ? [line.base - before.base] : [];
  });
}

const FOLIO = /^[\divxlc]{1,6}$/;

/**
 * Folios and running heads set in the size of the text are no body lines: they stand apart and repeat, or stand where those
 * that repeat do (the head of a chapter of two pages is there once).
 */
/** @param {readonly Line[][]} pages @param {number} leading */
function dropFurniture(pages, leading) {
  const key = (/** @type {Line} */ line) => line.text.replace(/\d+/g, '#');
  const apart = (/** @type {Line | undefined} */ a, /** @type {Line | undefined} */ b) =>
    a !== undefined && (b === undefined || Math.abs(a.base - b.base) > 1.25 * leading);
  const heads = pages.flatMap(([first, second]) => (first && apart(first, second) ? [first] : []));
  const feet = pages.flatMap((page) => {
    const last = page.at(-1);
    // Below a page that runs a line long the folio stands no further apart than a line.
    return last && (FOLIO.test(last.text) || apart(last, page.at(-2))) ? [last] : [];
  });
  const ends = [...heads, ...feet];
  const seen = counted(ends.map(key));
  const repeated = new Set(ends.filter((line) => FOLIO.test(line.text) || (seen.get(key(line)) ?? 0) > 2));
  const top = topOf(pages.map((page) => page.filter((line) => !repeated.has(line))));
  const place = (/** @type {Line} */ line) => Math.round(line.base);
  const places = counted([...repeated].filter((line) => line.base < top - leading / 2).map(place));
  const beside = heads.filter((line) => (places.get(place(line)) ?? 0) > 2);
  for (const line of [...repeated, ...beside]) {
    line.body = false;
    line.text = '';
  }
}

/** How often each value is there. @template T @param {readonly T[]} values */
function counted(values) {
  /** @type {Map<T, number>} */
  const counts = new Map();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
}

/** Where the first line of a page of running text stands. @param {readonly Line[][]} pages */
function topOf(pages) {
  const firsts = pages.flatMap((page) => page.find((line) => line.text !== '')?.base ?? []);
  return commonOf(firsts, 0.25);
}

/** A page most of whose lines end in a number lists something, as a table of contents does: its lines are no prose. */
/** @param {readonly Line[]} page */
function isList(page) {
  const lines = page.filter((line) => line.text !== '');
  return lines.filter((line) => /(?:^|\s)[\divxlc]+$/.test(line.text)).length > lines.length / 2;
}

/** @param {readonly Line[]} lines */
function marginsOf(lines) {
  const long = lines.filter((line) => line.body && line.words.length > 2);
  return {
    left: commonOf(
      long.map((line) => line.x0),
      0.25,
    ),
    right: commonOf(
      long.map((line) => line.x1),
      0.25,
    ),
  };
}

/** Marks the lines that follow a heading, an ornament or a blank line, also where only white is seen above them. */
/** @param {Line[]} page @param {number} leading @param {number} top */
function afterGaps(page, leading, top) {
  const printed = page.filter((line) => line.text !== '');
  for (const [i, line] of printed.entries()) {
    const before = printed[i - 1];
    line.afterGap = before !== undefined && (!before.body || line.base - before.base > 1.4 * leading);
    line.sunk = before === undefined && line.base > top + 1.4 * leading;
  }
  return printed;
}

/** @param {Line[]} lines */
function markParagraphs(lines) {
  for (const [i, line] of lines.entries()) {
    const before = lines[i - 1];
    // A second line beside a drop capital stands in as far as the first and follows a full line.
    const besideInitial =
      before?.page === line.page && Math.abs(before.indent - line.indent) < 0.8 && before.shortfall < 2;
    line.starts = before === undefined || line.afterGap || line.sunk || (line.indent > 4 && !besideInitial);
    if (before) before.ends = line.starts;
  }
  const last = lines.at(-1);
  if (last) last.ends = true;
}

/** The commonest of the values, to a step, its neighbours counted by half. */
/** @param {readonly { value: number, weight: number }[]} items @param {number} step */
function common(items, step) {
  /** @type {Map<number, number>} */
  const bins = new Map();
  for (const { value, weight } of items) {
    const bin = Math.round(value / step);
    bins.set(bin, (bins.get(bin) ?? 0) + weight);
  }
  let best = 0;
  let most = -1;
  for (const [bin, weight] of bins) {
    const around = weight + ((bins.get(bin - 1) ?? 0) + (bins.get(bin + 1) ?? 0)) / 2;
    if (around > most) [best, most] = [bin, around];
  }
  return best * step;
}

/** @param {readonly number[]} values @param {number} step */
function commonOf(values, step) {
  return common(
    values.map((value) => ({ value, weight: 1 })),
    step,
  );
}
