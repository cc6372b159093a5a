/**
 * Checks of data from outside (project files, the journal, changes sent between threads). In: plain JSON; out: the typed
 * value with nothing else in it, or one sentence that says what is wrong where.
 */
import { failure, type Outcome, success } from '#base';
import type {
  Asset,
  Contributor,
  Edition,
  Fit,
  ImportRemark,
  Json,
  Metadata,
  MutedFinding,
  NotePlacement,
  Series,
  StoredDesign,
} from './book.ts';

/** Largest side of a page that a PDF viewer must show: 14,400 units (ISO 32000-1, annex C.2). */
const LARGEST_SIDE = 14_400;

/** Metadata as JSON. */
export function readMetadata(json: unknown): Outcome<Metadata> {
  return reading(() => metadataOf(json));
}

/** An edition as JSON. */
export function readEdition(json: unknown): Outcome<Edition> {
  return reading(() => editionOf(json));
}

/** A design kept with the book, as JSON. */
export function readStoredDesign(json: unknown): Outcome<StoredDesign> {
  return reading(() => {
    const from = record(json, 'design');
    return { id: id(from, 'id', 'design'), settings: (from['settings'] ?? null) as Json };
  });
}

/** An asset's facts as JSON: all of it but its bytes. */
export function readAssetFacts(json: unknown): Outcome<Omit<Asset, 'bytes'>> {
  return reading(() => {
    const from = record(json, 'picture');
    const where = 'picture';
    return {
      id: id(from, 'id', where),
      mediaType: text(from, 'mediaType', where),
      name: text(from, 'name', where),
      pixels: from['pixels'] === null ? null : pixelsOf(from['pixels']),
    };
  });
}

/** A muted finding as JSON. */
export function readMuted(json: unknown): Outcome<MutedFinding> {
  return reading(() => {
    const where = 'muted finding';
    const from = record(json, where);
    return {
      id: id(from, 'id', where),
      rule: id(from, 'rule', where),
      says: text(from, 'says', where),
      edition: textOrNull(from, 'edition', where),
      at: textOrNull(from, 'at', where),
      text: text(from, 'text', where),
      reason: text(from, 'reason', where),
    };
  });
}

/** A remark of an import, as JSON. */
export function readRemark(json: unknown): Outcome<ImportRemark> {
  return reading(() => {
    const where = 'remark';
    const from = record(json, where);
    return {
      id: id(from, 'id', where),
      block: id(from, 'block', where),
      kind: id(from, 'kind', where),
      message: text(from, 'message', where),
    };
  });
}

/** What is wrong with a value; never leaves this file. */
class Invalid extends Error {}

type JsonRecord = Readonly<Record<string, unknown>>;

function reading<T>(read: () => T): Outcome<T> {
  try {
    return success(read());
  } catch (error) {
    if (error instanceof Invalid) return failure(error.message);
    throw error;
  }
}

function metadataOf(json: unknown): Metadata {
  const from = record(json, 'metadata');
  const where = 'metadata';
  return {
    title: text(from, 'title', where),
    subtitle: textOrNull(from, 'subtitle', where),
    contributors: list(from, 'contributors', where).map(contributorOf),
    language: text(from, 'language', where),
    publisher: textOrNull(from, 'publisher', where),
    place: textOrNull(from, 'place', where),
    year: wholeOrNull(from, 'year', where),
    rightsHolder: textOrNull(from, 'rightsHolder', where),
    series: from['series'] === null ? null : seriesOf(from['series']),
    description: textOrNull(from, 'description', where),
    subjects: list(from, 'subjects', where).map((each) => textValue(each, 'a subject')),
    identifier: text(from, 'identifier', where),
    modified: wholeOrNull(from, 'modified', where),
  };
}

function contributorOf(json: unknown): Contributor {
  const from = record(json, 'contributor');
  return {
    name: text(from, 'name', 'contributor'),
    fileAs: textOrNull(from, 'fileAs', 'contributor'),
    role: text(from, 'role', 'contributor'),
  };
}

function seriesOf(json: unknown): Series {
  const from = record(json, 'series');
  return { name: text(from, 'name', 'series'), number: textOrNull(from, 'number', 'series') };
}

function editionOf(json: unknown): Edition {
  const from = record(json, 'edition');
  const where = 'edition';
  const common = {
    id: id(from, 'id', where),
    name: text(from, 'name', where),
    design: id(from, 'design', where),
    isbn: textOrNull(from, 'isbn', where),
  };
  const notes = placement(from);
  if (from['kind'] === 'print') {
    const fit = fitOf(from['fit'] ?? null);
    const largePrint = largePrintOf(from['largePrint'] ?? null);
    const paper = textOrNull({ paper: from['paper'] ?? null }, 'paper', where);
    const wishes = { ...(fit ? { fit } : {}), ...(largePrint ? { largePrint } : {}), ...(paper ? { paper } : {}) };
    return { ...common, kind: 'print', trim: trimOf(from['trim']), notes, ...wishes };
  }
  if (from['kind'] !== 'ebook') throw new Invalid(`The kind of an edition must be print or ebook.`);
  if (notes === 'foot') throw new Invalid('An ebook has no feet of pages to set its notes at.');
  return { ...common, kind: 'ebook', notes, cover: textOrNull(from, 'cover', where) };
}

/** Most pages that a fit may ask for: far beyond what any press binds. */
const MOST_PAGES = 10_000;

function fitOf(json: unknown): Fit | null {
  if (json === null) return null;
  const from = record(json, 'fit');
  const { kind, pages, of } = from;
  if (kind === 'fewest') return { kind };
  if (kind === 'multiple' && (of === 8 || of === 16)) return { kind, of };
  if (kind === 'pages' && typeof pages === 'number' && Number.isInteger(pages) && pages % 2 === 0) {
    if (pages >= 2 && pages <= MOST_PAGES) return { kind, pages };
  }
  throw new Invalid('The fit of an edition must be an even number of pages, a multiple of 8 or 16, or the fewest.');
}

/** Sizes that large print is set in, in points (FACTS T-29: 16 or more). */
const LARGE_PRINT = { least: 16, most: 24 };

function largePrintOf(json: unknown): number | null {
  if (json === null) return null;
  const { least, most } = LARGE_PRINT;
  if (typeof json === 'number' && json >= least && json <= most) return json;
  throw new Invalid(`The large print of an edition must be a size from ${least} to ${most} points.`);
}

function placement(from: JsonRecord): NotePlacement {
  const notes = from['notes'];
  if (notes === 'foot' || notes === 'chapter' || notes === 'book') return notes;
  throw new Invalid('The notes of an edition must stand at the foot, the chapter or the book.');
}

function trimOf(json: unknown): { readonly width: number; readonly height: number } {
  const from = record(json, 'trim');
  return { width: side(from, 'width'), height: side(from, 'height') };
}

function pixelsOf(json: unknown): { readonly width: number; readonly height: number } {
  const from = record(json, 'size of a picture');
  const width = wholeOrNull(from, 'width', 'size of a picture');
  const height = wholeOrNull(from, 'height', 'size of a picture');
  if (width === null || height === null || width < 1 || height < 1) throw new Invalid('A picture must have a size.');
  return { width, height };
}

function side(from: JsonRecord, name: string): number {
  const value = from[name];
  if (typeof value === 'number' && value > 0 && value <= LARGEST_SIDE) return value;
  throw new Invalid(`The ${name} of the trim must be a length in points up to ${LARGEST_SIDE}.`);
}

function record(json: unknown, what: string): JsonRecord {
  if (typeof json === 'object' && json !== null && !Array.isArray(json)) return json as JsonRecord;
  throw new Invalid(`The ${what} must be an object.`);
}

function list(from: JsonRecord, name: string, where: string): readonly unknown[] {
  const value = from[name];
  if (Array.isArray(value)) return value;
  throw new Invalid(`"${name}" in the ${where} must be a list.`);
}

function text(from: JsonRecord, name: string, where: string): string {
  return textValue(from[name], `"${name}" in the ${where}`);
}

function textOrNull(from: JsonRecord, name: string, where: string): string | null {
  return from[name] === null ? null : text(from, name, where);
}

function textValue(value: unknown, what: string): string {
  if (typeof value === 'string') return value;
  throw new Invalid(`${what.charAt(0).toUpperCase()}${what.slice(1)} must be text.`);
}

function id(from: JsonRecord, name: string, where: string): string {
  const value = text(from, name, where);
  if (value === '') throw new Invalid(`"${name}" in the ${where} must not be empty.`);
  return value;
}

function wholeOrNull(from: JsonRecord, name: string, where: string): number | null {
  const value = from[name];
  if (value === null) return null;
  if (typeof value === 'number' && Number.isSafeInteger(value)) return value;
  throw new Invalid(`"${name}" in the ${where} must be a whole number.`);
}
