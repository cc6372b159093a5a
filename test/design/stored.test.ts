import { describe, expect, it } from 'vitest';
import { builtInDesigns, designOf, ORNAMENT_IDS, ornament, readSettings, resolveForEbook } from '#design';
import { book, bookValue, chapter, EBOOK, PRINT, p } from '../builders/book.ts';

const text = book(chapter('One', p('Text.')));

describe('the design of an edition', () => {
  it('is the built-in one of that id', () => {
    expect(designOf(bookValue(text), PRINT)).toBe(builtInDesigns[0]);
  });

  it('is the book’s own where it keeps one, laid over the built-in one', () => {
    const own = {
      id: 'mine',
      settings: { name: 'Mine', text: { size: 12, leading: 15.5 }, opener: { ornament: 'leaf' } },
    };
    const design = designOf(bookValue(text, { designs: [own] }), { ...PRINT, design: 'mine' });
    expect(design).toMatchObject({ id: 'mine', name: 'Mine', text: { size: 12, family: 'EB Garamond' } });
    expect(design.opener).toMatchObject({ ornament: 'leaf', number: 'words' });
  });

  it('is a mistake where there is none of that id', () => {
    expect(() => designOf(bookValue(text), { ...EBOOK, design: 'lost' })).toThrow('unknown design "lost"');
  });
});

describe('stored settings', () => {
  it.each([
    [{ text: { size: 'large' } }, 'text.size can\'t be "large"'],
    [{ opener: { number: 'hex' } }, 'opener.number can\'t be "hex"'],
    [{ margins: { inner: -4 } }, "margins.inner can't be -4"],
    [{ base: 'nothing' }, 'there is no design "nothing" to start from'],
    [{ heads: { side: 'left' } }, 'heads.side can\'t be "left"'],
    [{ subheadAlign: 'justify' }, 'subheadAlign can\'t be "justify"'],
    [{ verse: { indent: 'wide' } }, 'verse.indent can\'t be "wide"'],
    [[1], 'a design must be an object of settings'],
  ])('%j is refused in one sentence', (json, problem) => {
    expect(readSettings('x', json)).toEqual({ ok: false, problem });
  });

  it.each(builtInDesigns.map((each) => [each.id, each] as const))('survive JSON whole (%s)', (id, settings) => {
    expect(readSettings(id, JSON.parse(JSON.stringify(settings)))).toEqual({ ok: true, value: settings });
  });
});

describe('ornaments', () => {
  it.each(ORNAMENT_IDS)('%s is drawn inside its box', (id) => {
    const { path, viewBox } = ornament(id);
    const numbers = path.match(/-?\d+(\.\d+)?/g)!.map(Number);
    expect(numbers.length % 2).toBe(0);
    for (let index = 0; index < numbers.length; index += 2) {
      expect(numbers[index]).toBeGreaterThanOrEqual(-0.5);
      expect(numbers[index]).toBeLessThanOrEqual(viewBox.width + 0.5);
      expect(numbers[index + 1]).toBeGreaterThanOrEqual(-0.5);
      expect(numbers[index + 1]).toBeLessThanOrEqual(viewBox.height + 0.5);
    }
  });
});

describe('the ebook', () => {
  it('takes its values from the same settings', () => {
    const design = resolveForEbook(builtInDesigns[0]!);
    expect(design).toMatchObject({ family: 'EB Garamond', leadIn: { kind: 'smallCapitals' } });
    expect(design.text).toMatchObject({ indent: 1, justify: true });
    expect(design.sceneBreak.shown).toMatchObject({ kind: 'drawn', ornament: { id: 'lozenges' } });
  });
});
