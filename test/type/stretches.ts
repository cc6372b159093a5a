/** Words as `FontFace.shapeWords` takes them, and what it gives, word by word. */
import type { ShapedWords, WordStretches } from '#type';

export function stretches(words: readonly string[]): WordStretches {
  const bounds = new Int32Array(words.length * 2);
  let at = 0;
  words.forEach((word, i) => {
    bounds[i * 2] = at;
    at += word.length;
    bounds[i * 2 + 1] = at;
  });
  return { units: unitsOf(words.join('')), bounds, count: words.length };
}

function unitsOf(text: string): Uint16Array {
  return Uint16Array.from({ length: text.length }, (_, i) => text.charCodeAt(i));
}

export interface WordGlyphs {
  readonly glyphs: readonly number[];
  readonly advances: readonly number[];
  readonly clusters: readonly number[];
  readonly unsafe: readonly number[];
  readonly width: number;
  readonly moved: number;
}

/** Copies, for the face writes over what it lent. */
export function glyphsByWord(shaped: ShapedWords, count: number): readonly WordGlyphs[] {
  return Array.from({ length: count }, (_, word) => {
    const from = shaped.starts[word]!;
    const to = from + shaped.counts[word]!;
    return {
      glyphs: [...shaped.glyphs.slice(from, to)],
      advances: [...shaped.advances.slice(from, to)],
      clusters: [...shaped.clusters.slice(from, to)],
      unsafe: [...shaped.unsafe.slice(from, to)],
      width: shaped.widths[word]!,
      moved: shaped.moved[word]!,
    };
  });
}
