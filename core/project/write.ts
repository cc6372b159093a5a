/** A Book as a project file. In: a Book; out: the bytes, which depend on nothing but the book. */
import { strToU8, type Zippable, zipSync } from 'fflate';
import { sha256Hex } from '#base';
import type { Asset, Book, Json } from '#book';
import { assetEntry, BOOK_ENTRY, type BookRecord, FORMAT, MANIFEST_ENTRY, type Manifest, VERSION } from './format.ts';

/** A zip's dates are local times: one written without a zone reads the same everywhere. */
const DATE = '1980-01-01T12:00:00';

/** The project file of a book: the same book gives the same bytes. */
export function writeProject(book: Book): Uint8Array {
  const content = strToU8(JSON.stringify(recordOf(book)));
  const manifest: Manifest = { format: FORMAT, version: VERSION, book: sha256Hex(content) };
  const entries: Zippable = {
    [MANIFEST_ENTRY]: [strToU8(JSON.stringify(manifest)), { level: 0 }],
    [BOOK_ENTRY]: content,
  };
  for (const asset of assetsOf(book)) entries[assetEntry(asset.id)] = [asset.bytes, { level: 0 }];
  return zipSync(entries, { mtime: DATE, level: 6 });
}

function recordOf(book: Book): BookRecord {
  return {
    metadata: inOrder(book.metadata),
    editions: inOrder(book.editions),
    designs: inOrder(book.designs),
    assets: inOrder(assetsOf(book).map(({ bytes: _, ...facts }) => facts)),
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
