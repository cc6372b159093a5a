/** Typographic figures of a book, from the lines of its PDF. What each means stands in README.md beside this file. */
import { readLines } from './lines.mjs';

/**
 * @typedef {import('./lines.mjs').Line} Line
 * @typedef {{ pages: number, lines: number, measure: number, hyphenShare: number, hyphenRuns: number,
 *   spaceMean: number, spaceDeviation: number, looseShare: number, widows: number, orphans: number }} Quality
 */

/** @param {string} pdf path @returns {Quality} */
export function qualityOf(pdf) {
  const { pages, lines, measure } = readLines(pdf);
  const natural = median(lines.filter((line) => line.ends && line.shortfall > 0.1 * measure).flatMap(gaps));
  const justified = lines.filter((line) => !line.ends && line.shortfall < 1.5 && line.words.length > 1);
  const spaces = justified.map((line) => gaps(line).map((gap) => gap / natural)).filter((list) => list.length > 0);
  const { mean: spaceMean, deviation: spaceDeviation } = spread(spaces.flat());
  const loose = spaces.filter((list) => spread(list).mean > 1.5);
  return {
    pages,
    lines: lines.length,
    measure,
    hyphenShare: lines.filter(endsInHyphen).length / lines.length,
    hyphenRuns: runsOfThree(lines),
    spaceMean,
    spaceDeviation,
    looseShare: loose.length / spaces.length,
    widows: lines.filter((line, i) => line.page !== lines[i - 1]?.page && !line.starts && line.ends).length,
    orphans: lines.filter((line, i) => line.page !== lines[i + 1]?.page && line.starts && !line.ends).length,
  };
}

/** The spaces between the words of a line, in points. @param {Line} line */
function gaps(line) {
  return line.words.slice(1).flatMap((word, i) => {
    const gap = word.x0 - (line.words[i]?.x1 ?? word.x0);
    return gap > 0.2 && gap < 40 ? [gap] : [];
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
