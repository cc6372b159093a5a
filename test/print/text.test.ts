import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Page } from '#page';
import { type FontLibrary, loadFontLibrary } from '#type';
import { blockFont } from '../type/blocks.ts';
import { fontFile, fontModules, hebrewFile, textFiles } from '../type/fonts.ts';
import { contents, fontLines, type LineLook, listed, page, picture, print, request, setLine, traced } from './press.ts';

let library: FontLibrary;
let regular: LineLook;
let italic: LineLook;

beforeAll(async () => {
  // The emoji face has 2048 units to the em, the others 1000.
  const emoji = { family: 'Noto Emoji', weight: 400, italic: false, fallback: true };
  const bytes = fontFile('noto-emoji/400Regular/NotoEmoji_400Regular.ttf');
  library = await loadFontLibrary([...textFiles, hebrewFile, { ...emoji, bytes }], fontModules());
  regular = { face: library.family('EB Garamond').regular };
  italic = { face: library.family('EB Garamond').italic };
});

/** What poppler reads, lines as they come. */
function readBack(pages: readonly Page[]): string {
  return print(request(library, pages)).run('pdftotext', '-raw', 'FILE', '-').replaceAll('\f', '').trimEnd();
}

/** The farthest that any glyph stands from its place, in points. */
function farthest(pages: readonly Page[]): number {
  const found = traced(print(request(library, pages)));
  const wanted = listed(pages);
  expect(found.map((one) => [one.page, one.glyph])).toEqual(wanted.map((one) => [one.page, one.glyph]));
  return Math.max(...wanted.map((one, i) => Math.max(Math.abs(one.x - found[i]!.x), Math.abs(one.y - found[i]!.y))));
}

describe('text read back', () => {
  test('ligatures, kerning, figures and small capitals read as typed', () => {
    const lines: readonly (readonly [string, Partial<LineLook>])[] = [
      ['The office baffled AVA’s fjord, Th. Qu.', {}],
      ['“Waffle,” he said — 1849…', { features: 'onum' }],
      ['the weir and 27 small capitals', { features: 'smcp' }],
      ['ABC abc', { features: 'c2sc,smcp' }],
      ['naïve façade, cafe\u0301, Œuvre, Straße', {}],
      ['Ζεύς, Анна', {}],
    ];
    const set = page(0, (to) => {
      lines.forEach(([text, look], i) => {
        setLine(to, text, [45, 60 + i * 14], { ...regular, ...look });
      });
    });
    expect(readBack([set]).split('\n')).toEqual(lines.map(([text]) => text));
  });

  test('a hyphen at a line’s end reads as a soft hyphen, one in a word as itself', () => {
    const set = page(0, (to) => {
      setLine(to, 'a well-known impos-', [45, 60], { ...regular, reads: 'a well-known impos\u00ad' });
      setLine(to, 'sible thing', [45, 74], regular);
    });
    expect(readBack([set])).toBe('a well-known impos\u00ad\nsible thing');
    expect(contents(print(request(library, [set])).bytes)).toContain('/Span<</ActualText<FEFF00AD>>>BDC');
  });

  test('one glyph for two texts keeps both', () => {
    // With small capitals from capitals, A and a are the same glyph.
    const set = page(0, (to) => {
      setLine(to, 'aside', [45, 60], { ...regular, features: 'smcp' });
      setLine(to, 'ASIDE', [45, 74], { ...regular, features: 'c2sc' });
    });
    expect(readBack([set])).toBe('aside\nASIDE');
  });

  test('letterspaced words stay whole', () => {
    const set = page(0, (to) => {
      setLine(to, 'part one: the office', [45, 60], { ...regular, features: '-liga,smcp', stretch: () => 1.9 });
      setLine(to, 'Part of it', [45, 80], regular);
    });
    expect(readBack([set])).toBe('part one: the office\nPart of it');
  });

  test('a drop cap is read with its word', () => {
    const set = page(0, (to) => {
      setLine(to, 'T', [45, 88], { ...regular, size: 44, reads: '' });
      const { face } = regular;
      const shaped = face.shape('he weir', { features: 'smcp', language: 'en', direction: 'ltr' });
      to.beginRun({ face: face.id, size: 11, x: 75, y: 60 });
      shaped.glyphs.forEach((glyph, i) => {
        to.glyph(glyph, shaped.advances[i]! * 0.011, i === 0 ? 0 : shaped.clusters[i]! + 1);
      });
      to.endRun('The weir');
      setLine(to, 'was shut, and the hem wet.', [75, 74], regular);
    });
    expect(readBack([set])).toBe('The weir\nwas shut, and the hem wet.');
  });

  test('a space that keeps words together is a space; what shows nothing leaves no glyph', () => {
    const set = page(0, (to) => setLine(to, 'Mr.\u00a0Pell re\u2060read it\u200b', [45, 60], regular));
    expect(readBack([set]).replaceAll('\u00a0', ' ')).toBe('Mr. Pell reread it');
  });

  test('several faces on one line, and faces from right to left', () => {
    const set = page(0, (to) => {
      const title = setLine(to, 'Then she read ', [45, 60], regular);
      const rest = setLine(to, 'The Mill', [title, 60], italic);
      setLine(to, ' again.', [rest, 60], regular);
      setLine(to, 'שלום', [45, 80], { face: library.fallbacks[0]!, direction: 'rtl' });
      setLine(to, '🙂', [45, 100], { face: library.fallbacks[1]! });
    });
    const [first, second, third] = readBack([set]).split('\n');
    expect(first).toBe('Then she read The Mill again.');
    expect(second!.replace(/[\u202a-\u202e]/gu, '')).toBe('שלום');
    expect(third).toBe('🙂');
    expect(fontLines(print(request(library, [set])))).toHaveLength(4);
  });

  test('a face with CFF outlines', async () => {
    const file = { family: 'Blocks', weight: 400, italic: false, bytes: blockFont() };
    const blocks = await loadFontLibrary([file], fontModules());
    const { regular: face } = blocks.family('Blocks');
    const set = page(0, (to) => setLine(to, 'AB E', [1, 6], { face, size: 10 }), { size: { width: 22, height: 8 } });
    const made = print(request(blocks, [set]));
    expect(fontLines(made)[0]).toMatch(/\+Blocks-Identity-H +CID Type 0C/);
    expect(made.run('pdftotext', '-raw', 'FILE', '-').trim()).toBe('AB E');
    // Bars 1, 2 and 5 points high and 4 wide, half a point from the pen.
    expect(picture(made)[5]!.match(/[#+]+/g)).toHaveLength(3);
  });

  test('furniture is set off as artifact', () => {
    const set = page(0, (to) => {
      setLine(to, 'THE WEIR', [45, 30], { ...regular, furniture: true });
      setLine(to, 'Text.', [45, 60], regular);
    });
    const found = contents(print(request(library, [set])).bytes);
    expect(found.match(/\/Artifact BMC/g)).toHaveLength(1);
    expect(found.match(/BMC|BDC/g)!.length).toBe(found.match(/EMC/g)!.length);
  });

  test('any words in any order', () => {
    const word = fc.stringMatching(/^[A-Za-zÀ-ÖØ-öø-ÿ]{1,12}[,.;!?’”…]?$/);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(word, fc.constantFrom('', 'smcp', 'onum', '-liga')), { minLength: 1, maxLength: 30 }),
        (words) => {
          const set = page(0, (to) => {
            words.forEach(([text, features], i) => {
              setLine(to, text, [45, 30 + i * 18], { ...regular, features });
            });
          });
          expect(readBack([set])).toBe(words.map(([text]) => text).join('\n'));
        },
      ),
      { numRuns: 8 },
    );
  });
});

describe('places of glyphs', () => {
  /** Aims of the project: no glyph farther than a hundredth of a point from where the page has it. */
  const LIMIT = 0.01;

  test.each([
    ['text size', { size: 11 }],
    ['a size between', { size: 9.37 }],
    ['display', { size: 72 }],
    ['widened glyphs', { size: 11, scale: 1.0173 }],
    ['narrowed glyphs', { size: 11, scale: 0.98 }],
    ['small capitals', { size: 12, features: 'smcp' }],
  ])('%s', (_, look: Partial<LineLook>) => {
    let seed = 1;
    // Uneven additions, as justification and letterspacing make them, in a fixed sequence.
    const stretch = () => {
      seed = (seed * 16807) % 2147483647;
      return (seed / 2147483647 - 0.3) * 1.7;
    };
    const set = page(0, (to) => {
      for (let line = 0; line < 30; line++) {
        setLine(to, 'AVA took the office by Tower Water, Wholly 1849', [45.123, 40 + line * 14.017], {
          ...regular,
          ...look,
          stretch,
        });
      }
    });
    expect(farthest([set])).toBeLessThan(LIMIT);
  });

  test('accents moved from the pen, right to left, 2048 units to the em', () => {
    const [hebrew, emoji] = library.fallbacks;
    const set = page(0, (to) => {
      setLine(to, 'q\u0301x\u0323\u0301 A\u030a\u0301', [45, 60], { ...regular, stretch: () => 0.37 });
      setLine(to, 'שָׁלוֹם', [45, 90], { face: hebrew!, size: 14, direction: 'rtl' });
      setLine(to, '🙂🌊🙂⚓🙂🌊', [45, 120], { face: emoji!, size: 11 });
    });
    expect(set.offsets).not.toBeNull();
    expect(farthest([set])).toBeLessThan(LIMIT);
  });

  test('natural advances need no adjustments', () => {
    const set = page(0, (to) => setLine(to, 'nonillion', [45, 60], regular));
    expect(contents(print(request(library, [set])).bytes)).toMatch(/^\[\([^)]*\)\]TJ$/m);
  });
});

describe('ink', () => {
  test('text is black in grey, tints are grey', () => {
    const set = page(0, (to) => {
      setLine(to, 'black', [45, 60], regular);
      setLine(to, 'tint', [45, 80], { ...regular, grey: 0.4 });
      setLine(to, 'black again', [45, 100], regular);
    });
    const colours = contents(print(request(library, [set])).bytes).match(/^.* g$/gm);
    expect(colours).toEqual(['0.4 g', '0 g']);
  });
});
