/**
 * A project file as a Book. In: bytes that may be anything; out: a Book of which everything has been checked, or one
 * sentence that says why not.
 */
import { strFromU8 } from 'fflate';
import type { Node } from 'prosemirror-model';
import { type AssetId, failure, type Outcome, sha256Hex, success } from '#base';
import {
  type Asset,
  type Book,
  hasId,
  readAssetFacts,
  readEdition,
  readMetadata,
  readMuted,
  readRemark,
  readStoredDesign,
  repeatedId,
  schema,
} from '#book';
import { assetEntry, BOOK_ENTRY, FORMAT, LIMITS, MANIFEST_ENTRY, type Manifest, VERSION } from './format.ts';
import { migrate, type Unchecked } from './migrate.ts';
import { type Entries, unpack } from './unpack.ts';

type Hash = (bytes: Uint8Array) => string;

/**
 * The book in a project file.
 * @param hash SHA-256 in hexadecimal; a host has one that takes a tenth of the time over a hundred megabytes of pictures.
 */
export function readProject(bytes: Uint8Array, hash: Hash = sha256Hex): Outcome<Book> {
  const entries = unpack(bytes);
  if (!entries.ok) return entries;
  const manifest = readManifest(entries.value);
  if (!manifest.ok) return manifest;
  const content = readContent(entries.value, manifest.value, hash);
  return content.ok ? readBook(content.value, entries.value, hash) : content;
}

function readManifest(entries: Entries): Outcome<Manifest> {
  const bytes = entries.get(MANIFEST_ENTRY);
  if (!bytes) return failure('This is not a Reglet book: it has no manifest.');
  const json = parsed(bytes);
  const { format, version, book } = json ?? {};
  if (format !== FORMAT || typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return failure('This is not a Reglet book: its manifest says something else.');
  }
  if (version > VERSION) {
    return failure(
      `This book was saved by a newer version of Reglet (format ${version}; this version reads up to ${VERSION}).`,
    );
  }
  return typeof book === 'string' ? success({ format, version, book }) : failure(damaged('its manifest is incomplete'));
}

function readContent(entries: Entries, manifest: Manifest, hash: Hash): Outcome<Unchecked> {
  const bytes = entries.get(BOOK_ENTRY);
  if (!bytes || hash(bytes) !== manifest.book) return failure(damaged('its text is not what was saved'));
  const json = parsed(bytes);
  return json ? success(migrate(json, manifest.version)) : failure(damaged('its text can’t be read'));
}

function readBook(content: Unchecked, entries: Entries, hash: Hash): Outcome<Book> {
  const metadata = readMetadata(content['metadata']);
  if (!metadata.ok) return inBook(metadata.problem);
  const editions = readAll(content['editions'], 'editions', readEdition);
  if (!editions.ok) return editions;
  const designs = readAll(content['designs'], 'designs', readStoredDesign);
  if (!designs.ok) return designs;
  const assets = readAssets(content['assets'], entries, hash);
  if (!assets.ok) return assets;
  const text = readText(content['text']);
  if (!text.ok) return text;
  const muted = readAll(content['muted'] ?? [], 'muted findings', readMuted);
  if (!muted.ok) return muted;
  const remarks = readAll(content['remarks'] ?? [], 'remarks', readRemark);
  if (!remarks.ok) return remarks;
  // A place that is not there can have come from no program of ours: what is said of it helps nobody.
  const isThere = (place: string | null): boolean => place === null || hasId(text.value, place);
  return success({
    metadata: metadata.value,
    editions: editions.value,
    designs: designs.value,
    assets: assets.value,
    muted: muted.value.filter(({ at }) => isThere(at)),
    remarks: remarks.value.filter(({ block }) => isThere(block)),
    text: text.value,
  });
}

/** A list whose members each have an id of their own. */
function readAll<T extends { readonly id: string }>(
  json: unknown,
  what: string,
  read: (json: unknown) => Outcome<T>,
): Outcome<readonly T[]> {
  if (!Array.isArray(json)) return failure(damaged(`its list of ${what} is missing`));
  const all: T[] = [];
  const ids = new Set<string>();
  for (const each of json) {
    const outcome = read(each);
    if (!outcome.ok) return inBook(outcome.problem);
    if (ids.has(outcome.value.id)) return failure(damaged(`two of its ${what} share the id "${outcome.value.id}"`));
    ids.add(outcome.value.id);
    all.push(outcome.value);
  }
  return success(all);
}

function readAssets(json: unknown, entries: Entries, hash: Hash): Outcome<ReadonlyMap<AssetId, Asset>> {
  const facts = readAll(json, 'pictures', readAssetFacts);
  if (!facts.ok) return facts;
  const assets = new Map<AssetId, Asset>();
  for (const each of facts.value) {
    const bytes = entries.get(assetEntry(each.id));
    if (!bytes || hash(bytes) !== each.id) return failure(damaged(`the picture "${each.name}" is not what was saved`));
    assets.set(each.id, { ...each, bytes });
  }
  return success(assets);
}

function readText(json: unknown): Outcome<Node> {
  const read = checkedText(json);
  if (!read.ok) return read;
  const repeated = repeatedId(read.value);
  return repeated === null ? read : failure(damaged(`two blocks share the id "${repeated}"`));
}

/** The schema throws RangeErrors at data that it refuses; data from a file fails instead. */
function checkedText(json: unknown): Outcome<Node> {
  try {
    const text = schema.nodeFromJSON(json);
    text.check();
    return text.type === schema.topNodeType ? success(text) : failure(damaged('its text is no book'));
  } catch (error) {
    if (error instanceof RangeError) return failure(damaged(`its text breaks the rules (${error.message})`));
    throw error;
  }
}

/** The object that an entry holds, or null where it holds none or one that no book could be. */
function parsed(bytes: Uint8Array): Unchecked | null {
  const text = strFromU8(bytes);
  if (isBeyondBounds(text)) return null;
  try {
    const json: unknown = JSON.parse(text);
    return typeof json === 'object' && json !== null && !Array.isArray(json) ? (json as Unchecked) : null;
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

/**
 * Counts brackets and commas outside strings, so that no later recursion runs out of stack, and a small file that unpacks
 * to millions of values doesn't take minutes and gigabytes.
 */
function isBeyondBounds(text: string): boolean {
  let depth = 0;
  let opened = 0;
  let commas = 0;
  for (let index = 0; index < text.length; index++) {
    const unit = text.charCodeAt(index);
    if (unit === QUOTE) index = endOfString(text, index);
    else if (unit === OPEN_BRACE || unit === OPEN_BRACKET) {
      depth++;
      opened++;
    } else if (unit === CLOSE_BRACE || unit === CLOSE_BRACKET) depth--;
    else if (unit === COMMA) commas++;
    if (depth > LIMITS.depth || opened > LIMITS.values || commas > MEMBERS * LIMITS.values) return true;
  }
  return false;
}

/** Members that a list or object has on the average, at most. */
const MEMBERS = 4;

const QUOTE = 0x22;
const COMMA = 0x2c;
const BACKSLASH = 0x5c;
const OPEN_BRACE = 0x7b;
const CLOSE_BRACE = 0x7d;
const OPEN_BRACKET = 0x5b;
const CLOSE_BRACKET = 0x5d;

/** The index of the quotation mark that ends the string begun at `start`. */
function endOfString(text: string, start: number): number {
  let index = start + 1;
  while (index < text.length && text.charCodeAt(index) !== QUOTE) index += text.charCodeAt(index) === BACKSLASH ? 2 : 1;
  return index;
}

function inBook(problem: string): { readonly ok: false; readonly problem: string } {
  return failure(`This Reglet book is damaged. ${problem}`);
}

function damaged(what: string): string {
  return `This Reglet book is damaged: ${what}.`;
}
