/** What the design panel does to a book: a design of its own from a built-in one, files, ranges, specimens. */
import { expect, test } from 'vitest';
import { applyChange, type Book, type Change } from '#book';
import { builtInDesigns } from '#design';
import {
  adjusted,
  broughtIn,
  designsOf,
  dropped,
  resetToBase,
  settingsOf,
  takeUp,
} from '../../renderer/design/changes.ts';
import { designText, fileNameOf, readDesignFile } from '../../renderer/design/designFile.ts';
import { withSetting } from '../../renderer/design/settings/paths.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';

const [quoin] = builtInDesigns;
const FAMILIES = new Set(builtInDesigns.flatMap(({ text, display }) => [text.family, display.family]));
const FRESH = { id: 'design-1', name: 'Quoin, adjusted' };

/** The book after a change, whose inverse leads back to the designs and editions before. */
function after(before: Book, change: Change): Book {
  const applied = applyChange(before, change);
  if (!applied.ok) throw new Error(applied.problem);
  const back = applyChange(applied.value.book, applied.value.inverse);
  if (!back.ok) throw new Error(back.problem);
  expect(back.value.book.designs).toEqual(before.designs);
  expect(back.value.book.editions).toEqual(before.editions);
  return applied.value.book;
}

const inQuoin = (): Book => {
  const value = bookValue(book(chapter('One', p('text'))));
  return { ...value, editions: value.editions.map((each) => ({ ...each, design: quoin.id })) };
};

const bytesOf = (text: string) => new TextEncoder().encode(text);
const read = (text: string) => readDesignFile({ name: 'mine.json', bytes: bytesOf(text) }, 'design-2', FAMILIES);

test('the first change gives the book a design of its own in all editions that followed; later ones change that', () => {
  const first = after(inQuoin(), adjusted(inQuoin(), withSetting(quoin, 'text.size', 13), FRESH));
  expect(first.editions.map((each) => each.design)).toEqual(first.editions.map(() => 'design-1'));
  expect(settingsOf(first, 'design-1')).toEqual({ ...quoin, ...FRESH, text: { ...quoin.text, size: 13 } });
  expect(settingsOf(first, quoin.id)).toBe(quoin);
  const change = adjusted(first, withSetting(settingsOf(first, 'design-1'), 'text.leading', 18), FRESH);
  const second = after(first, change);
  expect(second.designs).toHaveLength(1);
  expect(settingsOf(second, 'design-1').text).toMatchObject({ size: 13, leading: 18 });
  expect(designsOf(second).map(({ id }) => id)).toEqual(['design-1', ...builtInDesigns.map(({ id }) => id)]);
});

test('an edition takes up a design alone, in its place', () => {
  const before = inQuoin();
  const [edition] = before.editions;
  if (!edition) throw new Error('the book has no edition');
  const { editions } = after(before, takeUp(before, edition, 'tympan'));
  expect(editions.map((each) => each.design)).toEqual(['tympan', ...before.editions.slice(1).map(() => quoin.id)]);
});

test('an own design is set back to what it began as, or dropped with its editions on that again', () => {
  const tympan = settingsOf(inQuoin(), 'tympan');
  const own = { ...withSetting(tympan, 'verse.step', 2.5), id: 'design-1', name: 'Mine' };
  const before = inQuoin();
  const [edition, other] = before.editions;
  if (!edition || !other) throw new Error('the book has no two editions');
  const book = after(before, broughtIn(before, edition, own));
  expect(settingsOf(after(book, resetToBase(book, own)), 'design-1')).toEqual({
    ...tympan,
    id: 'design-1',
    name: 'Mine',
  });
  const without = after(book, dropped(book, own));
  expect(without.designs).toEqual([]);
  expect(without.editions.map((each) => each.design)).toEqual(['tympan', other.design]);
});

test('a design comes back from its file whole and joins a book', () => {
  for (const settings of builtInDesigns) {
    const again = read(designText(settings));
    expect(again).toEqual({ ok: true, value: { ...settings, id: 'design-2' } });
  }
  const before = inQuoin();
  const [edition] = before.editions;
  if (!edition) throw new Error('the book has no edition');
  const joined = after(before, broughtIn(before, edition, { ...quoin, id: 'design-2', name: 'Mine' }));
  expect(joined.editions[0]?.design).toBe('design-2');
  expect(settingsOf(joined, 'design-2').name).toBe('Mine');
  expect(fileNameOf({ ...quoin, name: 'Größe / eins?' })).toBe('Größe-eins.json');
  expect(fileNameOf({ ...quoin, name: '///' })).toBe('design.json');
});

test('what is no design is refused in one sentence that names the file and the fault', () => {
  const text = designText(quoin);
  const faults: readonly (readonly [string, string])[] = [
    ['{', 'not in the form'],
    ['[]', 'does not say that it is a design'],
    ['{"name":"A"}', 'does not say that it is a design'],
    ['{"regletDesign":2}', 'a later version'],
    [text.replace('"size": 11.5', '"size": "large"'), 'text.size'],
    [text.replace('"size": 11.5', '"size": 400'), 'from 7 to 24 pt'],
    [text.replaceAll(quoin.text.family, 'Unheard'), 'Unheard'],
  ];
  for (const [content, says] of faults) {
    const outcome = read(content);
    if (outcome.ok) throw new Error(`taken for a design: ${content.slice(0, 40)}`);
    expect(outcome.problem).toMatch(/^“mine\.json” can't be used as a design: .*[^.]\.$/);
    expect(outcome.problem).toContain(says);
  }
});
