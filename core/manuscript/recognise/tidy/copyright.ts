/**
 * A c in brackets that stands for the copyright sign: after the word, or before a year. In: a paragraph's text; out: edits.
 * Elsewhere it counts the points of a list, and stays.
 */
import type { Edit } from '../collect/rich.ts';
import type { Tally } from './kinds.ts';

const SIGN = /(?<=\bcopyright\s+)\(c\)|\(c\)(?=\s*(?:1[6-9]|20)\d\d\b)/gi;

export function copyrightEdits(text: string, tally: Tally): readonly Edit[] {
  if (!text.includes('(c)') && !text.includes('(C)')) return [];
  const edits = Array.from(text.matchAll(SIGN), ({ index }) => ({ at: index, remove: 3, insert: '\u00a9' }));
  tally.count('copyright-sign', edits.length);
  return edits;
}
