/**
 * The sections of a book as lists and the fore-edge show them. In: a book, its pages, its findings; out: one row a section.
 * A row that says the same as before is the same object.
 */
import type { Node } from 'prosemirror-model';
import { type EditionId, type Finding, roman, type SectionId } from '#base';
import {
  type Book,
  countWords,
  type Matter,
  placesOf,
  type SectionKind,
  type SectionPlace,
  sectionName,
  textOf,
} from '#book';
import type { Page } from '#page';

export interface SectionRow {
  readonly id: SectionId;
  readonly kind: SectionKind;
  readonly matter: Matter;
  /** The part that it stands in. */
  readonly part: SectionId | null;
  /** As it is written before the title: "4", "II" for parts; '' where it has none. */
  readonly number: string;
  /** The title beside the number; '' where it has none. */
  readonly title: string;
  /** What the section is called where it has neither number nor title: "Dedication". */
  readonly kindName: string;
  readonly editions: readonly EditionId[] | null;
  readonly words: number;
  /** Pages in the print edition in proof; null while they are not known, 0 where it has none there. */
  readonly pages: number | null;
  /** The folio of its first page; '' while it is not known. */
  readonly folio: string;
  /** The place of its first page from 0; null while it is not known. */
  readonly firstPage: number | null;
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  /** Whether it reads otherwise in the print edition in proof than when that was last made. */
  readonly changed: boolean;
}

export interface OutlineParts {
  readonly book: Book;
  readonly pages: readonly (Page | undefined)[];
  readonly findings: readonly Finding[];
  /** The sections that changed since the last export. */
  readonly changed: ReadonlySet<SectionId>;
}

/** The rows of a book; those of `before` that say the same are kept. */
export function outlineOf(parts: OutlineParts, before: readonly SectionRow[]): readonly SectionRow[] {
  const { book } = parts;
  const known = new Map(before.map((row) => [row.id, row]));
  const spans = spansOf(parts.pages);
  const counts = countsOf(parts.findings);
  const places = placesOf(book.text.children);
  const rows = book.text.children.map((section, at) => {
    const head = headOf(section, places[at]!, book.metadata.language);
    const changed = parts.changed.has(head.id);
    const row = { ...head, ...pagesOf(spans, head.id), ...(counts.get(head.id) ?? NO_FINDINGS), changed };
    const old = known.get(head.id);
    return old && sameRow(old, row) ? old : row;
  });
  return rows.length === before.length && rows.every((row, at) => row === before[at]) ? before : rows;
}

type Head = Pick<
  SectionRow,
  'id' | 'kind' | 'matter' | 'part' | 'number' | 'title' | 'kindName' | 'editions' | 'words'
>;

function headOf(section: Node, { number, matter, part }: SectionPlace, language: string): Head {
  const kind = section.attrs['kind'] as SectionKind;
  return {
    id: section.attrs['id'] as SectionId,
    kind,
    matter,
    part,
    number: number === null ? '' : kind === 'part' ? roman(number, 'upper') : String(number),
    title: titleOf(section),
    kindName: sectionName(kind, language),
    editions: section.attrs['editions'] as readonly EditionId[] | null,
    words: countWords(section),
  };
}

/** A section's title in plain characters, '' where it has none. */
export function titleOf(section: Node): string {
  const first = section.firstChild;
  return first?.type.name === 'sectionTitle' ? textOf(first).trim() : '';
}

/** How a row is called in a sentence. */
export function nameOfRow({ number, title, kindName }: Pick<SectionRow, 'number' | 'title' | 'kindName'>): string {
  if (title !== '') return number === '' ? title : `${number} ${title}`;
  return number === '' ? kindName : `${kindName} ${number}`;
}

interface Span {
  readonly first: number;
  readonly folio: string;
  count: number;
}

/** Where the pages of each section begin and how many they are; blanks count to the section before which they stand. */
function spansOf(pages: OutlineParts['pages']): ReadonlyMap<string, Span> | null {
  if (pages.length === 0) return null;
  const spans = new Map<string, Span>();
  pages.forEach((page, at) => {
    if (!page || page.section === null || page.blank) return;
    const span = spans.get(page.section);
    if (span) span.count++;
    else spans.set(page.section, { first: at, folio: page.folio.label, count: 1 });
  });
  return spans;
}

function pagesOf(
  spans: ReadonlyMap<string, Span> | null,
  id: SectionId,
): Pick<SectionRow, 'pages' | 'folio' | 'firstPage'> {
  if (!spans) return { pages: null, folio: '', firstPage: null };
  const span = spans.get(id);
  return { pages: span?.count ?? 0, folio: span?.folio ?? '', firstPage: span?.first ?? null };
}

type Counts = Pick<SectionRow, 'errors' | 'warnings' | 'notes'>;
const NO_FINDINGS: Counts = { errors: 0, warnings: 0, notes: 0 };
const COUNTED = { error: 'errors', warning: 'warnings', note: 'notes' } as const;

function countsOf(findings: readonly Finding[]): ReadonlyMap<string, Counts> {
  const counts = new Map<string, Counts>();
  for (const { section, severity } of findings) {
    if (section === undefined) continue;
    const old = counts.get(section) ?? NO_FINDINGS;
    const name = COUNTED[severity];
    counts.set(section, { ...old, [name]: old[name] + 1 });
  }
  return counts;
}

/** Whether two rows say the same in everything. */
export function sameRow(one: SectionRow, other: SectionRow): boolean {
  return (Object.keys(other) as (keyof SectionRow)[]).every((name) => one[name] === other[name]);
}
