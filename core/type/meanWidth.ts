/**
 * How wide a face runs. In: the tables that say which glyph a character has and how wide it is; out: the mean width of a
 * character of English prose, spaces included, in ems: what text sizes are fitted to a measure by. Tables may be a
 * stranger's: RangeError for damaged ones. Offsets and fields after the OpenType specification 1.9 ("cmap", "hmtx").
 */

export interface WidthTables {
  readonly cmap: DataView;
  readonly hhea: DataView;
  readonly hmtx: DataView;
  readonly head: DataView;
}

/** Prose of no note: the mean of its characters lies within a hundredth of that of a whole novel. */
const PROSE =
  'The lamplighter came down the hill at a quarter past five, as he had come every evening since the winter of the flood. ' +
  'She had counted the steps so often that her feet knew the number before she did, and when the bell began she was ' +
  'already beyond the second bridge, walking fast, with the parcel under her arm and nothing in her mind but the key. ';

/** The mean width in ems; null for a face without the letters of English. */
export function meanWidth({ cmap, hhea, hmtx, head }: WidthTables): number | null {
  const glyphOf = characterMap(cmap);
  const longCount = hhea.getUint16(34);
  let sum = 0;
  for (const character of PROSE) {
    const glyph = glyphOf?.(character.codePointAt(0) ?? 0) ?? 0;
    if (glyph === 0) return null;
    sum += hmtx.getUint16(Math.min(glyph, longCount - 1) * 4);
  }
  return Math.round((sum / PROSE.length / head.getUint16(18)) * 1000) / 1000;
}

const WINDOWS = 3;
const UNICODE = 0;

/** The glyph of a character by a font's Unicode map of the plain kind (format 4); null where it has none. */
function characterMap(cmap: DataView): ((codePoint: number) => number) | null {
  for (let at = 0; at < cmap.getUint16(2); at++) {
    const record = 4 + at * 8;
    const platform = cmap.getUint16(record);
    const start = cmap.getUint32(record + 4);
    if ((platform === WINDOWS || platform === UNICODE) && cmap.getUint16(start) === 4) {
      return (codePoint) => segmentGlyph(cmap, start, codePoint);
    }
  }
  return null;
}

/** Format 4: segments of characters, each with a shift or a list of glyphs. */
function segmentGlyph(cmap: DataView, start: number, codePoint: number): number {
  const doubled = cmap.getUint16(start + 6);
  const ends = start + 14;
  const starts = ends + doubled + 2;
  for (let at = 0; at < doubled; at += 2) {
    if (cmap.getUint16(ends + at) < codePoint) continue;
    const first = cmap.getUint16(starts + at);
    if (first > codePoint) return 0;
    const shift = cmap.getUint16(starts + doubled + at);
    const place = starts + 2 * doubled + at;
    const range = cmap.getUint16(place);
    const glyph = range === 0 ? codePoint : cmap.getUint16(place + range + 2 * (codePoint - first));
    return range !== 0 && glyph === 0 ? 0 : (glyph + shift) & 0xffff;
  }
  return 0;
}
