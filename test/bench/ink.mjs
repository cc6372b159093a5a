/** What is printed on a page of a PDF besides its words: a picture of the page goes through `pdftoppm`. */
import { spawnSync } from 'node:child_process';

/** Pixels to a point, and what of the darkness of paper and ink is ink. */
const SCALE = 2;
const INK = 160;
/** Letters reach a little out of their boxes. */
const AROUND_WORD = 1.5;

/**
 * @typedef {{ x0: number, x1: number, y0: number, y1: number }} Box in points, from the page's top left
 * @typedef {{ width: number, height: number, pixels: Uint8Array }} Picture
 */

/**
 * Where the lowest ink in a part of a page is that belongs to none of the words, null where there is none.
 * @param {string} pdf path @param {number} page from 0 @param {Box} part @param {readonly Box[]} words
 */
export function lowestInk(pdf, page, part, words) {
  const { width, height, pixels } = pictureOf(pdf, page);
  const hidden = words.map(({ x0, x1, y0, y1 }) => ({
    x0: x0 - AROUND_WORD,
    x1: x1 + AROUND_WORD,
    y0: y0 - AROUND_WORD,
    y1: y1 + AROUND_WORD,
  }));
  for (let row = Math.min(height, Math.floor(part.y1 * SCALE)) - 1; row >= part.y0 * SCALE; row--) {
    const y = (row + 0.5) / SCALE;
    const beside = hidden.filter((word) => word.y0 <= y && y <= word.y1);
    for (let column = Math.max(0, Math.floor(part.x0 * SCALE)); column < Math.min(width, part.x1 * SCALE); column++) {
      const x = (column + 0.5) / SCALE;
      if ((pixels[row * width + column] ?? 255) > INK) continue;
      if (!beside.some((word) => word.x0 <= x && x <= word.x1)) return y;
    }
  }
  return null;
}

/** A page in greys, as a PGM file has it. @param {string} pdf @param {number} page @returns {Picture} */
function pictureOf(pdf, page) {
  const number = String(page + 1);
  const options = ['-gray', '-r', String(72 * SCALE), '-f', number, '-l', number, '-singlefile', pdf];
  const result = spawnSync('pdftoppm', options, { maxBuffer: 1 << 28 });
  if (result.status !== 0) throw new Error(`pdftoppm can't read ${pdf}: ${result.stderr ?? result.error}`);
  const bytes = result.stdout;
  const head = /^P5\s(\d+)\s(\d+)\s255\s/.exec(bytes.toString('latin1', 0, 64));
  if (!head) throw new Error(`pdftoppm gave no picture of page ${number} of ${pdf}`);
  const pixels = bytes.subarray(head[0].length);
  return { width: Number(head[1]), height: Number(head[2]), pixels };
}
