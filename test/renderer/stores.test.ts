/** The smaller stores: where one is, what is exported, what the lists show, what is remembered. */
import { expect, test } from 'vitest';
import { type Book, type Change, editionMarks, replaceText } from '#book';
import { type ExportRecord, type Host, type Settings, USUAL_SETTINGS } from '#host';
import { BookStore } from '../../renderer/state/bookStore.ts';
import { LayoutStore } from '../../renderer/state/layoutStore.ts';
import { OutlineStore } from '../../renderer/state/outlineStore.ts';
import { PlaceStore, takesFocus } from '../../renderer/state/placeStore.ts';
import { PressStore } from '../../renderer/state/pressStore.ts';
import { SettingsStore } from '../../renderer/state/settingsStore.ts';
import { SinceExportStore } from '../../renderer/state/sinceExport.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { FakeHost, Frames } from './fakeHost.ts';

const FOUND = { errors: 0, warnings: 1, notes: 0 };
const RECORD: ExportRecord = { job: 'j1', at: 5, files: [], findings: FOUND, editions: [] };

/** A press whose host takes every order as job j1. */
function press(refuse = false) {
  const cancelled: string[] = [];
  const host = {
    export: async () => (refuse ? { ok: false, problem: 'No such folder.' } : { ok: true, value: { job: 'j1' } }),
    cancelExport: async ({ job }: { job: string }) => {
      cancelled.push(job);
      return { ok: true, value: null };
    },
    exports: async () => ({ ok: true, value: [RECORD] }),
  } as unknown as Pick<Host, 'export' | 'cancelExport' | 'exports'>;
  return { store: new PressStore(host, () => 1_000), cancelled };
}

test('an export tells its progress and its end, and joins the history', async () => {
  const { store } = press();
  await store.begin('s');
  expect(store.get().history).toEqual([RECORD]);
  expect(await store.start('s', ['a', 'b'], '/out')).toEqual({ ok: true, value: null });
  store.hear({ kind: 'exportProgress', job: 'j1', edition: 'a', stage: 'pdf', done: 0.8 });
  expect(store.get().running?.progress.get('a')).toEqual({ stage: 'pdf', done: 0.8 });
  expect(store.get().running?.progress.get('b')).toEqual({ stage: 'waiting', done: 0 });
  const second = { ...RECORD, job: 'j2' };
  store.hear({ kind: 'exportEnded', job: 'j1', result: { kind: 'done', record: second, findings: [] } });
  expect(store.get()).toMatchObject({ running: null, ended: { kind: 'done' }, history: [second, RECORD] });
});

test('one export at a time; what is cancelled or fails leaves no trace in the history', async () => {
  const { store, cancelled } = press();
  await store.start('s', ['a'], '/out');
  expect((await store.start('s', ['b'], '/out')).ok).toBe(false);
  await store.cancel();
  expect(cancelled).toEqual(['j1']);
  store.hear({ kind: 'exportEnded', job: 'j1', result: { kind: 'cancelled' } });
  expect(store.get()).toMatchObject({ running: null, ended: { kind: 'cancelled' }, history: [] });
  await store.start('s', ['a'], '/out');
  store.hear({ kind: 'exportEnded', job: 'j1', result: { kind: 'failed', problem: 'The disk is full.' } });
  expect(store.get().ended).toEqual({ kind: 'failed', problem: 'The disk is full.' });
});

test('an order that the host refuses is over at once', async () => {
  const { store } = press(true);
  expect(await store.start('s', ['a'], '/none')).toEqual({ ok: false, problem: 'No such folder.' });
  expect(store.get()).toMatchObject({ running: null, ended: { kind: 'failed' } });
});

/** A press whose host answers when the test says so. */
function slowPress() {
  const answers: ((job: string) => void)[] = [];
  const histories: ((records: readonly ExportRecord[]) => void)[] = [];
  const cancelled: string[] = [];
  const host = {
    export: () => new Promise((done) => answers.push((job) => done({ ok: true, value: { job } }))),
    cancelExport: async ({ job }: { job: string }) => cancelled.push(job),
    exports: () => new Promise((done) => histories.push((records) => done({ ok: true, value: records }))),
  } as unknown as Pick<Host, 'export' | 'cancelExport' | 'exports'>;
  return { store: new PressStore(host, () => 1_000), answers, histories, cancelled };
}

test('news of an export is heard before its job has a name, and that of another job never', async () => {
  const { store, answers } = slowPress();
  const begun = store.start('s', ['a'], '/out');
  store.hear({ kind: 'exportProgress', job: 'j1', edition: 'a', stage: 'pdf', done: 0.8 });
  store.hear({ kind: 'exportEnded', job: 'j0', result: { kind: 'cancelled' } });
  answers[0]?.('j1');
  await begun;
  expect(store.get().running?.progress.get('a')).toEqual({ stage: 'pdf', done: 0.8 });
  store.hear({ kind: 'exportEnded', job: 'j0', result: { kind: 'failed', problem: 'The disk is full.' } });
  expect(store.get()).toMatchObject({ running: { job: 'j1' }, ended: null });
});

test('an export that is cancelled before its job has a name is cancelled then', async () => {
  const { store, answers, cancelled } = slowPress();
  const begun = store.start('s', ['a'], '/out');
  await store.cancel();
  answers[0]?.('j1');
  await begun;
  expect(cancelled).toEqual(['j1']);
  const again = store.start('s', ['a'], '/out');
  expect((await again).ok).toBe(false);
});

test('what is told of the book before is not taken for the one that is open', async () => {
  const { store, answers, histories } = slowPress();
  const first = store.begin('s1');
  const begun = store.start('s1', ['a'], '/out');
  const second = store.begin('s2');
  histories[1]?.([]);
  histories[0]?.([RECORD]);
  answers[0]?.('j1');
  await Promise.all([first, second, begun]);
  expect(store.get()).toEqual({ running: null, history: [], ended: null });
});

test('whoever is asked to show a place hears of it even where it is the same', () => {
  const place = new PlaceStore();
  place.begin({ printEdition: 'p', ebookEdition: null, section: 's1' });
  const { asked } = place.get();
  place.goToSection('s2', 'order');
  place.goToSection('s2', 'order');
  expect(place.get()).toMatchObject({ section: 's2', asked: asked + 2, anchor: { block: 's2', offset: 0 } });
  expect(takesFocus(place.get())).toBe(false);
  place.goTo('s2', { block: 'b', offset: 3 }, 'proof');
  expect(takesFocus(place.get())).toBe(true);
});

test('a cursor that does not move tells nobody', () => {
  const place = new PlaceStore();
  place.follow('s1', { block: 'b', offset: 1 }, 'editor');
  let told = 0;
  place.subscribe(() => told++);
  place.follow('s1', { block: 'b', offset: 1 }, 'editor');
  expect(told).toBe(0);
  place.follow('s1', { block: 'b', offset: 2 }, 'editor');
  expect(told).toBe(1);
});

test('settings hold at once and go to the host; panels are added to those that are known', () => {
  const first: Settings = { ...USUAL_SETTINGS, panels: { a: 20 } };
  const sent: unknown[] = [];
  const host = {
    setSettings: async (some: unknown) => {
      sent.push(some);
      throw new Error('gone');
    },
  } as unknown as Pick<Host, 'setSettings'>;
  const settings = new SettingsStore(host, first);
  settings.set({ textZoom: 130, panels: { b: 30 } });
  expect(settings.get()).toEqual({ ...first, textZoom: 130, panels: { a: 20, b: 30 } });
  expect(sent).toEqual([{ textZoom: 130, panels: { b: 30 } }]);
  expect([settings.panel('a', 1), settings.panel('none', 7)]).toEqual([20, 7]);
});

/** An open book with its lists; time passes when it is told to. */
function listed() {
  const host = new FakeHost(bookValue(book(chapter('One', p('a b c')), chapter('Two', p('d')))));
  const books = new BookStore({ host, later: new Frames().later });
  const { store } = press();
  const time = new Frames();
  const after = (_: number, call: () => void) => time.later(call);
  const place = new PlaceStore();
  place.begin({ printEdition: 'print', ebookEdition: 'ebook', section: 's1' });
  const since = new SinceExportStore({ books, press: store, after });
  const outline = new OutlineStore({ books, layout: new LayoutStore(), place, since, after });
  books.open(host.opened());
  /** Until nothing waits any more. */
  const rest = () => {
    for (let turn = 0; turn < 5; turn++) time.draw();
  };
  return { books, outline, time, rest, since, place, press: store };
}

/** The record of an edition made from this book. */
function made(value: Book, edition: string, at: number): ExportRecord {
  const { settings, sections } = editionMarks(value, edition);
  const state = { settings, sections: [...sections], pages: null };
  return { ...RECORD, at, editions: [{ edition, findings: FOUND, muted: 0, state }] };
}

function typing(books: BookStore): Change {
  const section = books.current.book.text.child(0);
  const block = String(section.child(1).attrs['id']);
  const change = replaceText(books.current.book, { section: 's1', block, from: 0, to: 0, text: 'x ' });
  if (!change) throw new RangeError('no such block');
  return change;
}

test('typing shows in the lists after a moment, a change of order at once', () => {
  const { books, outline, time } = listed();
  expect(outline.get().map((row) => row.words)).toEqual([3, 1]);
  books.apply(typing(books));
  books.apply(typing(books));
  expect(outline.get()[0]?.words).toBe(3);
  time.draw();
  expect(outline.get()[0]?.words).toBe(5);
  books.apply({ kind: 'moveSection', section: 's1', index: 1 });
  expect(outline.get().map((row) => row.id)).toEqual(['s2', 's1']);
});

test('a section that was changed after an export says so, as one typed in while it ran', async () => {
  const { books, outline, rest, since, press: store } = listed();
  await store.start('session', ['print'], '/out');
  const record = made(books.current.book, 'print', 77);
  books.apply(typing(books));
  store.hear({ kind: 'exportEnded', job: 'j1', result: { kind: 'done', record, findings: [] } });
  rest();
  expect(outline.get().map((row) => row.changed)).toEqual([true, false]);
  expect(since.get().get('print')).toEqual({
    at: 77,
    changes: { settings: false, sections: ['s1'], dropped: 0, moved: false },
  });
  const before = since.get();
  books.apply(typing(books));
  rest();
  expect(since.get()).toBe(before);
  books.undo();
  books.undo();
  rest();
  expect(outline.get().map((row) => row.changed)).toEqual([false, false]);
});

test('the lists show what changed in the edition in proof; each edition has its own last time', async () => {
  const { books, outline, rest, since, place, press: store } = listed();
  await store.start('session', ['ebook'], '/out');
  const record = made(books.current.book, 'ebook', 5);
  store.hear({ kind: 'exportEnded', job: 'j1', result: { kind: 'done', record, findings: [] } });
  books.apply(typing(books));
  rest();
  expect([...since.get().keys()]).toEqual(['ebook']);
  expect(outline.get().map((row) => row.changed)).toEqual([false, false]);
  place.showEdition('print', 'ebook');
  expect(outline.get().map((row) => row.changed)).toEqual([true, false]);
});
