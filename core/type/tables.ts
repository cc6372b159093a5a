/**
 * What the engine reads from a font file by itself: metrics, names, licence bits, advances. In: the bytes of a TTF or OTF
 * file; out: plain values. Offsets and fields after the OpenType specification 1.9.
 */
import { failure, type Outcome, success } from '#base';
import type { Embedding } from './face.ts';
import { fontNames, NAME } from './names.ts';

export interface FontTables {
  readonly bytes: Uint8Array;
  readonly postScriptName: string;
  readonly unitsPerEm: number;
  readonly ascender: number;
  readonly descender: number;
  readonly capHeight: number;
  readonly xHeight: number;
  readonly boundingBox: readonly [number, number, number, number];
  readonly italicAngle: number;
  readonly embedding: Embedding;
  readonly maySubset: boolean;
  /** Names 13 and 14: the font's terms, and where they can be read. */
  readonly licence: string | null;
  readonly licenceAddress: string | null;
  readonly cff: boolean;
  readonly glyphCount: number;
  /** Advance of each glyph. */
  readonly advances: Uint16Array;
  /** Tags of all GSUB and GPOS features. */
  readonly features: ReadonlySet<string>;
}

type Directory = ReadonlyMap<string, DataView>;

const REQUIRED = ['head', 'hhea', 'hmtx', 'maxp', 'cmap'];

/** Reads the tables of a font file, or says why it can't be used. */
export function readFontTables(bytes: Uint8Array): Outcome<FontTables> {
  const directory = readDirectory(bytes);
  if (!directory.ok) return directory;
  const missing = REQUIRED.find((name) => !directory.value.has(name));
  if (missing) return failure(`The font file has no ${missing} table.`);
  try {
    return success(readTables(bytes, directory.value));
  } catch (error) {
    // DataView's own check is the bound on every offset that a damaged file may name.
    if (error instanceof RangeError) return failure('The font file is cut short or damaged.');
    throw error;
  }
}

/** One table of a font file, null where it has none of that tag. */
export function fontTable(bytes: Uint8Array, tag: string): Uint8Array | null {
  const directory = readDirectory(bytes);
  const table = directory.ok ? directory.value.get(tag) : undefined;
  return table ? new Uint8Array(table.buffer, table.byteOffset, table.byteLength) : null;
}

function readDirectory(bytes: Uint8Array): Outcome<Directory> {
  if (bytes.length < 12) return failure('The file is too short to be a font.');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const version = view.getUint32(0);
  if (version !== 0x00010000 && version !== 0x4f54544f && version !== 0x74727565) {
    return failure('The file is not a TrueType or OpenType font.');
  }
  const directory = new Map<string, DataView>();
  for (let i = 0; i < view.getUint16(4); i++) {
    const entry = 12 + i * 16;
    if (entry + 16 > bytes.length) return failure('The font file is cut short or damaged.');
    const offset = view.getUint32(entry + 8);
    const length = view.getUint32(entry + 12);
    if (offset + length > bytes.length) return failure('The font file is cut short or damaged.');
    directory.set(asciiAt(view, entry, 4), new DataView(bytes.buffer, bytes.byteOffset + offset, length));
  }
  return success(directory);
}

function readTables(bytes: Uint8Array, directory: Directory): FontTables {
  const head = directory.get('head')!;
  const hhea = directory.get('hhea')!;
  const glyphCount = directory.get('maxp')!.getUint16(4);
  const unitsPerEm = head.getUint16(18);
  const box = [head.getInt16(36), head.getInt16(38), head.getInt16(40), head.getInt16(42)] as const;
  return {
    bytes,
    postScriptName: postScriptName(directory.get('name')),
    unitsPerEm,
    ascender: hhea.getInt16(4),
    descender: hhea.getInt16(6),
    ...lettersHeights(directory.get('OS/2'), unitsPerEm),
    boundingBox: box,
    italicAngle: (directory.get('post')?.getInt32(4) ?? 0) / 65536,
    ...permission(directory.get('OS/2')),
    ...terms(directory.get('name')),
    cff: directory.has('CFF ') || directory.has('CFF2'),
    glyphCount,
    advances: readAdvances(directory.get('hmtx')!, hhea.getUint16(34), glyphCount),
    features: new Set([...featureTags(directory.get('GSUB')), ...featureTags(directory.get('GPOS'))]),
  };
}

/** Cap height and x-height; two thirds and a half of the em (rough means of text faces) where the table is too old. */
function lettersHeights(os2: DataView | undefined, unitsPerEm: number): { capHeight: number; xHeight: number } {
  const known = os2 !== undefined && os2.getUint16(0) >= 2 && os2.byteLength >= 90;
  return {
    xHeight: (known && os2.getInt16(86)) || Math.round(unitsPerEm / 2),
    capHeight: (known && os2.getInt16(88)) || Math.round((unitsPerEm * 2) / 3),
  };
}

/** The bits of OS/2 `fsType`: bit 1 restricted, bit 2 preview and print, bit 3 editable, bit 8 no subsets. */
function permission(os2: DataView | undefined): { embedding: Embedding; maySubset: boolean } {
  const bits = os2 ? os2.getUint16(8) : 0;
  return { embedding: embeddingOf(bits), maySubset: (bits & 0x0100) === 0 };
}

function terms(name: DataView | undefined): Pick<FontTables, 'licence' | 'licenceAddress'> {
  const names = name ? fontNames(name, [NAME.licence, NAME.licenceAddress]) : null;
  return { licence: names?.get(NAME.licence) ?? null, licenceAddress: names?.get(NAME.licenceAddress) ?? null };
}

function embeddingOf(bits: number): Embedding {
  if (bits & 8) return 'editable';
  if (bits & 4) return 'preview';
  return bits & 2 ? 'restricted' : 'installable';
}

function readAdvances(hmtx: DataView, longCount: number, glyphCount: number): Uint16Array {
  const advances = new Uint16Array(glyphCount);
  for (let glyph = 0; glyph < glyphCount; glyph++) {
    advances[glyph] = hmtx.getUint16(Math.min(glyph, longCount - 1) * 4);
  }
  return advances;
}

/** Name 6 in any of the two common encodings; it is plain ASCII by definition. */
function postScriptName(name: DataView | undefined): string {
  if (!name) return 'Unnamed';
  const strings = name.getUint16(4);
  for (let i = 0; i < name.getUint16(2); i++) {
    const record = 6 + i * 12;
    if (name.getUint16(record + 6) !== 6) continue;
    const raw = asciiAt(name, strings + name.getUint16(record + 10), name.getUint16(record + 8));
    const clean = raw.replace(/[^!-~]|[[\](){}<>/%]/g, '');
    if (clean) return clean;
  }
  return 'Unnamed';
}

/** The tags of the features in a GSUB or GPOS table. */
export function featureTags(table: DataView | undefined): string[] {
  if (!table) return [];
  const list = table.getUint16(6);
  const tags: string[] = [];
  for (let i = 0; i < table.getUint16(list); i++) tags.push(asciiAt(table, list + 2 + i * 6, 4));
  return tags;
}

function asciiAt(view: DataView, offset: number, length: number): string {
  let text = '';
  for (let i = 0; i < length; i++) text += String.fromCharCode(view.getUint8(offset + i));
  return text;
}
