/** What letters give to even out a line: a little width, a little air between them, and marks that hang into the margins. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { BrokenParagraph, ParagraphShape, StyledText } from '#paragraph';
import { BREAK_SETTINGS } from '../../core/paragraph/settings.ts';
import { at, linesOf, openShop, placed, type Shop, styled } from './setting.ts';

let shop: Shop;

beforeAll(async () => {
  shop = await openShop();
});

const MILL =
  'The miller’s daughter had counted every sack before the river rose, and she counted them again when it had gone ' +
  'down, for her father trusted neither the weather nor the neighbours, and least of all his own arithmetic.';

function broken(text: StyledText, shape: ParagraphShape) {
  return shop.setter.break({ text, shape, looseness: 0 });
}

const SIZE = 11;

/** How far a line's letters are set apart, at most and in ems, and its first space as a multiple of the natural one. */
function airOf(paragraph: BrokenParagraph, line: number): { readonly apart: number; readonly space: number } {
  const { page, runs } = placed(paragraph, line);
  const [run] = runs;
  const { family, features, language } = shop.style;
  const setting = { features: features.join(','), language, direction: 'ltr' } as const;
  const natural = family.regular.shape(run!.text, setting);
  const spaces = [...natural.glyphs.keys()].filter((glyph) => run!.text[natural.clusters[glyph]!] === ' ');
  const scale = SIZE / family.regular.unitsPerEm;
  const set = (glyph: number) => page.advances[run!.start + glyph]! / scale;
  const letters = [...natural.glyphs.keys()].filter((glyph) => !spaces.includes(glyph));
  const apart = letters.map((glyph) => set(glyph) - natural.advances[glyph]! * (run!.scale ?? 1));
  const first = spaces[0];
  return {
    apart: Math.max(...apart) / family.regular.unitsPerEm,
    space: first === undefined ? 1 : set(first) / natural.advances[first]!,
  };
}

describe('microtypography', () => {
  test('letters may give a little, and then spaces give less', () => {
    const text = styled(MILL, shop.style);
    const stiff = broken(text, at(200));
    const shape = at(200, { scaling: 0.02 });
    const soft = broken(text, shape);
    linesOf(text, shape, soft);
    const scales = soft.lines.map((_, i) => placed(soft, i).runs[0]!.scale ?? 1);
    for (const scale of scales) expect(Math.abs(scale - 1)).toBeLessThanOrEqual(0.02 + 1e-9);
    expect(scales.some((scale) => scale !== 1)).toBe(true);
    expect(soft.demerits).toBeLessThanOrEqual(stiff.demerits);
  });

  test('letters are set apart where spaces would gape, within bounds and nowhere else', () => {
    const most = BREAK_SETTINGS.letterspace;
    // Bounds are shares of the text size: a style of one size, set in eleven points.
    const text = styled(MILL, { ...shop.style, size: 1, hyphenate: false });
    let spaced = 0;
    for (let measure = 120; measure < 200; measure++) {
      const shape = at(measure, { size: SIZE, scaling: 0.01 });
      const paragraph = broken(text, shape);
      linesOf(text, shape, paragraph);
      for (const [index, { ratio }] of paragraph.lines.entries()) {
        const { apart, space } = airOf(paragraph, index);
        expect(apart).toBeLessThan(ratio > 1 ? most + 1e-4 : 1e-4);
        if (apart < most - 1e-4) expect(space).toBeLessThan(1.5 + 1e-3);
        if (apart > 1e-3) spaced++;
      }
    }
    expect(spaced).toBeGreaterThan(20);
    const stiff = broken(text, at(120, { size: SIZE }));
    expect(stiff.lines.some(({ ratio }) => ratio > 1)).toBe(true);
    for (const index of stiff.lines.keys()) expect(airOf(stiff, index).apart).toBeLessThan(1e-4);
  });

  test('speeches that open with a dash begin one below the other, however their lines are filled', () => {
    let stretched = 0;
    const starts = new Set<string>();
    for (let measure = 150; measure < 250; measure += 3) {
      const text = styled(`— ${MILL}`, { ...shop.style, language: 'fr' });
      const shape = at(measure, { scaling: 0 });
      const paragraph = broken(text, shape);
      linesOf(text, shape, paragraph);
      const { page, runs } = placed(paragraph, 0);
      starts.add((page.advances[runs[0]!.start]! + page.advances[runs[0]!.start + 1]!).toFixed(3));
      if (Math.abs(paragraph.lines[0]!.ratio) > 0.3) stretched++;
    }
    expect(starts.size).toBe(1);
    expect(stretched).toBeGreaterThan(5);
  });

  test('hyphens, stops and quotation marks hang into the margins', () => {
    const text = styled('“Well,” she said, “there is the weir, and there is the wheel, and here am I.”', shop.style);
    const paragraph = broken(text, at(130, { hang: true }));
    linesOf(text, at(130, { hang: true }), paragraph);
    expect(placed(paragraph, 0).left).toBeLessThan(-1);
  });

  test.each(['„Gut“', '‚Gut‘', '»Gut«', '›Gut‹', '“Good”', '« Bon »'])('%s hangs at both ends', (word) => {
    const text = styled(word, { ...shop.style, language: 'de' });
    const [inside, outside] = [false, true].map((hang) => broken(text, at(200, { hang, align: 'start' })));
    expect(placed(outside!, 0).left).toBeLessThan(placed(inside!, 0).left - 0.2);
    expect(outside!.lines[0]!.width).toBeLessThan(inside!.lines[0]!.width - 0.2);
  });
});
