/** What the built-in designs promise beside each other. */
import { describe, expect, it } from 'vitest';
import { builtInDesigns, type DesignSettings } from '#design';
import { BUNDLED_FONTS } from '../../electron/services/bundled.ts';

const named = builtInDesigns.map((each) => [each.name, each] as const);

/** What a reader tells designs apart by, page by page. */
function looks({ text, opener, leadIn, sceneBreak, heads, folios, titlePage, subheads }: DesignSettings): unknown[] {
  return [
    text.family,
    [opener.align, opener.number, opener.titleLook.italic],
    leadIn.kind,
    [sceneBreak.mark, sceneBreak.ornament],
    [heads.side, heads.look.italic, heads.look.letters],
    folios.place,
    [titlePage.align, titlePage.title.letters],
    subheads.map(({ letters, bold }) => [letters, bold]),
  ];
}

describe('the built-in designs', () => {
  it('have ids and names of their own', () => {
    expect(new Set(builtInDesigns.map((each) => each.id)).size).toBe(builtInDesigns.length);
    expect(new Set(builtInDesigns.map((each) => each.name)).size).toBe(builtInDesigns.length);
  });

  it('differ from each other in nearly all that a reader sees', () => {
    for (const one of builtInDesigns) {
      for (const other of builtInDesigns) {
        if (one === other) continue;
        const [ours, theirs] = [looks(one), looks(other)];
        const different = ours.filter((look, index) => JSON.stringify(look) !== JSON.stringify(theirs[index]));
        expect(different.length).toBeGreaterThanOrEqual(6);
      }
    }
  });

  it.each(named)(
    '%s is set in a family that travels with the program, roman and italic, regular and bold',
    (_, design) => {
      for (const family of [design.text.family, design.display.family]) {
        const cuts = BUNDLED_FONTS.filter((font) => font.family === family && !font.fallback);
        expect(cuts.map((font) => `${font.weight} ${font.italic}`)).toEqual([
          '400 false',
          '400 true',
          '700 false',
          '700 true',
        ]);
      }
    },
  );

  it.each(named)(
    '%s sets a good line at its own trim (FACTS T-01, T-03, T-04, T-05, T-20)',
    (_, { text, margins, trim }) => {
      const characters = (trim.width - margins.inner - margins.outer) / (text.size * text.character);
      expect(characters).toBeGreaterThanOrEqual(62);
      expect(characters).toBeLessThanOrEqual(71);
      expect(text.leading / text.size).toBeGreaterThanOrEqual(1.2);
      expect(text.leading / text.size).toBeLessThanOrEqual(1.45);
      expect(text.size).toBeGreaterThanOrEqual(9);
      expect(text.indent).toBeGreaterThanOrEqual(1);
      expect(text.indent).toBeLessThanOrEqual(2);
      // Three quarters of the natural space is the least that a line is given.
      expect(text.wordSpace * 0.75).toBeGreaterThanOrEqual(0.19);
    },
  );
});
