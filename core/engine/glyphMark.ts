/**
 * Characters of fonts as drawn ornaments. In: a face and a character; out: its outline as every medium draws it, or the list
 * of such characters that a face has.
 */
import type { Ornament } from '#design';
import type { FontFace, FontLibrary } from '#type';

/**
 * Characters that printers set between passages: asterisms, fleurons, hearts, stars, florettes, leaves and the like
 * (The Unicode Standard, blocks General Punctuation, Miscellaneous Symbols, Dingbats, Ornamental Dingbats).
 */
const RANGES: readonly (readonly [number, number])[] = [
  [0x2042, 0x2042],
  [0x2051, 0x2051],
  [0x2056, 0x205e],
  [0x2605, 0x2606],
  [0x2619, 0x2619],
  [0x2698, 0x2698],
  [0x269c, 0x269c],
  [0x2721, 0x274b],
  [0x2756, 0x2756],
  [0x2761, 0x2767],
  [0x2e19, 0x2e19],
  [0x1f650, 0x1f66f],
];

/** Single marks of the plain text that serve as well. */
const PLAIN = ['*', '§', '¶', '†', '‡', '•', '·', '~', '∗', '⁂'];

/** The ornamental characters that a face can draw; plain ones last, where they are wanted. */
export function ornamentalCharacters(face: FontFace, plain: boolean): readonly string[] {
  const fromRanges = RANGES.flatMap(([first, last]) =>
    Array.from({ length: last - first + 1 }, (_, at) => String.fromCodePoint(first + at)),
  );
  return [...new Set([...fromRanges, ...(plain ? PLAIN : [])])].filter((character) => inkOf(face, character) !== null);
}

/** A character as an ornament of so many text sizes; null where the face has no ink for it. */
export function glyphOrnament(face: FontFace, character: string, size: number): Ornament | null {
  const ink = inkOf(face, character);
  if (!ink) return null;
  const [left, bottom, right, top] = ink.box;
  const code = codeOf(character).toString(16).toUpperCase().padStart(4, '0');
  return {
    id: `glyph-${code}`,
    name: `${character} (U+${code})`,
    path: turned(face.outline(ink.glyph), left, top),
    viewBox: { width: right - left, height: top - bottom },
    width: (size * (right - left)) / face.unitsPerEm,
  };
}

/** The face of that family, helpers among them, that draws a character; null where there is none. */
export function faceOfMark(library: FontLibrary, family: string, character: string): FontFace | null {
  const text = library.about(family) ? [library.family(family).regular] : [];
  const faces = [...text, ...library.fallbacks.filter((face) => face.family === family)];
  return faces.find((face) => inkOf(face, character) !== null) ?? null;
}

function codeOf(character: string): number {
  return character.codePointAt(0) ?? 0;
}

interface Ink {
  readonly glyph: number;
  readonly box: readonly [number, number, number, number];
}

function inkOf(face: FontFace, character: string): Ink | null {
  const glyph = face.glyphOf(codeOf(character));
  const box = glyph === 0 ? null : face.inkOf(glyph);
  return box && box[2] > box[0] && box[3] > box[1] ? { glyph, box } : null;
}

/** An outline of font units with y up, from the top left corner of its ink with y down. */
function turned(path: string, left: number, top: number): string {
  let vertical = false;
  return path.replace(/([A-Za-z])|(-?\d+(?:\.\d+)?(?:e-?\d+)?)/g, (_, command: string | undefined, figure: string) => {
    if (command !== undefined) {
      vertical = false;
      return command;
    }
    const value = vertical ? top - Number(figure) : Number(figure) - left;
    vertical = !vertical;
    return String(Math.round(value * 100) / 100);
  });
}
