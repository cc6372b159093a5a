/**
 * Hyphens that stand for dashes, and full stops that stand for an ellipsis. In: a paragraph's text; out: edits. Hyphens
 * inside words and between figures stay.
 */
import type { Edit } from '../collect/rich.ts';
import type { DashStyle } from './habits.ts';
import type { Tally } from './kinds.ts';

/** The narrator's words inside speech that a hyphen opened: " -dijo ella-. " */
const INSIDE_SPEECH = /(?<=\s)-(?=\p{L})|(?<=[\p{L}.,!?\u2026])-(?=[\s.,;:]|$)/gu;

const DASH = /-{2,}|(?<=\s)-(?=\s|$)/g;
const DASH_OR_EN = /-{2,}|(?<=\s)[-\u2013](?=\s|$)/g;

/** A dash as typed, with the spaces around it. */
interface TypedDash {
  readonly from: number;
  readonly to: number;
  readonly left: string;
  readonly hyphens: string;
  readonly right: string;
}

export function dashEdits(text: string, style: DashStyle, tally: Tally): readonly Edit[] {
  if (!text.includes('-') && !(style.unify && text.includes('\u2013'))) return [];
  const edits: Edit[] = [];
  const speech = style.speech === null ? null : /^\s*(-{1,2}\s?)(?=[\p{L}\u00a1\u00bf\u2026"\u00ab])/u.exec(text);
  let from = 0;
  if (speech !== null && style.speech !== null) {
    const at = speech[0].length - (speech[1]?.length ?? 0);
    edits.push({ at, remove: speech[1]?.length ?? 0, insert: style.speech });
    from = speech[0].length;
    if (style.attached) {
      for (const match of text.matchAll(INSIDE_SPEECH)) {
        if (match.index >= from) edits.push({ at: match.index, remove: 1, insert: '\u2014' });
      }
      tally.count('dash', edits.length);
      return edits;
    }
  }
  for (const match of text.matchAll(style.unify ? DASH_OR_EN : DASH)) {
    const typed = withSpaces(text, match.index, match[0]);
    if (typed.from < from) continue;
    const insert = dashFor(text, typed, style);
    if (insert !== null) edits.push({ at: typed.from, remove: typed.to - typed.from, insert });
    from = typed.to;
  }
  tally.count('dash', edits.length);
  return edits;
}

function withSpaces(text: string, at: number, hyphens: string): TypedDash {
  let from = at;
  let to = at + hyphens.length;
  while (from > 0 && isSpace(text.charCodeAt(from - 1))) from--;
  while (to < text.length && isSpace(text.charCodeAt(to))) to++;
  return { from, to, left: text.slice(from, at), hyphens, right: text.slice(at + hyphens.length, to) };
}

/** Spaces, no-break spaces and soft returns. */
function isSpace(code: number): boolean {
  return code === 32 || code === 10 || code === 0xa0 || code === 0x202f;
}

function dashFor(text: string, { from, to, left, hyphens, right }: TypedDash, style: DashStyle): string | null {
  const before = text[from - 1] ?? '';
  const after = text[to] ?? '';
  if (hyphens.length > 3) return `${left}\u2014\u2014${right}`;
  const digits = /\d/.test(before) && /\d/.test(after);
  if (digits) return left === '' && right === '' ? '\u2013' : hyphens.length === 1 ? null : style.spaced;
  if (left !== '' && right !== '') return style.spaced;
  const words = /[\p{L}\p{N}]/u.test(before) && /[\p{L}\p{N}]/u.test(after);
  if (left === '' && right === '' && words) return style.close;
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
