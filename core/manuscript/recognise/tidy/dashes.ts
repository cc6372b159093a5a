/**
 * Hyphens that stand for dashes, and full stops that stand for an ellipsis. In: a paragraph's text; out: edits. Hyphens
 * inside words and between figures stay.
 */
import type { Edit } from '../collect/rich.ts';
import type { DashStyle } from './habits.ts';
import type { Tally } from './kinds.ts';

const DASH = /(\s*)(-{2,}|(?<=\s)-(?=\s|$))(\s*)/g;
const DASH_OR_EN = /(\s*)(-{2,}|(?<=\s)[-\u2013](?=\s|$))(\s*)/g;

export function dashEdits(text: string, style: DashStyle, tally: Tally): readonly Edit[] {
  if (!text.includes('-') && !(style.unify && text.includes('\u2013'))) return [];
  const edits: Edit[] = [];
  const speech = style.speech === null ? null : /^\s*(-{1,2}\s?)(?=[\p{L}\u00a1\u00bf\u2026"\u00ab])/u.exec(text);
  let from = 0;
  if (speech !== null && style.speech !== null) {
    const at = speech[0].length - (speech[1]?.length ?? 0);
    edits.push({ at, remove: speech[1]?.length ?? 0, insert: style.speech });
    from = speech[0].length;
  }
  for (const match of text.matchAll(style.unify ? DASH_OR_EN : DASH)) {
    if (match.index < from) continue;
    const insert = dashFor(text, match, style);
    if (insert !== null) edits.push({ at: match.index, remove: match[0].length, insert });
  }
  tally.count('dash', edits.length);
  return edits;
}

function dashFor(text: string, match: RegExpExecArray, style: DashStyle): string | null {
  const [whole, left = '', hyphens = '', right = ''] = match;
  const before = text[match.index - 1] ?? '';
  const after = text[match.index + whole.length] ?? '';
  if (hyphens.length > 3) return `${left}\u2014\u2014${right}`;
  const digits = /\d/.test(before) && /\d/.test(after);
  if (digits) return left === '' && right === '' ? '\u2013' : hyphens.length === 1 ? null : style.spaced;
  if (left !== '' && right !== '') return style.spaced;
  if (left === '' && right === '' && /[\p{L}\p{N}]/u.test(before) && /[\p{L}\p{N}]/u.test(after)) return style.close;
  if (after === '' && left !== '' && style.spaced === '\u2014') return style.spaced;
  return `${left}\u2014${right}`;
}

const DOTS = /\.{3,}|\.(?:[ \u00a0]\.){2,}/g;

export function ellipsisEdits(text: string, tally: Tally): readonly Edit[] {
  if (!text.includes('..') && !text.includes('. .') && !text.includes('.\u00a0.')) return [];
  const edits: Edit[] = [];
  for (const match of text.matchAll(DOTS)) {
    const dots = match[0].replace(/[ \u00a0]/g, '').length;
    if (dots > 4) continue;
    edits.push({ at: match.index, remove: match[0].length, insert: dots === 4 ? '.\u2026' : '\u2026' });
  }
  tally.count('ellipsis', edits.length);
  return edits;
}
