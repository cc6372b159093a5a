/** A Book as a project file. In: a Book; out: the bytes, which depend on nothing but the book. */
import { strToU8 } from 'fflate';
import { sha256Hex } from '#base';
import type { Asset, Book, Json } from '#book';
import { containerOf, type Entry } from './container.ts';
import { assetEntry, BOOK_ENTRY, type BookRecord, FORMAT, MANIFEST_ENTRY, type Manifest, VERSION } from './format.ts';

export interface Project {
  /** The file's bytes, one part after the other; pictures are not copied. */
  readonly parts: readonly Uint8Array[];
  /** What `projectState` finds in the file. */
  readonly state: string;
}

/** What a host has that is faster than we, and does not keep others waiting. */
export interface ProjectHost {
  /** SHA-256 in hexadecimal. */
  readonly hash: (bytes: Uint8Array) => string;
  /** Deflates (RFC 1951) away from the thread that asks. */
  readonly deflate: (bytes: Uint8Array) => Promise<Uint8Array>;
}

/** The project file of a book, for whoever writes it piece by piece. */
export function projectOf(book: Book): Project {
  const content = contentOf(book);
  return projectFrom(book, { name: BOOK_ENTRY, bytes: content, how: 'deflated' }, sha256Hex(content));
}

/** The same with a host's help: of a long book, a fifth of the time is spent here. */
export async function projectAside(book: Book, { hash, deflate }: ProjectHost): Promise<Project> {
  const content = contentOf(book);
  const state = hash(content);
  return projectFrom(book, { name: BOOK_ENTRY, bytes: content, how: { packed: await deflate(content) } }, state);
}

/** What `projectState` would find in the file of a book. */
export function stateOf(book: Book, hash: ProjectHost['hash']): string {
  return hash(contentOf(book));
}

function contentOf(book: Book): Uint8Array {
  return strToU8(JSON.stringify(recordOf(book)));
}

function projectFrom(book: Book, content: Entry, state: string): Project {
  const manifest: Manifest = { format: FORMAT, version: VERSION, book: state };
  const entries: Entry[] = [
    { name: MANIFEST_ENTRY, bytes: strToU8(JSON.stringify(manifest)), how: 'stored' },
    content,
    ...assetsOf(book).map(({ id, bytes }): Entry => ({ name: assetEntry(id), bytes, how: 'stored' })),
  ];
  return { parts: containerOf(entries), state: manifest.book };
}

/** The project file of a book: the same book gives the same bytes. */
export function writeProject(book: Book): Uint8Array {
  const { parts } = projectOf(book);
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

function recordOf(book: Book): BookRecord {
  return {
    metadata: inOrder(book.metadata),
    editions: inOrder(book.editions),
    designs: inOrder(book.designs),
    assets: inOrder(assetsOf(book).map(({ bytes: _, ...facts }) => facts)),
    muted: inOrder(book.muted),
    remarks: inOrder(book.remarks),
    text: book.text.toJSON() as Json,
  };
}

/** In the order of their ids: the order in which pictures came to the book leaves no trace. */
function assetsOf(book: Book): readonly Asset[] {
  return [...book.assets.values()].sort((one, other) => (one.id < other.id ? -1 : 1));
}

/** Plain data with the keys of each object sorted: how a value was put together leaves no trace either. */
function inOrder(value: unknown): Json {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== 'object' || value === null) return value as Json;
  const sorted = Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1));
  return Object.fromEntries(sorted.map(([key, member]) => [key, inOrder(member)]));
}
