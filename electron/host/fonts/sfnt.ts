/**
 * What a font file says of itself, read table by table so that a folder of large files costs little. In: a file that may
 * be anything; out: its faces. Offsets and fields after the OpenType specification 1.9 (font file, name, OS/2).
 */
import type { FileHandle } from 'node:fs/promises';

/** A face as its tables describe it. */
export interface FaceFacts {
  /** Place in a collection (.ttc), 0 in a file of one face. */
  readonly index: number;
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  /** OS/2 fsType as it stands. */
  readonly fsType: number;
  /** Whether the face has outlines and one cut only: neither pictures of letters nor axes of variation. */
  readonly plain: boolean;
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
      const face = await faceAt(file, index, offset);
      if (face) faces.push(face);
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

async function faceAt(file: FileHandle, index: number, offset: number): Promise<FaceFacts | null> {
  const tables = await tablesAt(file, offset);
  const [name, os2] = [tables.get('name'), tables.get('OS/2')];
  if (!name || !os2) return null;
  const family = familyName(await viewOf(file, name));
  if (family === null) return null;
  const view = await viewOf(file, os2);
  const style = view.getUint16(62);
  const outlines = tables.has('glyf') || tables.has('CFF ');
  return {
    index,
    family,
    weight: Math.min(Math.max(view.getUint16(4), 1), 1000),
    // fsSelection: bit 0 italic, bit 9 oblique.
    italic: (style & 0x0201) !== 0,
    fsType: view.getUint16(8),
    plain: outlines && !tables.has('fvar'),
  };
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

/** Name ids: the family that holds all weights and slopes, else the family of four. */
const TYPOGRAPHIC_FAMILY = 16;
const FAMILY = 1;
const WINDOWS = 3;
const MACINTOSH = 1;
const ENGLISH_US = 0x0409;

function familyName(names: DataView): string | null {
  const found = new Map<number, { readonly rank: number; readonly text: string }>();
  const texts = names.getUint16(4);
  for (let at = 0; at < names.getUint16(2); at++) {
    const record = 6 + at * 12;
    const id = names.getUint16(record + 6);
    if (id !== TYPOGRAPHIC_FAMILY && id !== FAMILY) continue;
    const rank = rankOf(names.getUint16(record), names.getUint16(record + 4));
    if (rank <= (found.get(id)?.rank ?? 0)) continue;
    const place = { offset: texts + names.getUint16(record + 10), length: names.getUint16(record + 8) };
    const text = names.getUint16(record) === MACINTOSH ? ascii(names, place.offset, place.length) : utf16(names, place);
    found.set(id, { rank, text: tidied(text) });
  }
  return found.get(TYPOGRAPHIC_FAMILY)?.text || found.get(FAMILY)?.text || null;
}

/** English before other languages, Unicode before the old encoding. */
function rankOf(platform: number, language: number): number {
  if (platform === WINDOWS) return language === ENGLISH_US ? 4 : 2;
  if (platform === MACINTOSH) return language === 0 ? 3 : 1;
  return 2;
}

/** A name from a stranger's file, as one line of moderate length; lone surrogates count among the controls. */
function tidied(text: string): string {
  return text
    .replace(/\p{C}+/gu, '')
    .trim()
    .slice(0, 120);
}

function ascii(view: DataView, offset: number, length: number): string {
  let text = '';
  for (let at = 0; at < length; at++) text += String.fromCharCode(view.getUint8(offset + at));
  return text;
}

function utf16(view: DataView, { offset, length }: Table): string {
  let text = '';
  for (let at = 0; at + 1 < length; at += 2) text += String.fromCharCode(view.getUint16(offset + at));
  return text;
}

async function viewOf(file: FileHandle, { offset, length }: Table): Promise<DataView> {
  if (length > LARGEST_TABLE) throw new RangeError(`a table of ${length} bytes`);
  const bytes = new Uint8Array(length);
  const { bytesRead } = await file.read(bytes, 0, length, offset);
  return new DataView(bytes.buffer, 0, bytesRead);
}
