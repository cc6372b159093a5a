import { describe, expect, it } from 'vitest';
import { type PrintEdition, readEdition } from '#book';
import {
  builtInDesigns,
  type DisplaySetting,
  designOf,
  LARGE_PRINT,
  largePrintTrim,
  type PrintDesign,
  resolveForPrint,
  trims,
} from '#design';
import { book, bookValue, chapter, PRINT, p } from '../builders/book.ts';

const value = bookValue(book(chapter('One', p('Text.'))));

function edition(largePrint: number, trim = largePrintTrim(largePrint), design = 'quoin'): PrintEdition {
  return { ...(PRINT as PrintEdition), design, largePrint, trim };
}

function resolved(of: PrintEdition, pages = 400): PrintDesign {
  return resolveForPrint(designOf(value, of), of, { pages });
}

describe('large print', () => {
  it.each([16, 18, 20])('of %i points has the published leading, lines and letters (FACTS T-29)', (size) => {
    const { text, frame, hang, scaling, leadIn } = resolved(edition(size));
    expect(text).toMatchObject({ size, align: 'start', hyphenate: false });
    expect(text.leading / text.size).toBeGreaterThanOrEqual(1.5);
    expect([hang, scaling, leadIn.kind]).toEqual([false, 0, 'none']);
    // FACTS T-02: 60 to 70 characters; where the trim allows it, and no fewer than 50 on the trims that it asks for.
    const characters = frame.measure / (size * 0.38);
    expect(characters).toBeGreaterThanOrEqual(50);
    expect(characters).toBeLessThanOrEqual(70);
  });

  it('keeps its size on every trim, however narrow', () => {
    for (const trim of trims) expect(resolved(edition(16, trim)).text.size).toBe(16);
  });

  it.each(builtInDesigns.map((each) => each.id))('has nothing small or slanted but the copyright page (%s)', (id) => {
    const settings = designOf(value, edition(16, largePrintTrim(16), id));
    const displays: DisplaySetting[] = [];
    JSON.stringify(settings, (_, each: unknown) => {
      if (typeof each === 'object' && each !== null && 'letterspace' in each) displays.push(each as DisplaySetting);
      return each;
    });
    expect(displays.length).toBeGreaterThan(15);
    for (const each of displays) expect(each).toMatchObject({ italic: false, letters: 'asTyped' });
    expect(Math.min(...displays.map((each) => each.size))).toBeGreaterThanOrEqual(1);
    const { notes, caption, quotation, epigraph, folios, imprint } = settings;
    for (const { size } of [notes, caption, quotation, epigraph, folios]) expect(size).toBe(1);
    // Clear print: 12 to 14 points (FACTS T-29).
    expect(imprint.size * 16).toBeGreaterThanOrEqual(12);
  });

  it('is the very same design each time, and the plain one where the edition wants none', () => {
    expect(designOf(value, edition(18))).toBe(designOf(value, edition(18)));
    expect(designOf(value, { ...edition(18), largePrint: null })).toBe(builtInDesigns[0]);
  });

  it('survives JSON in its edition, and is refused in one sentence where it is no such size', () => {
    const large = edition(18);
    expect(readEdition(JSON.parse(JSON.stringify(large)))).toEqual({ ok: true, value: large });
    for (const wrong of [12, 25, '16', Number.NaN]) {
      const problem = 'The large print of an edition must be a size from 16 to 24 points.';
      expect(readEdition({ ...large, largePrint: wrong })).toEqual({ ok: false, problem });
    }
  });

  it('reads a running head apart from the text', () => {
    const { heads, frame } = resolved(edition(LARGE_PRINT.least));
    expect(frame.firstBaseline - heads.baseline).toBeGreaterThan(frame.leading * 1.2);
  });
});
