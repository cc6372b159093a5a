/**
 * Makes the editions of a book in memory: nothing touches the disk here. In: an opened file and what was asked for; out:
 * the files of each edition with the findings, in the order of the book's editions.
 */
import { performance } from 'node:perf_hooks';
import { deflateSync } from 'node:zlib';
import type { EditionId, Finding } from '#base';
import { applyChange, type Book, type Change, type Edition } from '#book';
import { builtInDesigns } from '#design';
import { bookOf, Engine, languagesOf, type Opened, type PrintBook } from '#engine';
import { preflight } from '#preflight';
import { loadHyphenator } from '#type';
import type { MakeRequest } from '../arguments.ts';
import type { EditionSummary } from '../commands/summary.ts';
import { UsageProblem } from '../problems.ts';
import { coverOf } from './cover.ts';
import { fontLicence, loadLibrary } from './library.ts';
import { zipEntries } from './zip.ts';

export interface MadeFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface MadeEdition {
  readonly about: Omit<EditionSummary, 'files'>;
  readonly files: readonly MadeFile[];
}

export interface MadeBook {
  readonly book: Book;
  readonly editions: readonly MadeEdition[];
  readonly findings: readonly Finding[];
}

type Asked = Pick<MakeRequest, 'editions' | 'design' | 'trim'>;

/** Makes the editions that were asked for, or all. Throws `UsageProblem` where the book has no such edition or design. */
export async function makeBook(opened: Opened, asked: Asked, say: (what: string) => void): Promise<MadeBook> {
  const book = withRequest(bookOf(opened), asked);
  const wanted = wantedEditions(book, asked.editions);
  say('Loading fonts');
  const engine = await loadEngine(book);
  const maker = new Maker(engine, book, say);
  const made: MadeEdition[] = [];
  for (const edition of wanted) made.push(await maker.make(edition));
  return { book, editions: made, findings: maker.findings };
}

/** An engine with what this book needs. */
export async function loadEngine(book: Book): Promise<Engine> {
  const languages = languagesOf(book);
  const [library, ...loaded] = await Promise.all([loadLibrary(), ...languages.map((each) => loadHyphenator(each))]);
  const hyphenators = new Map(
    languages.flatMap((language, index) => {
      const hyphenator = loaded[index];
      return hyphenator ? [[language, hyphenator] as const] : [];
    }),
  );
  return new Engine({ library, hyphenators });
}

/** The book with the design and trim of the command line. */
function withRequest(book: Book, asked: Asked): Book {
  const { design, trim } = asked;
  if (design !== null && ![...builtInDesigns, ...book.designs].some((each) => each.id === design)) {
    const known = [...builtInDesigns, ...book.designs].map((each) => each.id).join(', ');
    throw new UsageProblem(`there is no design "${design}"; the designs are: ${known}.`);
  }
  const changes = book.editions.map(
    (edition, index): Change => ({
      kind: 'putEdition',
      index,
      edition: {
        ...edition,
        ...(design === null ? {} : { design }),
        ...(trim === null || edition.kind !== 'print' ? {} : { trim }),
      },
    }),
  );
  const changed = applyChange(book, { kind: 'group', changes });
  if (!changed.ok) throw new RangeError(changed.problem);
  return changed.value.book;
}

function wantedEditions(book: Book, ids: readonly EditionId[]): readonly Edition[] {
  for (const id of ids) {
    if (book.editions.some((edition) => edition.id === id)) continue;
    const known = book.editions.map((edition) => edition.id).join(', ');
    throw new UsageProblem(`the book has no edition "${id}"; it has: ${known}.`);
  }
  return book.editions.filter((edition) => ids.length === 0 || ids.includes(edition.id));
}

class Maker {
  readonly findings: Finding[] = [];
  private readonly printed = new Map<EditionId, PrintBook>();
  private readonly date: number;

  constructor(
    private readonly engine: Engine,
    private readonly book: Book,
    private readonly say: (what: string) => void,
  ) {
    this.date = dateOf(book);
    this.findings.push(...preflight({ book }));
  }

  async make(edition: Edition): Promise<MadeEdition> {
    const started = performance.now();
    const bytes = edition.kind === 'print' ? this.makePrint(edition.id) : await this.makeEbook(edition.id);
    const pages = this.printed.get(edition.id)?.madeUp.pages.length ?? null;
    const seconds = Math.round(performance.now() - started) / 1000;
    const name = `${fileName(this.book.metadata.title)}-${edition.id}.${edition.kind === 'print' ? 'pdf' : 'epub'}`;
    return { about: { id: edition.id, kind: edition.kind, pages, seconds }, files: [{ name, bytes }] };
  }

  private makePrint(id: EditionId): Uint8Array {
    this.say(`Making up the pages of ${id}`);
    const print = this.print(id);
    this.say(`Writing the PDF of ${id}`);
    return this.engine.pdf(this.book, print, { date: this.date, deflate: (bytes) => deflateSync(bytes, { level: 6 }) });
  }

  private print(id: EditionId): PrintBook {
    const known = this.printed.get(id);
    if (known) return known;
    const print = this.engine.print(this.book, id);
    this.printed.set(id, print);
    this.findings.push(
      ...print.madeUp.findings.map((finding) => ({ ...finding, edition: id })),
      ...preflight({ book: this.book, view: print.view, pages: print.madeUp.pages }),
    );
    return print;
  }

  /** The ebook carries the folios of the first print edition, whether that is being made or not. */
  private async makeEbook(id: EditionId): Promise<Uint8Array> {
    const first = this.book.editions.find((edition) => edition.kind === 'print');
    const print = first ? this.engineOnly(first.id) : null;
    this.say(`Making the ebook ${id}`);
    const entries = this.engine.ebook(this.book, id, {
      cover: await coverOf(this.book, id, this.engine.library),
      pageStarts: print?.madeUp.pageStarts ?? [],
      printIsbn: first?.isbn ?? null,
      modified: this.date,
      fontLicences: [{ fileName: 'EBGaramond-OFL.txt', text: await fontLicence('EBGaramond-OFL.txt') }],
    });
    return zipEntries(entries);
  }

  /** A print edition's pages without its findings, for an ebook that is made alone. */
  private engineOnly(id: EditionId): PrintBook {
    return this.printed.get(id) ?? this.engine.print(this.book, id);
  }
}

/**
 * The date that the files carry, in seconds since 1970: `SOURCE_DATE_EPOCH` (reproducible-builds.org) where it is set,
 * else the book's own, else the epoch itself, so that the same input gives the same bytes.
 */
function dateOf(book: Book): number {
  const given = process.env['SOURCE_DATE_EPOCH'];
  if (given !== undefined && /^\d{1,11}$/.test(given)) return Number(given);
  return book.metadata.modified ?? 0;
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

