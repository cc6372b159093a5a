/**
 * How fast pages follow an edit: one process, the novel of the bench, warm. Prints JSON: medians and 99th percentiles in
 * milliseconds. Run by `run.mjs`, which bundles it.
 */
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { type Book, countWords, replaceText } from '#book';
import { bookOf, Engine, languagesOf, openFile, Session } from '#engine';
import { loadHyphenator } from '#type';
import { loadLibrary } from '../../electron/services/library.ts';

const EDITS = 200;
const LONG_RUN = 10_000;

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
function middleOfTheLongest(book: Book): { readonly section: string; readonly block: string } {
  const sections = [...book.text.children].sort((one, other) => countWords(other) - countWords(one));
  const longest = sections[0];
  const block = longest?.child(Math.floor(longest.childCount / 2));
  if (!longest || !block) throw new Error('the book is empty');
  return { section: String(longest.attrs['id']), block: String(block.attrs['id']) };
}

/** Types one letter, then takes it out with the next call. */
function type(session: Session, place: { readonly section: string; readonly block: string }, at: number): void {
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

function run(session: Session, section: string | null = null): void {
  for (const _ of session.layout('print', section));
}

/** The pages of the section in view, and nothing more. */
function showSection(session: Session, section: string): void {
  const first = session.layout('print', section).next().value;
  if (first?.kind !== 'section') throw new Error('the section in view did not come first');
}

function resized(
  session: Session,
  change: (print: { width: number; height: number }) => { width: number; height: number },
): void {
  const index = session.book.editions.findIndex((edition) => edition.id === 'print');
  const edition = session.book.editions[index];
  if (edition?.kind !== 'print') throw new Error('the book is not printed');
  session.apply({ kind: 'putEdition', index, edition: { ...edition, trim: change(edition.trim) } });
}

function redesigned(session: Session, design: string): void {
  const index = session.book.editions.findIndex((edition) => edition.id === 'print');
  const edition = session.book.editions[index];
  if (edition?.kind !== 'print') throw new Error('the book is not printed');
  session.apply({ kind: 'putEdition', index, edition: { ...edition, design } });
}

async function main(): Promise<void> {
  const book = opened(process.argv[2] ?? '');
  const session = new Session(await engineFor(book), book);
  const cold = timed(() => run(session));
  const place = middleOfTheLongest(book);
  for (let at = 0; at < 40; at++) {
    type(session, place, at);
    run(session, place.section);
  }
  const section: number[] = [];
  const whole: number[] = [];
  for (let at = 0; at < EDITS; at++) {
    section.push(
      timed(() => {
        type(session, place, at);
        showSection(session, place.section);
      }),
    );
    whole.push(timed(() => run(session)));
  }
  const trim = timed(() => {
    resized(session, () => ({ width: 432, height: 648 }));
    run(session);
  });
  const back = timed(() => {
    resized(session, () => ({ width: 396, height: 612 }));
    run(session);
  });
  const size = timed(() => {
    session.apply({ kind: 'putDesign', design: 'larger', index: 0, settings: { text: { size: 12 } } });
    redesigned(session, 'larger');
    run(session);
  });
  redesigned(session, 'quoin');
  run(session);
  const heap = () => {
    globalThis.gc?.();
    return process.memoryUsage().heapUsed / 2 ** 20;
  };
  const before = heap();
  for (let at = 0; at < LONG_RUN; at++) {
    type(session, place, at);
    showSection(session, place.section);
  }
  const after = heap();
  process.stdout.write(
    JSON.stringify({
      cold,
      section: summary(section),
      whole: summary(whole),
      trim,
      back,
      size,
      heap: { before, after },
    }),
  );
}

await main();
