/** Paragraphs set in EB Garamond: input, settings, expected lines. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { PageBuilder } from '#page';
import type { ParagraphShape, StyledText, TextStyle } from '#paragraph';
import { DIVISION, KIND, LAST } from '../../core/paragraph/text/cutKinds.ts';
import { partWidth } from '../../core/paragraph/text/cuts.ts';
import { FountRack } from '../../core/paragraph/text/fount.ts';
import { openCase } from '../../core/paragraph/text/host.ts';
import { NONE } from '../../core/paragraph/text/wordCase.ts';
import { mobyDickParagraphs } from './mobyDick.ts';
import { at, finish, flatText, linesOf, openShop, placed, type Shop, styled } from './setting.ts';
import { shapedWord } from './shapedWord.ts';

let shop: Shop;

beforeAll(async () => {
  shop = await openShop();
});

const MILL =
  'The miller’s daughter had counted every sack before the river rose, and she counted them again when it had gone ' +
  'down, for her father trusted neither the weather nor the neighbours, and least of all his own arithmetic.';

function broken(text: StyledText, shape: ParagraphShape, looseness = 0) {
  return shop.setter.break({ text, shape, looseness });
}

/** Lines of a markup paragraph; all laws are checked. */
function set(markup: string, shape: ParagraphShape, other: Partial<TextStyle> = {}, style: Partial<TextStyle> = {}) {
  const text = styled(markup, { ...shop.style, ...style }, other);
  return linesOf(text, shape, broken(text, shape));
}

describe('counting lines', () => {
  test('gives what breaking gives, and no number for a word that is wider than its measure', () => {
    let wide = 0;
    const aligned = fc.constantFrom<ParagraphShape['align']>('justify', 'start', 'center');
    fc.assert(
      fc.property(fc.integer({ min: 12, max: 320 }), aligned, fc.nat(40), (measure, align, from) => {
        const text = styled(MILL.slice(from), shop.style);
        const shape = at(measure, { align });
        const { lines } = broken(text, shape);
        const spoilt = lines.some((line) => line.overfull > 0 || line.torn);
        if (spoilt) wide++;
        expect(shop.setter.countLines(text, shape)).toBe(spoilt ? Number.POSITIVE_INFINITY : lines.length);
      }),
      { numRuns: 300 },
    );
    expect(wide).toBeGreaterThan(10);
  });
});

describe('lines', () => {
  test('justified', () => {
    expect(set(MILL, at(250, { indentFirst: 11 }))).toMatchInlineSnapshot(`
      [
        "The miller’s daughter had counted every sack before the",
        "river rose, and she counted them again when it had gone",
        "down, for her father trusted neither the weather nor the",
        "neighbours, and least of all his own arithmetic.",
      ]
    `);
  });

  test('ragged right divides no word and keeps spaces natural', () => {
    const shape = at(250, { align: 'start' });
    expect(set(MILL, shape)).toMatchInlineSnapshot(`
      [
        "The miller’s daughter had counted every sack before the",
        "river rose, and she counted them again when it had gone",
        "down, for her father trusted neither the weather nor the",
        "neighbours, and least of all his own arithmetic.",
      ]
    `);
    const paragraph = broken(styled(MILL, shop.style), shape);
    const { runs, page } = placed(paragraph, 0);
    const spaces = [...runs[0]!.text].flatMap((character, i) => (character === ' ' ? [i] : []));
    const widths = spaces.map((cluster) => page.advances[page.clusters.indexOf(cluster)]!);
    expect(new Set(widths.map((width) => width.toFixed(4))).size).toBe(1);
  });

  test('centred and flush right', () => {
    for (const [align, share] of [
      ['center', 0.5],
      ['end', 1],
    ] as const) {
      const paragraph = broken(styled(MILL, shop.style), at(250, { align }));
      paragraph.lines.forEach((line, i) => {
        const { left, right } = placed(paragraph, i);
        expect(left).toBeCloseTo((250 - line.width) * share, 3);
        expect(right).toBeCloseTo(left + line.width, 3);
      });
    }
  });

  test('forced breaks end lines at their natural width', () => {
    expect(set('The Old Mill|Weir Lane|Harrowby', at(200))).toEqual(['The Old Mill', 'Weir Lane', 'Harrowby']);
    expect(set('one||two', at(200))).toEqual(['one', '', 'two']);
  });

  test('spaces at the ends of lines and paragraphs vanish, holding spaces stay', () => {
    expect(set('  one  |  two ', at(200))).toEqual(['one', 'two']);
    expect(set('said Dr.\u00a0Hale', at(50))).toEqual(['said', 'Dr.\u00a0Hale']);
    expect(set('one\ttwo *three\nfour* five', at(200))).toEqual(['one two three four five']);
  });

  test('an indent and a notch narrow the first lines', () => {
    const shape = at(200, { notch: { lines: 2, width: 40 }, indentRest: 5 });
    const text = styled(MILL, shop.style);
    const paragraph = broken(text, shape);
    linesOf(text, shape, paragraph);
    expect(paragraph.lines.slice(0, 4).map((_, i) => Math.round(placed(paragraph, i).left))).toEqual([40, 45, 5, 5]);
  });

  test('nothing at all is one empty line', () => {
    const paragraph = broken({ block: 'b', spans: [] }, at(100));
    expect(paragraph.lines).toHaveLength(1);
    expect(paragraph.lines[0]).toMatchObject({ from: 0, to: 0, width: 0 });
    expect(placed(paragraph, 0).runs).toEqual([]);
  });
});

describe('hyphens', () => {
  test('the hyphen that is added reads U+00AD', () => {
    const paragraph = broken(styled('an extraordinarily uncharacteristic disinclination', shop.style), at(120));
    const texts = paragraph.lines.map((_, i) =>
      placed(paragraph, i)
        .runs.map((run) => run.text)
        .join(''),
    );
    expect(texts).toMatchInlineSnapshot(`
      [
        "an extraordinarily uncharac­",
        "teristic disinclination",
      ]
    `);
    expect(paragraph.lines.map((line) => line.hyphenated)).toEqual(texts.map((text) => text.endsWith('\u00ad')));
  });

  test('not where the style forbids them', () => {
    const lines = set(MILL, at(150), {}, { hyphenate: false });
    expect(lines.filter((line) => line.endsWith('-'))).toEqual([]);
  });

  test('an author’s soft hyphen takes the place of the patterns and shows only where the line ends', () => {
    expect(set('Her Kal\u00ADasha\u00ADrakka slept', at(52))).toMatchInlineSnapshot(`
      [
        "Her Kal-",
        "asharakka",
        "slept",
      ]
    `);
    expect(set('Her Kal\u00ADasha\u00ADrakka slept', at(300))).toEqual(['Her Kalasharakka slept']);
  });

  test('what the breaker takes a part of a word for is what the face makes of it', () => {
    const rack = new FountRack(shop.library, () => shop.english);
    const fount = rack.of(shop.style);
    const words = openCase(rack.founts);
    const tokens = new Set(
      mobyDickParagraphs()
        .slice(0, 60)
        .flatMap((paragraph) => paragraph.split(' ')),
    );
    let divided = 0;
    for (const token of [...tokens, 'difficult', 'officer', 'waffles', 'AVAILABLE-TO']) {
      const word = shapedWord(words, token, fount);
      let cut = words.cutsIn(word, true);
      while (cut !== NONE) {
        const { at, kind, width, end, start } = words.cut(cut);
        const hyphen = (kind & KIND) === DIVISION;
        const first = partWidth(words, word, { from: 0, to: at, hyphen });
        const rest = partWidth(words, word, { from: at, to: token.length, hyphen: false });
        expect(width + end, `${token} at ${at}`).toBeCloseTo(first, 6);
        expect(words.widthOf(word) - width + start, `${token} at ${at}`).toBeCloseTo(rest, 6);
        divided++;
        cut = kind & LAST ? NONE : cut + 1;
      }
    }
    expect(divided).toBeGreaterThan(500);
  });

  test('a compound ends a line at its own hyphen', () => {
    expect(set('a weather-beaten boat', at(62))).toEqual(['a weather-', 'beaten boat']);
  });

  test('no three lines running end in hyphens', () => {
    for (const measure of [90, 110, 140, 170, 200]) {
      const lines = broken(styled(MILL, shop.style), at(measure)).lines;
      for (let i = 2; i < lines.length; i++) {
        expect(lines.slice(i - 2, i + 1).every((line) => line.hyphenated)).toBe(false);
      }
    }
  });
});

describe('styles', () => {
  test('one run for each stretch of one look, spaces and all', () => {
    const text = styled('She read *The Weir and the Wheel* twice.', shop.style);
    const { runs } = placed(broken(text, at(300)), 0);
    expect(runs.map((run) => [run.face, run.text, run.at?.offset])).toEqual([
      ['eb-garamond-400', 'She read ', 0],
      ['eb-garamond-400-italic', 'The Weir and the Wheel', 9],
      ['eb-garamond-400', ' twice.', 31],
    ]);
  });

  test('a word with an italic part is no place to break', () => {
    expect(set('one two un*believ*able', at(60))).toEqual(['one two', 'unbelievable']);
  });

  test('a note mark clings to its word and is reported on its line', () => {
    const text = styled('The river rose^1 by night, and fell.^2 And rose.', shop.style);
    const shape = at(75);
    const paragraph = broken(text, shape);
    expect(linesOf(text, shape, paragraph)).toMatchInlineSnapshot(`
      [
        "The river rose1 by",
        "night, and fell.2",
        "And rose.",
      ]
    `);
    const runs = paragraph.lines.flatMap((_, i) => [...placed(paragraph, i).runs]);
    expect(runs.filter((run) => run.size === 7).map((run) => [run.text, run.y])).toEqual([
      ['1', 96],
      ['2', 96],
    ]);
  });

  test('small capitals by mapping, letterspaced without ligatures', () => {
    const text = styled('First FIFTH', { ...shop.style, letterCase: 'lower', features: ['smcp'], letterspace: 0.1 });
    const { runs, page, right } = placed(broken(text, at(300)), 0);
    expect(runs[0]!.text).toBe('first fifth');
    expect(page.glyphs.length).toBe(11);
    expect(shop.setter.line(text, 1).width).toBeCloseTo(right - 1.1, 3);
  });

  test('capitals that grow keep their places in the text', () => {
    const text = styled('Straße am Fluß', { ...shop.style, letterCase: 'upper' });
    const paragraph = broken(text, at(55, { align: 'start' }));
    expect(paragraph.lines.map((_, i) => placed(paragraph, i).text)).toEqual(['STRASSE', 'AM FLUSS']);
    expect(paragraph.lines.map(({ from, to }) => flatText(text).slice(from, to))).toEqual(['Straße', 'am Fluß']);
  });

  test('links cover their words on each line, strikes are rules', () => {
    const text = styled('see _the long page of errata_ now', shop.style, { strike: true }, 'https://example.org');
    const paragraph = broken(text, at(70));
    const items = paragraph.lines.flatMap((_, i) => [...placed(paragraph, i).page.items]);
    expect(items.filter((item) => item.kind === 'link').map((item) => item.target)).toEqual(
      paragraph.lines.map(() => ({ url: 'https://example.org' })),
    );
    expect(items.filter((item) => item.kind === 'rule')).toHaveLength(paragraph.lines.length);
  });

  test('a character of another script takes the fallback face, one that none has is reported', () => {
    const text = styled('The word שלום and \u{1F700}, twice \u{1F700}.', shop.style);
    const paragraph = broken(text, at(300));
    expect(placed(paragraph, 0).runs.map((run) => run.face)).toContain('noto-serif-hebrew-400');
    expect(paragraph.missing).toEqual([{ codePoint: 0x1f700, at: { block: 'block-1', offset: 18 } }]);
  });
});

describe('when nothing fits', () => {
  test('a word wider than its measure is torn, reported, and loses nothing', () => {
    const text = styled('see https://example.org/averylongnamewithoutanyplacetobreak now', shop.style);
    const shape = at(60);
    const paragraph = broken(text, shape);
    expect(linesOf(text, shape, paragraph)).toMatchInlineSnapshot(`
      [
        "see https://",
        "example.org/",
        "averylongna",
        "mewithoutan",
        "yplacetobreak",
        "now",
      ]
    `);
    expect(paragraph.lines.some((line) => line.torn)).toBe(true);
    expect(paragraph.lines.every((line) => line.overfull === 0)).toBe(true);
  });

  test('a glyph wider than its measure runs over', () => {
    const paragraph = broken(styled('WW', shop.style), at(4));
    expect(paragraph.lines.map((line) => line.overfull > 0)).toEqual([true, true]);
  });
});

describe('other lengths', () => {
  test.each([
    [4, 260, [0, 1]],
    [5, 374, [-1, 0]],
    [8, 380, [-1, 0, 1]],
  ])('%i sentences at %i points: a line more or fewer, where there is one', (many, measure, expected) => {
    const text = styled(Array(many).fill(MILL).join(' '), shop.style);
    const shape = at(measure);
    const choices = shop.setter.lengths({ text, shape, most: Number.POSITIVE_INFINITY });
    expect(choices.map((choice) => choice.looseness)).toEqual(expected);
    for (const { looseness, lines, demerits, set } of choices) {
      const paragraph = set();
      expect(broken(text, shape, looseness).lines).toEqual(paragraph.lines);
      linesOf(text, shape, paragraph);
      expect(paragraph.lines).toHaveLength(lines);
      expect(paragraph.demerits).toBe(demerits);
    }
  });

  test('at another size are the same, larger or smaller', () => {
    const text = styled(`${MILL} *${MILL}*^a ${MILL}`, shop.style);
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 2, noNaN: true }), fc.integer({ min: 200, max: 400 }), (size, measure) => {
        const own = at(measure, { indentFirst: 12, hang: true, scaling: 0.01, lastLineMin: 18 });
        const shape = { ...own, size, measure: measure * size, indentFirst: 12 * size, lastLineMin: 18 * size };
        const [one, other] = [broken(text, own), broken(text, shape)];
        expect(other.lines.map(({ from, to }) => [from, to])).toEqual(one.lines.map(({ from, to }) => [from, to]));
        one.lines.forEach((line, index) => {
          expect(other.lines[index]!.width).toBeCloseTo(line.width * size, 6);
          const [small, large] = [placed(one, index), placed(other, index)];
          expect(large.left).toBeCloseTo(small.left * size, 3);
          expect(large.right).toBeCloseTo(small.right * size, 2);
          expect(large.runs.map((run) => run.size)).toEqual(small.runs.map((run) => run.size * size));
        });
      }),
      { numRuns: 40 },
    );
  });

  test('what cannot be had is the nearest that can', () => {
    const text = styled(`${MILL} ${MILL} ${MILL} ${MILL}`, shop.style);
    const best = broken(text, at(260));
    expect(broken(text, at(260), 2).lines).toHaveLength(best.lines.length + 1);
    expect(broken(text, at(260), -1)).toBe(best);
  });

  test('work is kept by the identity of the text', () => {
    const text = styled(MILL, shop.style);
    expect(broken(text, at(200))).toBe(broken(text, at(200)));
    expect(broken(text, at(201))).not.toBe(broken(text, at(200)));
  });
});

describe('one line', () => {
  test('is as wide as its glyphs and never breaks', () => {
    const text = { block: '', spans: styled('The Weir and the Wheel', shop.style).spans };
    const single = shop.setter.line(text, 1);
    const builder = new PageBuilder();
    single.place(10, 20, builder, { furniture: true });
    const page = finish(builder);
    const [run] = page.items;
    expect(run).toMatchObject({ kind: 'glyphs', x: 10, y: 20, furniture: true, text: 'The Weir and the Wheel' });
    expect(run).not.toHaveProperty('at');
    expect(page.advances.reduce((sum, advance) => sum + advance, 0)).toBeCloseTo(single.width, 3);
  });
});

test('any text at any measure keeps the laws', () => {
  const words = fc.constantFrom(
    'the',
    'a',
    'weir',
    'miller’s',
    '“river',
    'down,”',
    'extraordinary',
    'well-known',
    'I—no—',
    '*yes*',
    'x^1',
    'Tom|',
    'un*do*ing',
    'Dr.\u00a0Hale',
    'en\u00ADtire',
    '1914–18',
    '…',
  );
  fc.assert(
    fc.property(
      fc.array(words, { maxLength: 40 }),
      fc.integer({ min: 20, max: 320 }),
      fc.constantFrom('justify', 'start', 'end'),
      (list, measure, align) => {
        const text = styled(list.join(' '), shop.style);
        const shape = at(measure, { align, indentFirst: 11, lastLineMin: 16 });
        linesOf(text, shape, broken(text, shape));
      },
    ),
    { numRuns: 300 },
  );
});

describe('small capitals', () => {
  // EB Garamond swaps f for a German form that has no small capital.
  test('a German f is as small as any', () => {
    const width = (language: string) => {
      const style = { ...shop.style, language, features: ['smcp'] };
      return shop.setter.line(styled('Thalhof', style), 1).width;
    };
    expect(width('de')).toBe(width('en-US'));
  });
});
