/** Typographic figures of a book, from the lines of its PDF. What each means stands in README.md beside this file. */
import { lowestInk } from './ink.mjs';
import { readLines } from './lines.mjs';

/**
 * @typedef {import('./lines.mjs').Line} Line
 * @typedef {import('./lines.mjs').Reading} Reading
 * @typedef {{ pages: number, lines: number, measure: number, hyphenShare: number, hyphenRuns: number,
 *   spaceMean: number, spaceDeviation: number, looseShare: number, tightShare: number, widows: number, orphans: number,
 *   offGrid: number, spreads: number, unevenShare: number, turnShare: number, runtShare: number }} Quality
 */

/** @param {string} pdf path @returns {Quality} */
export function qualityOf(pdf) {
  const reading = readLines(pdf);
  const { pages, lines, measure, leading } = reading;
  const natural = median(lines.filter((line) => line.ends && line.shortfall > 0.1 * measure).flatMap(gaps));
  const justified = lines.filter((line) => !line.ends && line.shortfall < 1.5 && line.words.length > 1);
  const spaces = justified.map((line) => gaps(line).map((gap) => gap / natural)).filter((list) => list.length > 0);
  const { mean: spaceMean, deviation: spaceDeviation } = spread(spaces.flat());
  const wider = (/** @type {number} */ than) =>
    spaces.filter((list) => spread(list).mean > than).length / spaces.length;
  return {
    pages,
    lines: lines.length,
    measure,
    hyphenShare: lines.filter(endsInHyphen).length / lines.length,
    hyphenRuns: runsOfThree(lines),
    spaceMean,
    spaceDeviation,
    looseShare: wider(1.5),
    tightShare: 1 - wider(0.75),
    widows: lines.filter((line, i) => line.page !== lines[i - 1]?.page && !line.starts && line.ends).length,
    orphans: lines.filter((line, i) => line.page !== lines[i + 1]?.page && line.starts && !line.ends).length,
    offGrid: offGridOf(lines, leading),
    ...unevenOf(pdf, reading),
    turnShare: turnsOf(lines),
    runtShare: runtsOf(lines),
  };
}

/** The share of lines that do not stand a line's leading below the one before. */
/** @param {readonly Line[]} lines @param {number} leading */
function offGridOf(lines, leading) {
  const steps = lines.flatMap((line, i) => {
    const before = lines[i - 1];
    return before?.page === line.page && !line.afterGap ? [line.base - before.base] : [];
  });
  return steps.filter((step) => Math.abs(step - leading) > 0.15).length / steps.length;
}

/**
 * How many spreads there are, and the share of those whose pages end on different lines; where a chapter ends they may. A
 * page is as deep as what stands lowest in its column, in any size: notes at its foot and the ornament of a scene that ends
 * there are part of it.
 */
/** @param {string} pdf @param {Reading} reading */
function unevenOf(pdf, reading) {
  const spreads = spreadsOf(reading);
  const uneven = spreads.filter((verso) => isUneven(pdf, reading, verso));
  return { spreads: spreads.length, unevenShare: uneven.length / spreads.length };
}

/** The versos (by their places in the file, from 0) whose recto is neither a chapter's first page nor its last. */
/** @param {Reading} reading */
export function spreadsOf({ leaves, height, leading, top }) {
  // The heading that a page opens with may be set in the size of the text, but then it stands lower.
  const runsOn = (/** @type {number} */ page) => {
    const first = leaves[page]?.first;
    return first !== undefined && first.height < 1.1 * height && first.base < top + 2.5 * leading;
  };
  const pages = leaves.map((_, page) => page);
  return pages.filter((page) => page % 2 === 1 && leaves[page]?.first && runsOn(page + 1) && runsOn(page + 2));
}

/** Whether the pages of a spread end on different lines. */
/** @param {string} pdf @param {Reading} reading @param {number} verso */
export function isUneven(pdf, { leaves, height, leading }, verso) {
  const [left = 0, right = 0] = [verso, verso + 1].map((page) => leaves[page]?.last?.base ?? 0);
  const differ = (/** @type {number} */ one, /** @type {number} */ other) => Math.abs(one - other) > 0.4 * leading;
  if (!differ(left, right)) return false;
  // An ornament is no word: whether one stands below the words of the page that ends higher is seen in its picture.
  const higher = left < right ? verso : verso + 1;
  const from = Math.min(left, right);
  const to = Math.max(left, right);
  const { words = [], margins = { left: 0, right: 0 } } = leaves[higher] ?? {};
  const ink = lowestInk(pdf, higher, { x0: margins.left, x1: margins.right, y0: from, y1: to + 0.4 * leading }, words);
  if (ink === null) return true;
  // A mark stands on its line, or a little above or below.
  const baseline = from - BELOW_BASELINE * height;
  return differ(from + Math.round((ink - baseline) / leading) * leading, to);
}

/** The part of a word's box that is below its baseline, roughly. */
const BELOW_BASELINE = 0.23;

/** The share of rectos that end in a hyphen. @param {readonly Line[]} lines */
function turnsOf(lines) {
  const last = lines.filter((line, i) => line.page % 2 === 0 && line.page !== lines[i + 1]?.page);
  return last.filter((line) => !line.ends && endsInHyphen(line)).length / last.length;
}

/** The share of paragraphs of several lines whose last line is one word of fewer than five letters. */
/** @param {readonly Line[]} lines */
function runtsOf(lines) {
  const last = lines.filter((line) => line.ends && !line.starts);
  return last.filter((line) => line.words.length === 1 && lettersIn(line.text) < 5).length / last.length;
}

/** @param {string} text */
function lettersIn(text) {
  return text.match(/[\p{L}\p{N}]/gu)?.length ?? 0;
}

/** The spaces between the words of a line, in points. @param {Line} line */
function gaps(line) {
  return line.words.slice(1).flatMap((word, i) => {
    const before = line.words[i];
    const gap = word.x0 - (before?.x1 ?? word.x0);
    // French sets a narrow space before and after some marks, which does not stretch.
    const narrow = /^[;!?»]/u.test(word.text) || before?.text.endsWith('«');
    return !narrow && gap > 0.2 && gap < 40 ? [gap] : [];
  });
}

/** @param {Line} line */
function endsInHyphen(line) {
  return /[\p{L}\p{N}\u2019'][-\u2010\u00ad]$/u.test(line.text);
}

/** How often three or more lines in a row end in a hyphen. @param {readonly Line[]} lines */
function runsOfThree(lines) {
  let run = 0;
  let runs = 0;
  for (const line of lines) {
    run = endsInHyphen(line) ? run + 1 : 0;
    if (run === 3) runs += 1;
  }
  return runs;
}

/** @param {readonly number[]} values */
function spread(values) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const deviation = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
  return { mean, deviation };
}

/** @param {readonly number[]} values */
export function median(values) {
  if (values.length === 0) throw new RangeError('no values to take a median of');
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}
