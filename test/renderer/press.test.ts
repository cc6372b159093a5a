/** What the press desk reads and reckons: ISBNs as typed, sizes, wishes, what stands in the way, progress. */
import { expect, test, vi } from 'vitest';
import { applyChange, type Book, type Change, type Edition, mutedAs } from '#book';
import type { ExportStage } from '#host';
import { copyrightLine, isLanguageTag, readField } from '../../renderer/press/details/fields.ts';
import {
  checksOf,
  EditionCheckStore,
  editionChecksOf,
  UNCHECKED,
  withShown,
} from '../../renderer/press/editionChecks.ts';
import { addedEdition, duplicatedEdition, sectionsIn, withoutEmpty } from '../../renderer/press/editions.ts';
import { readIsbn } from '../../renderer/press/isbnInput.ts';
import { pageLength } from '../../renderer/press/lengths.ts';
import { mediaTypeOf } from '../../renderer/press/pictures.ts';
import { fitOf } from '../../renderer/press/printChoices.tsx';
import { spineText, trimText } from '../../renderer/press/sizes.ts';
import { errorsOf, standingOf } from '../../renderer/press/standing.ts';
import type { Workbench } from '../../renderer/state/index.ts';
import { shareDone, timeLeft } from '../../renderer/state/pressStore.ts';
import type { WorkerReply } from '../../renderer/worker/index.ts';
import { book, bookValue, chapter, EBOOK, PRINT, p } from '../builders/book.ts';

test('an ISBN is understood as it is typed, and a wrong one is explained', () => {
  // FACTS 5.1 and its asserts 26, 27: 978-0-306-40615-7 and its ten-digit twin 0-306-40615-2.
  expect(readIsbn('978-0-306-40615-7')).toMatchObject({ isbn: '9780306406157', problem: null });
  expect(readIsbn('ISBN 0-306-40615-2')).toMatchObject({ isbn: '9780306406157' });
  expect(readIsbn('0-306-40615-2').help).toContain('978-0-306-40615-7');
  expect(readIsbn('9780306406158').problem).toContain('7');
  expect(readIsbn('978030640615').problem).toContain('the last one is 7');
  // FACTS 5.1: the check digit of 080442957? is X.
  expect(readIsbn('0804429571').problem).toContain('X');
  expect(readIsbn('9770306406157').problem).toContain('978 or 979');
  expect(readIsbn('12345').problem).toContain('this has 5');
  expect(readIsbn(' ')).toEqual({ isbn: null, problem: null, help: null });
});

test('no two editions share an ISBN', () => {
  const others = [{ name: 'Hardcover', isbn: '9780306406157' }];
  expect(readIsbn('0306406152', others)).toMatchObject({ isbn: null });
  expect(readIsbn('0306406152', others).problem).toContain('Hardcover');
});

test('sizes are said in the units of printers', () => {
  expect(trimText({ width: 396, height: 612 })).toBe('Digest, 5.5 × 8.5 in');
  expect(trimText({ width: 400, height: 600 })).toBe('5.56 × 8.33 in');
  // FACTS 4.4: 200 pages of cream are 0.5 in, 12.70 mm.
  expect(spineText(36)).toBe('0.5 in (12.7 mm)');
});

test('a length is taken in inches or, where it says so, in millimetres or centimetres (1 in = 25.4 mm by definition)', () => {
  for (const typed of ['5.5', '5,5in', '5.5 in', '139.7 mm', '13,97cm', '5.5"']) {
    expect([typed, Math.round(Number(pageLength(typed)) * 1000) / 1000]).toEqual([typed, 396]);
  }
  expect(pageLength('76.2 mm')).not.toBeNull();
  for (const typed of ['76 mm', '450 mm', '5.5 ft', 'mm', '-5.5', '5.5.5'])
    expect([typed, pageLength(typed)]).toEqual([typed, null]);
});

test('lengths and wishes are taken only where they can be', () => {
  expect([
    pageLength('5.5'),
    pageLength(' 5,5 '),
    pageLength('2'),
    pageLength('18'),
    pageLength(''),
    pageLength('x'),
  ]).toEqual([396, 396, null, null, null, null]);
  expect(fitOf('pages', '240')).toEqual({ kind: 'pages', pages: 240 });
  expect([fitOf('pages', '241'), fitOf('pages', '0'), fitOf('pages', '-2'), fitOf('pages', '1e2')]).toEqual(
    Array(4).fill(undefined),
  );
  expect(fitOf('multiple16', '')).toEqual({ kind: 'multiple', of: 16 });
  expect(fitOf('free', '')).toBe(null);
});

function sample(): Book {
  return bookValue(book(chapter('One', p('x')), chapter('Two', p('y'))));
}

function after(value: Book, change: Change): Book {
  const applied = applyChange(value, change);
  if (!applied.ok) throw new RangeError(applied.problem);
  return applied.value.book;
}

test('added and copied editions have names, ids and no ISBN of their own', () => {
  let value = after(sample(), { kind: 'putEdition', edition: { ...PRINT, isbn: '9780306406157' }, index: 0 });
  value = after(value, addedEdition(value, 'print'));
  value = after(value, addedEdition(value, 'print'));
  value = after(value, duplicatedEdition(value, value.editions[0]!));
  const { editions } = value;
  expect(editions).toHaveLength(5);
  expect(new Set(editions.map((each) => each.id)).size).toBe(5);
  expect(new Set(editions.map((each) => each.name)).size).toBe(5);
  expect(editions.map((each) => each.isbn)).toEqual(['9780306406157', null, null, null, null]);
  expect(editions[1]?.name).toContain(PRINT.name);
});

test('the first edition of a kind is like that of a new book', () => {
  const value = after(sample(), { kind: 'dropEdition', edition: EBOOK.id });
  expect(after(value, addedEdition(value, 'ebook')).editions.at(-1)).toMatchObject({ kind: 'ebook', notes: 'chapter' });
});

test('wishes that say nothing are left out of an edition', () => {
  expect(withoutEmpty({ ...PRINT, fit: null, largePrint: null, paper: null })).toEqual(PRINT);
  expect(withoutEmpty({ ...PRINT, paper: 'white' })).toEqual({ ...PRINT, paper: 'white' });
});

test('an edition holds the sections that are in all or in it', () => {
  const value = after(sample(), { kind: 'setSection', section: 's1', set: { editions: [EBOOK.id] } });
  expect([sectionsIn(value, PRINT.id), sectionsIn(value, EBOOK.id)]).toEqual([1, 2]);
});

test('what stands between an edition and the press, the gravest first', () => {
  const edition: Edition = { ...PRINT, isbn: null };
  const bare = bookValue(book(chapter('One', p('x'))), { metadata: { title: ' ', contributors: [] } });
  const findings = [
    { rule: 'a/b', severity: 'error', message: 'x' },
    { rule: 'a/b', severity: 'warning', message: 'x', edition: PRINT.id },
    { rule: 'a/b', severity: 'error', message: 'x', edition: 'another' },
  ] as const;
  expect(standingOf(bare, edition, { findings, problem: null }).map((each) => each.severity)).toEqual([
    'error',
    'warning',
    'error',
    'warning',
    'note',
  ]);
  const muted = findings.map((each) => mutedAs(bare, each, 'It is meant so.'));
  const quiet = standingOf({ ...bare, muted }, edition, { findings, problem: null });
  expect(quiet.some(({ found }) => found)).toBe(false);
  const whole = bookValue(book(chapter('One', p('x'))));
  const numbered = { ...PRINT, isbn: '9780306406157' };
  expect(standingOf(whole, numbered, { findings: [], problem: null })).toEqual([]);
  expect(standingOf(whole, numbered, { findings: null, problem: 'There is no face.' })).toEqual([
    { severity: 'error', text: "Its pages can't be set: There is no face.", found: false },
  ]);
});

test('editions that nobody looks at are checked while the press desk is open, and what was found grows old', () => {
  const { books, change, open, hear, link, asked } = checking();
  const store = new EditionCheckStore({ books, link });
  const leave = store.use();
  expect(asked).toEqual([true]);
  const findings = [{ rule: 'a/b', severity: 'error', message: 'x' }] as const;
  hear({ kind: 'book', version: 0, edition: 'print', count: 90, findings: [], pageStarts: [], outline: [] });
  expect(store.get().get('print')).toEqual({ ...UNCHECKED, count: 90 });
  hear({ kind: 'checked', version: 0, edition: 'print', findings });
  hear({ kind: 'other', version: 0, edition: 'large', count: 140, findings: [], problem: null });
  expect(store.get().get('print')).toEqual({ count: 90, findings, problem: null, fresh: true });
  expect(store.get().get('large')).toEqual({ count: 140, findings: [], problem: null, fresh: true });
  change();
  expect([...store.get().values()].map(({ fresh, count }) => [fresh, count])).toEqual([
    [false, 90],
    [false, 140],
  ]);
  open();
  expect([store.get().size, asked]).toEqual([0, [true, true]]);
  leave();
  expect(asked.at(-1)).toBe(false);
});

test('an edition that was checked for the proof before is not called unchecked on the press desk', () => {
  const { books, hear, link } = checking();
  const store = new EditionCheckStore({ books, link });
  expect(withShown(store.get(), 'print', { count: 90, findings: [] }).get('print')).toMatchObject({ findings: [] });
  // Its pages are laid out once more, for another section in view; the same book is not checked twice.
  hear({ kind: 'book', version: 0, edition: 'print', count: 90, findings: [], pageStarts: [], outline: [] });
  const shown = withShown(store.get(), 'print', { count: 90, findings: [] }).get('print');
  expect(shown).toEqual({ count: 90, findings: [], problem: null, fresh: true });
  const findings = [{ rule: 'a/b', severity: 'error', message: 'x' }] as const;
  hear({ kind: 'checked', version: 1, edition: 'print', findings });
  expect(withShown(store.get(), 'print', { count: 90, findings: [] }).get('print')).toMatchObject({ findings });
  expect(withShown(new Map(), 'print', { count: 90, findings: null }).get('print')).toEqual({
    ...UNCHECKED,
    count: 90,
  });
});

test('errors of the editions that are to be made are told once each, those of others and muted ones not', () => {
  const value = bookValue(book(chapter('One', p('x'))));
  const at = (rule: string, edition?: string, severity: 'error' | 'warning' = 'error') => {
    return { rule, severity, message: rule, ...(edition === undefined ? {} : { edition }) } as const;
  };
  const of = (...findings: readonly ReturnType<typeof at>[]) => ({ ...UNCHECKED, findings });
  const checks = new Map([
    ['print', of(at('book/any'), at('print/own', 'print'), at('print/mild', 'print', 'warning'))],
    ['ebook', of(at('book/any'), at('ebook/own', 'ebook'))],
  ]);
  expect(errorsOf(value, ['print'], checks)).toEqual(['book/any', 'print/own']);
  expect(errorsOf(value, ['print', 'ebook'], checks)).toEqual(['book/any', 'print/own', 'ebook/own']);
  expect(errorsOf(value, ['large'], checks)).toEqual([]);
  const muted = { ...value, muted: [mutedAs(value, at('book/any'), 'It is meant so.')] };
  expect(errorsOf(muted, ['print'], checks)).toEqual(['print/own']);
});

test('files wait until their editions were looked through as they are now, but not for ever', async () => {
  vi.useFakeTimers();
  try {
    const { books, hear, link, change, asked } = checking();
    const seen = { edition: 'print', count: 90, findings: [], checked: true };
    const layout = { get: () => seen, subscribe: () => () => undefined };
    const workbench = { books, link, layout } as unknown as Workbench;
    const findings = [{ rule: 'a/b', severity: 'error', message: 'x' }] as const;
    editionChecksOf(workbench);
    hear({ kind: 'checked', version: 0, edition: 'print', findings: [] });
    expect((await checksOf(workbench, ['print'])).get('print')?.findings).toEqual([]);
    expect(asked).toEqual([]);
    // After a change, and for another edition, what is found next counts.
    change();
    const both = checksOf(workbench, ['print', 'ebook']);
    expect(asked).toEqual([true]);
    hear({ kind: 'checked', version: 1, edition: 'print', findings });
    hear({ kind: 'other', version: 1, edition: 'ebook', count: null, findings: [], problem: null });
    expect((await both).get('print')?.findings).toBe(findings);
    expect(asked.at(-1)).toBe(false);
    const never = checksOf(workbench, ['large']);
    await vi.advanceTimersByTimeAsync(10_000);
    expect((await never).get('large')).toBeUndefined();
    expect(asked.at(-1)).toBe(false);
  } finally {
    vi.useRealTimers();
  }
});

/** What the checks hang on, held by the test. */
function checking() {
  const asked: boolean[] = [];
  const heard: { change?: () => void; open?: () => void; hear?: (reply: WorkerReply) => void } = {};
  const books = {
    onOpen: (listener: () => void) => {
      heard.open = listener;
    },
    onChange: (listener: () => void) => {
      heard.change = listener;
    },
  } as unknown as Workbench['books'];
  const link = {
    listen: (listener: (reply: WorkerReply) => void) => {
      heard.hear = listener;
    },
    worker: { others: (wanted: boolean) => asked.push(wanted) },
  } as unknown as Workbench['link'];
  return {
    books,
    link,
    asked,
    change: () => heard.change?.(),
    open: () => heard.open?.(),
    hear: (reply: WorkerReply) => heard.hear?.(reply),
  };
}

test('progress is that of all editions, and the time left follows from it', () => {
  const at = (done: number) => ({ stage: 'pages' as ExportStage, done });
  const progress = new Map([
    ['a', at(1)],
    ['b', at(0.5)],
  ]);
  const running = { job: 'j', editions: ['a', 'b'], startedAt: 1_000, progress };
  expect(shareDone(running)).toBe(0.75);
  expect(timeLeft(running, 4_000)).toBe(1_000);
  expect(timeLeft({ ...running, progress: new Map() }, 4_000)).toBe(null);
});

test('details are taken as they are typed, or explained', () => {
  expect(readField('subtitle', '  ')).toEqual({ ok: true, value: { subtitle: null } });
  expect(readField('year', '2026')).toEqual({ ok: true, value: { year: 2026 } });
  expect(readField('year', 'soon').ok).toBe(false);
  expect(readField('subjects', 'tides\n\n salt ')).toEqual({ ok: true, value: { subjects: ['tides', 'salt'] } });
  expect(['en-GB', 'pt-BR', 'de', 'zh-Hant-TW'].every(isLanguageTag)).toBe(true);
  expect(['', 'english!', 'e'].some(isLanguageTag)).toBe(false);
});

test('the copyright line names the holder, or the authors', () => {
  const { metadata } = bookValue(book(chapter('One', p('x'))), {
    metadata: { year: 2026, contributors: [{ name: 'Ada Holm', fileAs: null, role: 'aut' }], rightsHolder: null },
  });
  expect(copyrightLine(metadata)).toBe('Copyright © 2026 Ada Holm');
  expect(copyrightLine({ ...metadata, year: null, rightsHolder: 'A. Trust' })).toBe('Copyright © A. Trust');
});

test('pictures are known by their first bytes', () => {
  expect(mediaTypeOf(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d))).toBe('image/png');
  expect(mediaTypeOf(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0))).toBe('image/jpeg');
  expect(mediaTypeOf(Uint8Array.of(0x25, 0x50))).toBe(null);
});
