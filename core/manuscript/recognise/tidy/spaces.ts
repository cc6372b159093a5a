/** Spaces. In: a paragraph's text without outer spaces; out: edits that leave single spaces and nothing invisible. */
import type { Edit } from '../collect/rich.ts';
import type { Tally, TidyKind } from './kinds.ts';

/** Zero-width space, word joiner, byte order mark, soft hyphen. */
const INVISIBLE = /[\u200b\u2060\ufeff\u00ad]+/;
const WANTED = /[\u200b\u2060\ufeff\u00ad]+|[ \t\u00a0]{2,}|\t/g;

export function spaceEdits(text: string, tally: Tally): readonly Edit[] {
  if (!/[\t\u200b\u2060\ufeff\u00ad]|[ \u00a0]{2}/.test(text)) return [];
  const edits: Edit[] = [];
  for (const match of text.matchAll(WANTED)) {
    const found = match[0];
    const invisible = INVISIBLE.test(found);
    const kind: TidyKind = invisible ? 'invisible' : found.includes('\t') ? 'tab' : 'double-space';
    if (kind === 'double-space' && !tally.on(kind)) continue;
    tally.count(kind, 1);
    const insert = invisible ? '' : found.includes(' ') || found.includes('\t') ? ' ' : '\u00a0';
    edits.push({ at: match.index, remove: found.length, insert });
  }
  return edits;
}
