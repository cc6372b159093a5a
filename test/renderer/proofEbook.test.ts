/** Places in the ebook's documents: every place of the text is found there, and leads back to itself. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page as Tab } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Anchor } from '#base';
import { type Book, flatText, INLINE_OBJECT, textblocksOf } from '#book';
import { type PageStart, proofSection } from '#ebook';
import { readingSheet, screenLook, TONE_COLOURS } from '../../renderer/proof/readingSheet.ts';
import { book, bookValue, br, chapter, em, letter, note, p, stanza, verse } from '../builders/book.ts';
import { request } from '../ebook/request.ts';
import { launchChromium } from '../tools/chromium.ts';
import type { thereAndBack } from './proofEbookPlaces.ts';

const root = resolve(import.meta.dirname, '../..');
mkdirSync(join(root, '.cache'), { recursive: true });
const folder = mkdtempSync(join(root, '.cache/places-'));
let browser: Browser;
let tab: Tab;

beforeAll(async () => {
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    build: {
      outDir: folder,
      lib: {
        entry: join(root, 'test/renderer/proofEbookPlaces.ts'),
        formats: ['iife'],
        name: 'places',
        fileName: () => 'p.js',
      },
    },
  });
  browser = await launchChromium();
  tab = await browser.newPage();
  await tab.addScriptTag({ path: join(folder, 'p.js') });
}, 60_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

function sample(): Book {
  return bookValue(
    book(
      chapter(
        'The Weir',
        p('The ferry lay on the far bank with its lamp lit, and nobody had a bell.'),
        p('She ', em('knew'), ' the price', note(p('In feet.')), ' of salt.', br(), 'And of bread & wine.'),
        p({ id: 'odd id:7' }, 'A block whose id is no name in XML.'),
        letter(p('Dear sir,'), p('Come at once.')),
        verse(stanza('One line,', 'and another.')),
      ),
    ),
  );
}

/** Every third place of every text block. */
function placesIn(value: Book): readonly Anchor[] {
  return textblocksOf(value.text.child(0)).flatMap((block) => {
    const text = flatText(block);
    const offsets = Array.from({ length: Math.ceil(text.length / 3) }, (_, at) => at * 3);
    return offsets.map((offset) => ({ block: String(block.attrs['id']), offset }));
  });
}

async function roundTrips(value: Book, pageStarts: readonly PageStart[]) {
  const { view, design } = request(value);
  const section = String(value.text.child(0).attrs['id']);
  const proof = proofSection({ view, design, section, pageStarts, fonts: [] });
  if (!proof) throw new RangeError('the ebook leaves the section out');
  const anchors = placesIn(value);
  const found = await tab.evaluate(
    (given) => {
      const { thereAndBack: both } = globalThis as unknown as { thereAndBack: typeof thereAndBack };
      return both(given.xhtml, given.anchors);
    },
    { xhtml: proof.xhtml, anchors },
  );
  return anchors.map((anchor, at) => ({ anchor, ...found[at]! }));
}

describe('places in the ebook', () => {
  it.each([
    ['as it stands', []],
    ['with page marks inside words', [{ label: '7', block: 'b2', offset: 6 }]],
  ] as const)('lead back to themselves, %s', async (_, pageStarts) => {
    const value = sample();
    const texts = new Map(
      textblocksOf(value.text.child(0)).map((block) => [String(block.attrs['id']), flatText(block)]),
    );
    for (const { anchor, back, after } of await roundTrips(value, pageStarts)) {
      expect(back).toEqual(anchor);
      const own = (texts.get(String(anchor.block)) ?? '').slice(anchor.offset);
      const next = own[0] === '\n' || own[0] === INLINE_OBJECT ? '' : own.slice(0, 1);
      // At the seam of two pieces the place may stand at the end of the first.
      if (after !== '') expect(after.slice(0, next.length)).toBe(next);
    }
  });
});

describe('readingSheet', () => {
  /** Relative luminance and contrast (WCAG 2.2, "contrast ratio"). */
  function contrast(one: string, other: string): number {
    const light = (colour: string): number => {
      const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
        const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const [dark, bright] = [light(one), light(other)].sort((a, b) => a - b);
    return (bright! + 0.05) / (dark! + 0.05);
  }

  it.each(['day', 'sepia', 'night'] as const)('reads by %s', (tone) => {
    expect(contrast(TONE_COLOURS[tone].paper, TONE_COLOURS[tone].ink)).toBeGreaterThan(7);
  });

  it('makes a column and a gap as wide as the screen', () => {
    const look = screenLook({ screen: 'phone', textSize: 100, margin: 'wide', tone: 'day' });
    const css = readingSheet(look);
    const column = Number(/columns: (\d+)px/.exec(css)?.[1]);
    const gap = Number(/column-gap: (\d+)px/.exec(css)?.[1]);
    expect(column + gap).toBe(look.width);
  });
});
