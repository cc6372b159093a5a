/**
 * How fast pages follow a change: one process, the novel of the bench, with the session that a workbench keeps. Prints JSON,
 * times in milliseconds, heap in MiB. Run by `latency.mjs`, which bundles it: `latency.mjs NOVEL.docx EDITS`, where EDITS is
 * how many letters the run for memory types.
 */
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { type Book, countWords, type PrintEdition, replaceText } from '#book';
import { bookOf, Engine, languagesOf, openFile, Session } from '#engine';
import { loadHyphenator } from '#type';
import { loadLibrary } from '../../electron/services/library.ts';

/** Letters typed before times are taken, and those that are timed. */
const WARM_UP = 40;
const EDITS = 200;

interface Place {
  readonly section: string;
  readonly block: string;
}

function opened(path: string): Book {
  const file = openFile(readFileSync(path), path);
  if (!file.ok) throw new Error(file.problem);
  return bookOf(file.value);
}

async function engineFor(book: Book): Promise<Engine> {
  const languages = languagesOf(book);
  const loaded = await Promise.all(languages.map((each) => loadHyphenator(each)));
  const hyphenators = new Map(languages.flatMap((each, at) => (loaded[at] ? [[each, loaded[at]] as const] : [])));
  return new Engine({ library: await loadLibrary(), hyphenators });
}

/** The section with the most words, and a paragraph in its middle. */
function middleOfTheLongest(book: Book): Place {
  const sections = [...book.text.children].sort((one, other) => countWords(other) - countWords(one));
  const longest = sections[0];
  const block = longest?.child(Math.floor(longest.childCount / 2));
  if (!longest || !block) throw new Error('the book is empty');
  return { section: String(longest.attrs['id']), block: String(block.attrs['id']) };
}

/** Types one letter, then takes it out with the next call. */
function type(session: Session, place: Place, at: number): void {
  const out = at % 2 === 1;
  const change = replaceText(session.book, { ...place, from: 20, to: out ? 21 : 20, text: out ? '' : 'e' });
  if (!change || !session.apply(change).ok) throw new Error('the letter could not be typed');
}

/** Milliseconds that work takes. */
function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function summary(times: readonly number[]): { readonly median: number; readonly p99: number } {
  const sorted = [...times].sort((one, other) => one - other);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0;
  return { median: at(0.5), p99: at(0.99) };
}

/** Lays the whole book out: until every page's contents are known, then until every page is set. */
function layout(session: Session): { readonly made: number; readonly set: number } {
  const steps = session.layout('print');
  const made = timed(() => {
    for (let step = steps.next().value; step?.kind !== 'book'; step = steps.next().value) {
      if (!step) throw new Error('the layout did not end');
    }
  });
  const set = timed(() => {
    for (let step = steps.next().value; step?.kind === 'pages'; step = steps.next().value);
  });
  // What is left is done in spare time.
  for (const _ of steps);
  return { made, set: made + set };
}

/** The pages of the section in view, and nothing more. */
function showSection(session: Session, section: string): void {
  const first = session.layout('print', section).next().value;
  if (first?.kind !== 'section') throw new Error('the section in view did not come first');
}

function changed(session: Session, change: (edition: PrintEdition) => PrintEdition): void {
  const index = session.book.editions.findIndex((edition) => edition.id === 'print');
  const edition = session.book.editions[index];
  if (edition?.kind !== 'print') throw new Error('the book is not printed');
  const applied = session.apply({ kind: 'putEdition', index, edition: change(edition) });
  if (!applied.ok) throw new Error(applied.problem);
}

function designed(session: Session, design: string, text: { readonly size?: number; readonly leading?: number }): void {
  const applied = session.apply({ kind: 'putDesign', design, index: 0, settings: { text } });
  if (!applied.ok) throw new Error(applied.problem);
  changed(session, (edition) => ({ ...edition, design }));
}

async function letters(session: Session, place: Place) {
  const section: number[] = [];
  const whole: number[] = [];
  for (let at = -WARM_UP; at < EDITS; at++) {
    // A letter comes as a message: between two of them the thread is free, and collects what it let go.
    await new Promise((done) => setImmediate(done));
    const shown = timed(() => {
      type(session, place, at + WARM_UP);
      showSection(session, place.section);
    });
    const { set } = layout(session);
    if (at < 0) continue;
    section.push(shown);
    whole.push(set);
  }
  return { section: summary(section), whole: summary(whole) };
}

/** The whole book anew after each of the changes that a designer tries. */
function relayouts(session: Session) {
  const own = { width: 396, height: 612 };
  changed(session, (edition) => ({ ...edition, trim: { width: 432, height: 648 } }));
  const trim = layout(session);
  changed(session, (edition) => ({ ...edition, trim: own }));
  const back = layout(session);
  designed(session, 'larger', { size: 12 });
  const size = layout(session);
  designed(session, 'airier', { leading: 14.5 });
  const leading = layout(session);
  changed(session, (edition) => ({ ...edition, design: 'quoin', fit: { kind: 'pages', pages: 600 } }));
  const fit = layout(session);
  changed(session, (edition) => ({ ...edition, fit: null }));
  layout(session);
  return { trim, back, size, leading, fit };
}

/** The heap before and after so many letters, both after a collection. */
function heapOver(session: Session, place: Place, edits: number) {
  const heap = () => {
    globalThis.gc?.();
    return process.memoryUsage().heapUsed / 2 ** 20;
  };
  const before = heap();
  for (let at = 0; at < edits; at++) {
    type(session, place, at);
    showSection(session, place.section);
  }
  return { before, after: heap() };
}

async function main(): Promise<void> {
  const book = opened(process.argv[2] ?? '');
  const session = new Session(await engineFor(book), book);
  const cold = layout(session);
  const place = middleOfTheLongest(session.book);
  const typed = await letters(session, place);
  const anew = relayouts(session);
  const heap = heapOver(session, place, Number(process.argv[3] ?? 0));
  process.stdout.write(JSON.stringify({ cold, ...typed, ...anew, heap }));
}

await main();
