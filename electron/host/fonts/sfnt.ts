/**
 * What a font file says of itself, read table by table so that a folder of large files costs little. In: a file that may
 * be anything; out: its faces. Offsets and fields after the OpenType specification 1.9 (font file, name, OS/2).
 */
import type { FileHandle } from 'node:fs/promises';
import { featureTags, fontNames, meanWidth, NAME } from '#type';
import { type Cut, cutsOf } from './variation.ts';

/** A face as its tables describe it. */
export interface FaceFacts {
  /** Place in a collection (.ttc), 0 in a file of one face. */
  readonly index: number;
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  /** OS/2 fsType as it stands. */
  readonly fsType: number;
  /** Whether the face has outlines that can be embedded as one cut: no pictures of letters. */
  readonly plain: boolean;
  /** Where on its axes a variable font is this face; null for a font that does not vary. */
  readonly axes: Readonly<Record<string, number>> | null;
  /** Mean width of a character of English in ems; null without the letters of English. */
  readonly character: number | null;
  readonly smallCapitals: boolean;
  readonly oldStyle: boolean;
  /** The terms that the font names, and where they can be read. */
  readonly licence: string | null;
  readonly licenceAddress: string | null;
}

interface Table {
  readonly offset: number;
  readonly length: number;
}

type Tables = ReadonlyMap<string, Table>;

const TRUETYPE = 0x00010000;
const CFF = 0x4f54544f;
const APPLE_TRUETYPE = 0x74727565;
const COLLECTION = 0x74746366;

/** Bounds on what is believed, far above any real font. */
const MOST_FACES = 64;
const MOST_TABLES = 200;
const LARGEST_TABLE = 1024 * 1024;

/** The faces of a file; none where it is no font. */
export async function facesIn(file: FileHandle): Promise<readonly FaceFacts[]> {
  try {
    const faces: FaceFacts[] = [];
    for (const [index, offset] of (await fontOffsets(file)).entries()) {
      faces.push(...(await facesAt(file, index, offset)));
    }
    return faces;
  } catch (problem) {
    // DataView's own check is the bound on every offset that a damaged file may name.
    if (problem instanceof RangeError) return [];
    throw problem;
  }
}

/** Where each font of the file begins. */
async function fontOffsets(file: FileHandle): Promise<readonly number[]> {
  const head = await viewOf(file, { offset: 0, length: 12 });
  const version = head.getUint32(0);
  if (version === TRUETYPE || version === CFF || version === APPLE_TRUETYPE) return [0];
  if (version !== COLLECTION) return [];
  const count = Math.min(head.getUint32(8), MOST_FACES);
  const list = await viewOf(file, { offset: 12, length: count * 4 });
  return Array.from({ length: count }, (_, at) => list.getUint32(at * 4));
}

/** The face that begins there, or the faces that it can be cut into. */
async function facesAt(file: FileHandle, index: number, offset: number): Promise<readonly FaceFacts[]> {
  const tables = await tablesAt(file, offset);
  const [name, os2, variations] = [tables.get('name'), tables.get('OS/2'), tables.get('fvar')];
  if (!name || !os2) return [];
  const names = fontNames(await viewOf(file, name), Object.values(NAME));
  const view = await viewOf(file, os2);
  const family = familyName(names, view.getUint16(6));
  if (family === null) return [];
  const face = {
    index,
    family,
    weight: Math.min(Math.max(view.getUint16(4), 1), 1000),
    // fsSelection: bit 0 italic, bit 9 oblique.
    italic: (view.getUint16(62) & 0x0201) !== 0,
    fsType: view.getUint16(8),
    plain: variations ? tables.has('glyf') : tables.has('glyf') || tables.has('CFF '),
    axes: null,
    character: await widthIn(file, tables),
    ...(await featuresIn(file, tables)),
    licence: names.get(NAME.licence) ?? null,
    licenceAddress: names.get(NAME.licenceAddress) ?? null,
  };
  if (!variations) return [face];
  const cuts = cutsOf(await viewOf(file, variations), face);
  return cuts.map((cut: Cut) => ({ ...face, ...cut }));
}

const NORMAL_WIDTH = 5;

/** A family holds all weights and slopes; what is narrower or wider than usual is a family of its own. */
function familyName(names: ReadonlyMap<number, string>, width: number): string | null {
  const [wide, four] = [names.get(NAME.typographicFamily), names.get(NAME.family)];
  const name = width === NORMAL_WIDTH ? (wide ?? four) : (four ?? wide);
  return name?.slice(0, LONGEST_FAMILY) ?? null;
}

const LONGEST_FAMILY = 120;

async function widthIn(file: FileHandle, tables: Tables): Promise<number | null> {
  const wanted = ['cmap', 'hhea', 'hmtx', 'head'].map((tag) => tables.get(tag));
  const [cmap, hhea, hmtx, head] = await Promise.all(wanted.map((table) => (table ? beginning(file, table) : null)));
  return cmap && hhea && hmtx && head ? orElse(null, () => meanWidth({ cmap, hhea, hmtx, head })) : null;
}

async function featuresIn(
  file: FileHandle,
  tables: Tables,
): Promise<{ readonly smallCapitals: boolean; readonly oldStyle: boolean }> {
  const table = tables.get('GSUB');
  const view = table && (await beginning(file, table));
  const tags = orElse([], () => featureTags(view));
  return { smallCapitals: tags.includes('smcp'), oldStyle: tags.includes('onum') };
}

/** What is read of a table of which the first part tells enough. */
const ENOUGH = 256 * 1024;

function beginning(file: FileHandle, { offset, length }: Table): Promise<DataView> {
  return viewOf(file, { offset, length: Math.min(length, ENOUGH) });
}

/** What can't be read of a font that is otherwise sound is not known. */
function orElse<Value>(unknown: Value, read: () => Value): Value {
  try {
    return read();
  } catch (problem) {
    if (problem instanceof RangeError) return unknown;
    throw problem;
  }
}

async function tablesAt(file: FileHandle, offset: number): Promise<Tables> {
  const count = (await viewOf(file, { offset: offset + 4, length: 2 })).getUint16(0);
  const records = await viewOf(file, { offset: offset + 12, length: Math.min(count, MOST_TABLES) * 16 });
  const tables = new Map<string, Table>();
  for (let at = 0; at + 16 <= records.byteLength; at += 16) {
    tables.set(ascii(records, at, 4), { offset: records.getUint32(at + 8), length: records.getUint32(at + 12) });
  }
  return tables;
}

function ascii(view: DataView, offset: number, length: number): string {
  let text = '';
  for (let at = 0; at < length; at++) text += String.fromCharCode(view.getUint8(offset + at));
  return text;
}

async function viewOf(file: FileHandle, { offset, length }: Table): Promise<DataView> {
  if (length > LARGEST_TABLE) throw new RangeError(`a table of ${length} bytes`);
  const bytes = new Uint8Array(length);
  const { bytesRead } = await file.read(bytes, 0, length, offset);
  return new DataView(bytes.buffer, 0, bytesRead);
}
