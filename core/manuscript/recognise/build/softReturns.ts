/**
 * Soft returns in prose. In: a line's text; out: its paragraphs. Between sentences a soft return was meant as a new
 * paragraph, inside one it is a space; in short lines (an address, a sign) it stays.
 */
import type { Line } from '../collect/lines.ts';
import { applyEdits, type Edit, type Rich, slice } from '../collect/rich.ts';

export interface Parted {
  readonly parts: readonly Rich[];
  readonly joined: number;
  readonly split: number;
}

/** No line of an address or a sign is longer, in characters. */
const SHORT = 56;

/** Characters on either side that are looked at. */
const NEAR = 200;

const CLOSED = /[.!?\u2026:\u2014]["'\u201d\u2019\u00bb\u201c\u203a)]*\s*$/;
const OPENS = /^\s*["'\u201c\u2018\u201e\u00ab\u2014\u2013\u00bf\u00a1(-]*\s*[\p{Lu}\p{N}]/u;

export function partAtSoftReturns(line: Line): Parted {
  const { rich } = line;
  if (!rich.text.includes('\n') || keepsLines(line)) return { parts: [rich], joined: 0, split: 0 };
  const parts: Rich[] = [];
  const edits: Edit[] = [];
  let from = 0;
  let joined = 0;
  let done = 0;
  const finish = (to: number): void => {
    const shifted = edits.map((edit) => ({ ...edit, at: edit.at - from }));
    parts.push(applyEdits(slice(rich, from, to), shifted));
    edits.length = 0;
  };
  for (let at = rich.text.indexOf('\n'); at !== -1; at = rich.text.indexOf('\n', at + 1)) {
    const before = rich.text.slice(Math.max(done, at - NEAR), at);
    const after = rich.text.slice(at + 1, at + NEAR);
    if (before.trim() !== '' && after.trim() !== '' && CLOSED.test(before) && OPENS.test(after)) {
      finish(at);
      from = at + 1;
    } else {
      edits.push({ at, remove: 1, insert: ' ' });
      joined++;
    }
    done = at + 1;
  }
  finish(rich.text.length);
  return { parts, joined, split: parts.length - 1 };
}

/** A line that is a date and little else: begins or ends in figures. */
const DATE = /^\d{1,4}\P{Lu}*\s*\p{L}+|\d{4}\.?$/u;

/** An address, a signature, a sign: several short lines, meant as lines. */
function keepsLines(line: Line): boolean {
  const pieces = line.plain.split('\n').map((piece) => piece.trim());
  if (!pieces.every((piece) => piece.length <= SHORT)) return false;
  if (line.centred || line.atEnd) return true;
  const ended = pieces.slice(0, -1).filter((piece) => CLOSED.test(piece)).length;
  if (pieces.length >= 3) return ended <= pieces.length / 2;
  // Two lines: a name above a place, or a place above a date.
  return (pieces[0] ?? '').endsWith(',') || (ended === 0 && DATE.test(pieces[1] ?? '') && line.words <= 10);
}
