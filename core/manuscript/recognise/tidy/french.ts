/**
 * French spacing (Lexique des r\u00e8gles typographiques en usage \u00e0 l'Imprimerie nationale, as style pages quote it): a narrow
 * no-break space before ; ! ?, a full one before : and inside guillemets. In: a paragraph's text; out: edits.
 */
import type { Edit } from '../collect/rich.ts';
import type { Tally } from './kinds.ts';

const NARROW = '\u202f';
const FULL = '\u00a0';

const BEFORE = /([ \u00a0\u202f\u2009]*)([;!?:\u00bb]+)/g;
const AFTER = /\u00ab([ \u00a0\u202f\u2009]*)/g;

export function frenchEdits(text: string, tally: Tally): readonly Edit[] {
  if (!/[;!?:\u00ab\u00bb]/.test(text)) return [];
  const edits: Edit[] = [];
  for (const match of text.matchAll(BEFORE)) {
    const [, space = '', marks = ''] = match;
    const wanted = spaceBefore(text, match.index, space, marks);
    if (wanted !== null && wanted !== space) edits.push({ at: match.index, remove: space.length, insert: wanted });
  }
  for (const match of text.matchAll(AFTER)) {
    const space = match[1] ?? '';
    if (space !== FULL && space !== NARROW) edits.push({ at: match.index + 1, remove: space.length, insert: FULL });
  }
  tally.count('french-space', edits.length);
  return edits.sort((one, other) => one.at - other.at);
}

/** The space due before a mark; null where the mark is none of speech (a time, an address, a smiley). */
function spaceBefore(text: string, at: number, space: string, marks: string): string | null {
  const first = marks[0] ?? '';
  const before = text[at - 1] ?? '';
  const after = text[at + space.length + marks.length] ?? '';
  if (
    before === '' ||
    before === '\u00ab' ||
    (space === '' && !/[\p{L}\p{N}\u00bb\u201d)\]\u2026%\u2019]/u.test(before))
  )
    return null;
  if (space === '' && /[\p{L}\p{N}/]/u.test(after)) return null;
  if (first === ':' || first === '\u00bb') return space === NARROW || space === FULL ? space : FULL;
  return NARROW;
}
