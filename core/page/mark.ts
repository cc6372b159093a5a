/**
 * A page as one short mark. In: a page; out: a digest of all that is printed on it but its folio, so that a page which only
 * moved on bears the mark that it had. Where things stand in the text is not printed.
 */
import { assertNever, Digest, type Points } from '#base';
import type { GlyphRun, Page, PageItem } from './page.ts';

/** Parts of a point that are told apart: far below what any press can show. */
const PARTS = 1000;

export function pageMark(page: Page): string {
  const digest = new Digest().text(page.side);
  lengths(digest, page.size.width, page.size.height);
  for (const item of page.items) if (!isFolio(item, page)) addItem(digest, item, page);
  return digest.hex;
}

function isFolio(item: PageItem, { folio }: Page): boolean {
  return item.kind === 'glyphs' && item.furniture === true && item.text === folio.label;
}

function addItem(digest: Digest, item: PageItem, page: Page): void {
  switch (item.kind) {
    case 'glyphs':
      digest.text('glyphs');
      addRun(digest, item, page);
      break;
    case 'rule':
      digest.text('rule');
      lengths(digest, item.x, item.y, item.width, item.height, item.grey ?? 0);
      break;
    case 'image': {
      digest.text('image').text(item.asset);
      const { x, y, width, height } = item.clip ?? item;
      lengths(digest, item.x, item.y, item.width, item.height, x, y, width, height);
      break;
    }
    case 'path':
      digest.text('path').text(item.path);
      lengths(digest, item.x, item.y, item.width, item.height, item.grey ?? 0);
      break;
    case 'link':
      break;
    default:
      assertNever(item);
  }
}

function addRun(digest: Digest, run: GlyphRun, { glyphs, advances, offsets }: Page): void {
  const { face, size, x, y, grey = 0, scale = 1, start, count } = run;
  digest.text(face).whole(count);
  lengths(digest, size, x, y, grey, scale);
  for (let at = start; at < start + count; at++) {
    digest.whole(glyphs[at]!);
    lengths(digest, advances[at]!);
    if (offsets) lengths(digest, offsets[2 * at]!, offsets[2 * at + 1]!);
  }
}

function lengths(digest: Digest, ...values: readonly Points[]): void {
  for (const value of values) digest.whole(Math.round(value * PARTS));
}
