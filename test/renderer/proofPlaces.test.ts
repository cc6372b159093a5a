/** From points to places in the text and back: on every page of a small book with all sorts of lines. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Book, flatText } from '#book';
import { Engine } from '#engine';
import type { GlyphRun, Page } from '#page';
import { loadHyphenator } from '#type';
import { anchorAt, lineOf, pageOfFolio } from '../../renderer/proof/places.ts';
import { readPage } from '../../renderer/proof/reading.ts';
import {
  book,
  bookValue,
  chapter,
  em,
  note,
  p,
  sceneBreak,
  section,
  smallCaps,
  stanza,
  verse,
} from '../builders/book.ts';
import { testLibrary } from '../type/fonts.ts';

let value: Book;
let pages: readonly Page[];

beforeAll(async () => {
  const line =
    'The ferry lay on the far bank with its lamp lit, and nobody on this side had brought a horn or a bell. ';
  value = bookValue(
    book(
      section('titlePage', null),
      chapter(
        'The Weir',
        p(line.repeat(9)),
        p('She ', em('knew'), ' the ', smallCaps('bbc'), note(p('A note.')), ' well.'),
      ),
      chapter(
        'Salt',
        verse(stanza('One line,', 'another')),
        sceneBreak(),
        ...Array.from({ length: 30 }, (_, at) => p(`${at}. ${line.repeat(3)}`)),
      ),
    ),
  );
  const hyphenator = await loadHyphenator('en-GB');
  const hyphenators = new Map(hyphenator ? [['en-GB', hyphenator]] : []);
  pages = new Engine({ library: await testLibrary(), hyphenators }).print(value, 'print').madeUp.pages;
});

function textRuns(page: Page): readonly (GlyphRun & { readonly at: NonNullable<GlyphRun['at']> })[] {
  return page.items.flatMap((item) =>
    item.kind === 'glyphs' && item.at && !item.furniture && item.text.length > 1 ? [{ ...item, at: item.at }] : [],
  );
}

/** The middle of a glyph, left of which a click means the place before its character. */
function middleOf(page: Page, run: GlyphRun, glyph: number): number {
  let x = run.x;
  for (let at = run.start; at < glyph; at++) x += page.advances[at]!;
  return x + page.advances[glyph]! * 0.4;
}

/** The character at an anchor, as the book has it. */
function characterAt(block: string, offset: number): string | undefined {
  let found: string | undefined;
  value.text.descendants((node) => {
    if (node.isTextblock && node.attrs['id'] === block) found = flatText(node)[offset];
    return found === undefined;
  });
  return found;
}

describe('anchorAt', () => {
  it('leads from every glyph of running text to its character, and the line leads back', () => {
    let letters = 0;
    for (const page of pages) {
      for (const run of textRuns(page)) {
        for (let glyph = run.start; glyph < run.start + run.count; glyph += 7) {
          const anchor = anchorAt(page, middleOf(page, run, glyph), run.y - 1);
          expect(anchor?.block).toBe(run.at.block);
          if (!anchor) continue;
          const shown = run.text[page.clusters[glyph]!];
          const own = characterAt(anchor.block, anchor.offset);
          // Lines that the edition makes by itself all stand for their section.
          if (own === undefined) continue;
          // Headings and generated lines may show other letters than the text has; running text may not.
          if (shown !== '\u00AD' && own.toLowerCase() === own && /\p{Ll}/u.test(own)) {
            expect(shown?.toLowerCase()).toBe(own);
            letters++;
          }
          const line = lineOf(pages, anchor, page.section);
          expect(line?.page).toBe(page.index);
          expect(Math.abs((line?.y ?? 0) - (run.y - run.size))).toBeLessThan(run.size);
        }
      }
    }
    expect(letters).toBeGreaterThan(200);
  });

  it('takes the nearest line for a point beside the text, and none on a blank page', () => {
    const page = pages.find((each) => textRuns(each).length > 10);
    const [first] = page ? textRuns(page) : [];
    if (!page || !first) throw new RangeError('no page of text');
    expect(anchorAt(page, 0, first.y)?.block).toBe(first.at.block);
    expect(anchorAt(page, page.size.width, page.size.height)).not.toBeNull();
    const blank = pages.find((each) => each.blank);
    expect(blank && anchorAt(blank, 100, 100)).toBeNull();
  });
});

describe('lineOf', () => {
  it('finds the opener for the place of a whole section', () => {
    const id = String(value.text.child(1).attrs['id']);
    const line = lineOf(pages, { block: id, offset: 0 }, id);
    expect(pages[line?.page ?? -1]).toMatchObject({ opener: true, section: id });
  });

  it('is null for a place that no page has', () => {
    expect(lineOf(pages, { block: 'nowhere', offset: 0 })).toBeNull();
  });
});

describe('a page read out', () => {
  it('reads words whole that the breaker divided, without running heads', () => {
    const words = new Set(value.text.textContent.match(/\p{L}+/gu));
    const body = pages.filter((page) => page.folio.style === 'arabic' && !page.blank && !page.opener);
    const read = body.flatMap((page) => readPage(page, null).map(({ text }) => text)).join(' ');
    expect(read).not.toContain('\u00AD');
    const whole = (read.match(/\p{L}+/gu) ?? []).filter((word) => !words.has(word));
    // A word that goes on over the turn of the page is read in two parts.
    expect(whole.length).toBeLessThanOrEqual(2 * body.length);
  });

  it('says which of its blocks are headings, and each block once', () => {
    const opener = pages.find((page) => page.opener && page.folio.style === 'arabic')!;
    const section = value.text.children.find((each) => each.attrs['id'] === opener.section) ?? null;
    const read = readPage(opener, section);
    const title = section?.firstChild?.textContent ?? '';
    expect(read.filter(({ kind }) => kind === 'heading').map(({ text }) => text)).toEqual([title]);
    expect(new Set(read.map(({ block }) => block)).size).toBe(read.length);
    expect(read.length).toBeGreaterThan(1);
  });
});

describe('pageOfFolio', () => {
  it('finds pages by what they are called', () => {
    const first = pages.find((page) => page.folio.style === 'arabic');
    expect(pageOfFolio(pages, ' 1 ')).toBe(first?.index);
    expect(pageOfFolio(pages, 'II')).toBe(1);
    expect(pageOfFolio(pages, '999')).toBeNull();
  });
});
