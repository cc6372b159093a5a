/**
 * Words that are more than letters and glyphs side by side: in several faces, letterspaced, with soft hyphens, in mapped
 * case, or with glyphs that stand off the pen. In: a fount and the characters; out: what there is to know of them.
 */
import type { Fount } from './fount.ts';
import { type Lack, type Segment, segmentsOf, widthOf } from './segments.ts';

export interface RareWord {
  /** The characters as shaped: soft hyphens left out, letters mapped to the style's case. */
  readonly text: string;
  /** For each offset in `text` the offset in the source, and the length at the end; null where they are the same. */
  readonly sources: readonly number[] | null;
  readonly softHyphens: readonly number[];
  readonly segments: readonly Segment[];
  /** With letterspacing, also after the last letter. */
  readonly width: number;
  readonly missing: readonly Lack[];
}

export const SOFT_HYPHEN = 0xad;
const NO_PLACES: readonly number[] = [];

export function rareWord(fount: Fount, leftward: boolean, token: string): RareWord {
  const { text, sources, softHyphens } = mapped(fount, token);
  const missing: Lack[] = [];
  const segments = segmentsOf(fount, text, leftward, missing);
  return { text, sources, softHyphens, segments, width: widthOf(fount, segments), missing };
}

/** The token as it is shaped: soft hyphens taken out, case mapped. */
function mapped(fount: Fount, token: string): Pick<RareWord, 'text' | 'sources' | 'softHyphens'> {
  const { letterCase } = fount.style;
  const cased = letterCase === 'asTyped' ? token : lettersOf(token, letterCase);
  if (cased.length === token.length && !token.includes('\u00ad')) {
    return { text: cased, sources: null, softHyphens: NO_PLACES };
  }
  let text = '';
  const sources: number[] = [];
  const softHyphens: number[] = [];
  let at = 0;
  for (const character of token) {
    if (character === '\u00ad') {
      if (text.length > 0 && at + 1 < token.length) softHyphens.push(text.length);
    } else {
      const letters = letterCase === 'asTyped' ? character : lettersOf(character, letterCase);
      for (let i = 0; i < letters.length; i++) sources.push(at);
      text += letters;
    }
    at += character.length;
  }
  sources.push(token.length);
  return { text, sources, softHyphens };
}

function lettersOf(text: string, letterCase: 'upper' | 'lower'): string {
  return letterCase === 'upper' ? text.toUpperCase() : text.toLowerCase();
}
