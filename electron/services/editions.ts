/**
 * Makes the editions of a book in memory: nothing touches the disk here. In: a file and what was asked for; out: the
 * files of each edition with the findings, in the order of the book's editions.
 */
import { basename } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { EditionId, Finding } from '#base';
import { type Book, type Change, type Edition, judged, type Muted } from '#book';
import type { Engine, PrintBook } from '#engine';
import { pageMark } from '#page';
import { preflight } from '#preflight';
import type { Aside } from '#print';
import type { FontLibrary } from '#type';
import type { MakeRequest } from '../arguments.ts';
import type { EditionSummary } from '../commands/summary.ts';
import { UsageProblem } from '../problems.ts';
import { EbookMaker } from './ebooks.ts';
import { readInput } from './files.ts';
import { installedFaces } from './installed.ts';
import { loadLibrary } from './library.ts';
import { dateOf, loadEngine, openBook } from './open-book.ts';
import { Packer } from './packer.ts';
import { packStream } from './packing.ts';
import { surveyOf } from './survey.ts';
import { zipEntries } from './zip.ts';

export interface MadeFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface MadeEdition {
  readonly about: Omit<EditionSummary, 'files'>;
  readonly files: readonly MadeFile[];
  /** The mark of each page of a print edition, where they were asked for. */
  readonly pageMarks: readonly string[] | null;
}

export interface MadeBook {
  readonly book: Book;
  readonly words: number;
  readonly editions: readonly MadeEdition[];
  /** Those that the author has not muted. */
  readonly findings: readonly Finding[];
  readonly muted: readonly Muted<Finding>[];
}

/** What is being made now. */
export interface MakeStep {
  readonly edition: EditionId;
  readonly stage: 'pages' | 'pdf' | 'ebook';
  /** How much of the stage is done, 0 to 1. */
  readonly done: number;
}

/**
 * Makes the editions that were asked for, or all. Throws `InputProblem` where the file can't be used and `UsageProblem`
 * where the book has no such edition or design.
 */
export async function makeBook(request: MakeRequest, say: (step: MakeStep) => void): Promise<MadeBook> {
  const fonts = loadLibrary();
  const book = openBook(await readInput(request.input), basename(request.input), request);
  const faces = await installedFaces(book, request.editions);
  // Only a book in fonts of this computer waits for them.
  return makeEditions({ book, editions: request.editions, fonts: faces.length > 0 ? loadLibrary(faces) : fonts, say });
}

export interface MakeWork {
  readonly book: Book;
  /** Those to make; all where none is named. */
  readonly editions: readonly EditionId[];
  readonly fonts: Promise<FontLibrary>;
  readonly say: (step: MakeStep) => void;
  /** For a window: tells section by section how far the pages are, and marks the pages, so that later changes show. */
  readonly closely?: boolean;
}

/** Makes editions of a book. Throws `UsageProblem` where it has no such edition. */
export async function makeEditions(work: MakeWork): Promise<MadeBook> {
  const { book, fonts, say, closely = false } = work;
  const wanted = wantedEditions(book, work.editions);
  const maker = new Maker({ engine: await loadEngine(book, fonts), book, say, closely });
  return maker.makeAll(wanted);
}

function wantedEditions(book: Book, ids: readonly EditionId[]): readonly Edition[] {
  for (const id of ids) {
    if (book.editions.some((edition) => edition.id === id)) continue;
    const known = book.editions.map((edition) => edition.id).join(', ');
    throw new UsageProblem(`the book has no edition "${id}"; it has: ${known}.`);
  }
  return book.editions.filter((edition) => ids.length === 0 || ids.includes(edition.id));
}

interface MakerParts {
  readonly engine: Engine;
  readonly book: Book;
  readonly say: (step: MakeStep) => void;
  readonly closely: boolean;
}

/** A file whose bytes are all written and perhaps not all packed. */
interface Written {
  readonly bytes: Promise<Uint8Array>;
}

interface Making {
  readonly made: Promise<MadeEdition>;
}

class Maker {
  private readonly packer = new Packer();
  private readonly printed = new Map<EditionId, PrintBook>();
  private readonly date: number;
  private readonly ebooks: EbookMaker;

  constructor(private readonly parts: MakerParts) {
    this.date = dateOf(parts.book);
    this.ebooks = new EbookMaker(parts.engine, parts.book, this.date);
  }

  /** Makes the editions; the first print edition is made up first, since ebooks carry its folios. */
  async makeAll(editions: readonly Edition[]): Promise<MadeBook> {
    try {
      const making = await this.begin(editions);
      // The last files are packed on another core meanwhile.
      const { book } = this.parts;
      const { words, findings } = surveyOf(book);
      const found = editions.flatMap((edition) => this.check(edition));
      const { open, muted } = judged(book, [...findings, ...found]);
      const made = await Promise.all(making.map(({ made }) => made));
      return { book, words, editions: made, findings: open, muted };
    } finally {
      this.packer.stop();
    }
  }

  private async begin(editions: readonly Edition[]): Promise<readonly Making[]> {
    const { book } = this.parts;
    const ebooks = editions.filter((edition) => edition.kind === 'ebook');
    // Covers are painted on another core while pages are made up.
    for (const { id } of ebooks) this.ebooks.prepare(id);
    const first = book.editions.find((edition) => edition.kind === 'print');
    const pageStarts = first && ebooks.length > 0 ? this.print(first.id).madeUp.pageStarts : [];
    const making: Making[] = [];
    for (const edition of editions) {
      const started = performance.now();
      const { bytes } = edition.kind === 'print' ? await this.pdf(edition.id) : await this.epub(edition.id, pageStarts);
      const made = bytes.then((each) => this.described(edition, each, started));
      // A failure is reported where the file is waited for.
      made.catch(() => undefined);
      making.push({ made });
    }
    return making;
  }

  private described(edition: Edition, bytes: Uint8Array, started: number): MadeEdition {
    const madeUp = edition.kind === 'print' ? (this.printed.get(edition.id)?.madeUp ?? null) : null;
    const pages = madeUp?.pages.length ?? null;
    const pageMarks = this.parts.closely ? (madeUp?.pages.map(pageMark) ?? null) : null;
    const seconds = Math.round(performance.now() - started) / 1000;
    const name = `${fileName(this.parts.book.metadata.title)}-${edition.id}.${edition.kind === 'print' ? 'pdf' : 'epub'}`;
    return { about: { id: edition.id, kind: edition.kind, pages, seconds }, files: [{ name, bytes }], pageMarks };
  }

  private print(id: EditionId): PrintBook {
    const known = this.printed.get(id);
    if (known) return known;
    this.parts.say({ edition: id, stage: 'pages', done: 0 });
    this.packer.open();
    if (this.parts.closely) this.prepare(id);
    const print = this.parts.engine.print(this.parts.book, id);
    this.printed.set(id, print);
    return print;
  }

  /** The slow part of making up, in steps that can be told of. */
  private prepare(id: EditionId): void {
    for (const { done, of } of this.parts.engine.prepare(this.parts.book, id, null)) {
      this.parts.say({ edition: id, stage: 'pages', done: done / of });
    }
  }

  private async pdf(id: EditionId): Promise<Written> {
    const print = this.print(id);
    this.parts.say({ edition: id, stage: 'pdf', done: 0 });
    const { engine, book } = this.parts;
    const deflate = (stream: Uint8Array): Uint8Array => packStream(stream, 'pdf');
    const aside: Aside = {
      pack: (batch) => this.packer.pack(batch, 'pdf'),
      cut: (face, glyphs) => this.packer.cut(face.bytes, glyphs),
    };
    return { bytes: engine.pdfAside(book, print, { date: this.date, deflate, aside }) };
  }

  private async epub(id: EditionId, pageStarts: PrintBook['madeUp']['pageStarts']): Promise<Written> {
    this.parts.say({ edition: id, stage: 'ebook', done: 0 });
    const entries = await this.ebooks.entries(id, pageStarts);
    return { bytes: zipEntries(entries, (batch) => this.packer.pack(batch, 'zip')) };
  }

  private check(edition: Edition): readonly Finding[] {
    const { engine, book } = this.parts;
    if (edition.kind === 'ebook')
      return engine.told(book, edition).map((finding) => ({ edition: edition.id, ...finding }));
    const print = this.printed.get(edition.id);
    if (!print) return [];
    const { view, madeUp } = print;
    const carried = madeUp.findings as readonly Finding<Change>[];
    return preflight({ book, view, pages: madeUp.pages, carried });
  }
}

/** A step in words. */
export function stepSentence({ edition, stage }: MakeStep): string {
  switch (stage) {
    case 'pages':
      return `Making up the pages of ${edition}`;
    case 'pdf':
      return `Writing the PDF of ${edition}`;
    case 'ebook':
      return `Making the ebook ${edition}`;
  }
}

/** A title as a file's name: letters and digits of ASCII, joined by hyphens. */
function fileName(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return plain || 'book';
}
