import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type FontFace, type FontLibrary, loadFontLibrary, type Shaped, type ShapeSetting } from '#type';
import { fontModules, hebrewFile, testLibrary, textFiles } from './fonts.ts';

let library: FontLibrary;
let face: FontFace;

beforeAll(async () => {
  library = await testLibrary();
  face = library.family('EB Garamond').regular;
});

function setting(features = '', direction: 'ltr' | 'rtl' = 'ltr'): ShapeSetting {
  return { features, language: 'en-US', direction };
}

/** Shapes, and checks what holds of every result: equal lengths, clusters inside the text, the width a sum. */
function shape(text: string, features = '', use = face): Shaped {
  const shaped = use.shape(text, setting(features));
  expect(shaped.advances.length).toBe(shaped.glyphs.length);
  expect(shaped.clusters.length).toBe(shaped.glyphs.length);
  expect(shaped.width).toBe(shaped.advances.reduce((sum, advance) => sum + advance, 0));
  for (const cluster of shaped.clusters) expect(cluster).toBeLessThan(text.length);
  return shaped;
}

/** `o0 ffi1 ...`: glyph counts and clusters as a compact string. */
function clusters(shaped: Shaped): string {
  return Array.from(shaped.clusters).join(' ');
}

describe('shaping', () => {
  test('a ligature takes the cluster of its first letter', () => {
    expect(clusters(shape('office'))).toBe('0 1 4 5');
  });

  test('a default feature can be turned off', () => {
    expect(clusters(shape('office', '-liga'))).toBe('0 1 2 3 4 5');
  });

  test('kerning narrows AV', () => {
    const apart = face.advanceOf(face.glyphOf(0x41)) + face.advanceOf(face.glyphOf(0x56));
    expect(shape('AV').width).toBeLessThan(apart);
    expect(shape('AV', '-kern').width).toBe(apart);
  });

  test('old-style figures and small capitals are other glyphs', () => {
    for (const [text, feature] of [
      ['1849', 'onum'],
      ['weir', 'smcp'],
    ] as const) {
      const plain = shape(text).glyphs;
      const variant = shape(text, feature).glyphs;
      expect(variant.every((glyph, i) => glyph !== plain[i])).toBe(true);
    }
  });

  test('the same text and setting give the very same result', () => {
    expect(face.shape('whale', setting())).toBe(face.shape('whale', setting()));
    expect(face.shape('1849', setting('onum'))).not.toBe(face.shape('1849', setting()));
  });

  test('right-to-left text comes in the order of the page', () => {
    const shaped = library.fallbacks[0]!.shape('שלום', setting('', 'rtl'));
    expect(clusters(shaped)).toBe('3 2 1 0');
  });

  test('pieces cut at safe places have the glyphs and advances of the whole', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[A-Za-zÀ-ÿ’.,]{2,14}$/), fc.nat(), (word, seed) => {
        const whole = shape(word);
        const at = 1 + (seed % whole.glyphs.length);
        if (at >= whole.glyphs.length || whole.unsafe?.[at]) return;
        const cut = whole.clusters[at]!;
        const first = shape(word.slice(0, cut));
        const second = shape(word.slice(cut));
        expect([...first.glyphs, ...second.glyphs]).toEqual([...whole.glyphs]);
        expect([...first.advances, ...second.advances]).toEqual([...whole.advances]);
      }),
    );
  });

  test('a place inside a kerned pair is flagged', () => {
    expect(shape('AV').unsafe?.[1]).toBe(1);
    expect(shape('nn').unsafe).toBeNull();
  });

  test('space kerning is what the space adds to the parts', () => {
    for (const [left, right] of [
      ['Tell', 'Very'],
      ['', 'Ahab'],
      ['off', '“Yes”'],
    ] as const) {
      const last = left.slice(-1);
      const first = right.slice(0, 1);
      const parts = [last, ' ', first].reduce((sum, part) => sum + (part ? shape(part).width : 0), 0);
      expect(face.spaceKerning(left, right, setting())).toBe(shape(`${last} ${first}`).width - parts);
    }
  });
});

describe('faces', () => {
  test('the four faces of a family', () => {
    const family = library.family('EB Garamond');
    expect([family.regular, family.italic, family.bold, family.boldItalic].map((one) => one.id)).toEqual([
      'eb-garamond-400',
      'eb-garamond-400-italic',
      'eb-garamond-700',
      'eb-garamond-700-italic',
    ]);
    expect(library.face('eb-garamond-400')).toBe(family.regular);
  });

  test('a family with one face repeats it', async () => {
    const small = await loadFontLibrary([textFiles[0]!], fontModules());
    const family = small.family('EB Garamond');
    expect(family.boldItalic).toBe(family.regular);
  });

  test('what was not loaded is a mistake of the caller', () => {
    expect(() => library.family('Nowhere')).toThrow(RangeError);
    expect(() => library.face('nowhere-400')).toThrow(RangeError);
  });

  test('a file that is no font names its family', async () => {
    const bad = { family: 'Torn', weight: 400, italic: false, bytes: textFiles[0]!.bytes.slice(0, 5000) };
    await expect(loadFontLibrary([bad], fontModules())).rejects.toThrow(/Torn 400/);
  });

  test('metrics come from the tables of the font', () => {
    // EB Garamond as distributed: head, hhea, OS/2 and post, read with a font inspection tool.
    expect(face.unitsPerEm).toBe(1000);
    expect([face.ascender, face.descender, face.capHeight, face.xHeight]).toEqual([1007, -298, 650, 400]);
    expect(face.postScriptName).toBe('EBGaramond-Regular');
    expect(library.family('EB Garamond').italic.italicAngle).toBeLessThan(0);
    expect([face.embedding, face.maySubset, face.cff]).toEqual(['installable', true, false]);
    expect([face.hasFeature('onum'), face.hasFeature('smcp'), face.hasFeature('zzzz')]).toEqual([true, true, false]);
  });

  test('outline and ink agree', () => {
    for (const letter of 'AQgf&') {
      const glyph = face.glyphOf(letter.codePointAt(0)!);
      const numbers = face
        .outline(glyph)
        .match(/-?[\d.]+/g)!
        .map(Number);
      const [left, bottom, right, top] = face.inkOf(glyph)!;
      const xs = numbers.filter((_, i) => i % 2 === 0);
      const ys = numbers.filter((_, i) => i % 2 === 1);
      // Control points may lie outside the ink, never the other way round.
      expect(Math.min(...xs)).toBeLessThanOrEqual(left);
      expect(Math.max(...xs)).toBeGreaterThanOrEqual(right);
      expect(Math.min(...ys)).toBeLessThanOrEqual(bottom);
      expect(Math.max(...ys)).toBeGreaterThanOrEqual(top);
    }
    expect(face.inkOf(face.glyphOf(0x20))).toBeNull();
    expect(face.outline(face.glyphOf(0x20))).toBe('');
  });

  test('characters: own glyph, put together, showing nothing, absent', () => {
    expect(face.has(0x41)).toBe(true);
    expect(face.has(0x202f)).toBe(true);
    expect(face.has(0x2060)).toBe(true);
    expect(face.has(0x5d0)).toBe(false);
    expect(face.has(0x1f600)).toBe(false);
    expect(library.fallbacks[0]!.has(0x5d0)).toBe(true);
  });

  test('a fallback is no family', () => {
    expect(library.fallbacks.map((one) => one.family)).toEqual([hebrewFile.family]);
    expect(() => library.family(hebrewFile.family)).toThrow(RangeError);
  });
});
