/**
 * What a font says of itself in words. In: its `name` table, which may be a stranger's, and the ids that are wanted; out: one
 * line of text for each id that it has. Fields after the OpenType specification 1.9, "name"; RangeError for a damaged table.
 */

/** Name ids (OpenType specification 1.9, "Name IDs"). */
export const NAME = {
  family: 1,
  style: 2,
  licence: 13,
  licenceAddress: 14,
  /** The family that holds all weights and slopes. */
  typographicFamily: 16,
} as const;

const WINDOWS = 3;
const MACINTOSH = 1;
const ENGLISH_US = 0x0409;

/** Licences are long; what comes after this is left out. */
const LONGEST = 4000;

interface Found {
  readonly rank: number;
  readonly text: string;
}

/** The names of those ids, in English where the font has them in English. */
export function fontNames(names: DataView, wanted: readonly number[]): ReadonlyMap<number, string> {
  const found = new Map<number, Found>();
  const texts = names.getUint16(4);
  for (let at = 0; at < names.getUint16(2); at++) {
    const record = 6 + at * 12;
    const id = names.getUint16(record + 6);
    if (!wanted.includes(id)) continue;
    const platform = names.getUint16(record);
    const rank = rankOf(platform, names.getUint16(record + 4));
    if (rank <= (found.get(id)?.rank ?? 0)) continue;
    const place = { offset: texts + names.getUint16(record + 10), length: names.getUint16(record + 8) };
    const text = tidied(platform === MACINTOSH ? latin(names, place) : utf16(names, place));
    if (text !== '') found.set(id, { rank, text });
  }
  return new Map([...found].map(([id, { text }]) => [id, text]));
}

/** English before other languages, Unicode before the old encoding. */
function rankOf(platform: number, language: number): number {
  if (platform === WINDOWS) return language === ENGLISH_US ? 4 : 2;
  if (platform === MACINTOSH) return language === 0 ? 3 : 1;
  return 2;
}

/** One line of moderate length; lone surrogates count among the controls. */
function tidied(text: string): string {
  return text
    .replace(/\s+/gu, ' ')
    .replace(/\p{C}+/gu, '')
    .trim()
    .slice(0, LONGEST);
}

interface Place {
  readonly offset: number;
  readonly length: number;
}

/** The old Macintosh encoding: the letters of English, which is what such names are written in. */
function latin(view: DataView, { offset, length }: Place): string {
  let text = '';
  for (let at = 0; at < length; at++) text += String.fromCharCode(view.getUint8(offset + at));
  return text;
}

function utf16(view: DataView, { offset, length }: Place): string {
  let text = '';
  for (let at = 0; at + 1 < length; at += 2) text += String.fromCharCode(view.getUint16(offset + at));
  return text;
}
