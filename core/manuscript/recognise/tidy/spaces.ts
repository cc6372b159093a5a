/** Spaces. In: a paragraph's text; out: edits that leave single spaces, none at the ends, and nothing invisible. */
import type { Edit } from '../collect/rich.ts';
import type { Tally } from './kinds.ts';

export function spaceEdits(text: string, tally: Tally): readonly Edit[] {
  if (!/[\t\u200b\u2060\ufeff\u00ad]|^\s|\s$| {2}|\u00a0 | \u00a0/.test(text)) return [];
  const edits: Edit[] = [];
  for (const match of text.matchAll(/[\u200b\u2060\ufeff\u00ad]+|[ \t\u00a0]{2,}|\t/g)) {
    const found = match[0];
    if (/[\u200b\u2060\ufeff\u00ad]/.test(found)) {
      tally.count('invisible', 1);
      edits.push({ at: match.index, remove: found.length, insert: '' });
      continue;
    }
    const outer = match.index === 0 || match.index + found.length === text.length;
    const kind = found.includes('\t') ? 'tab' : outer ? 'outer-space' : 'double-space';
    tally.count(kind, 1);
    edits.push({
      at: match.index,
      remove: found.length,
      insert: found.includes('\u00a0') && !outer && !found.includes(' ') ? '\u00a0' : ' ',
    });
  }
  return edits;
}
