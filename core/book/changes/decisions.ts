/**
 * Changes of what was decided about places: muted findings, remarks of imports. In: a Book and a change; out: the next Book,
 * and the change back. A decision stands as long as its place does.
 */
import type { Node } from 'prosemirror-model';
import { failure, type Outcome } from '#base';
import type { Book, ImportRemark, MutedFinding } from '../book.ts';
import type { Change } from '../change.ts';
import { hasId, lostIds } from '../ids.ts';
import { readMuted, readRemark } from '../valid.ts';
import { type Applied, applied, isPlace, spliced } from './applied.ts';

type Of<Kind extends Change['kind']> = Extract<Change, { readonly kind: Kind }>;

export function putMuted(book: Book, change: Of<'putMuted'>): Outcome<Applied> {
  const read = readMuted(change.muted);
  if (!read.ok) return read;
  const { id } = read.value;
  const at = book.muted.findIndex((each) => each.id === id);
  const others = at < 0 ? book.muted : spliced(book.muted, at, 1, []);
  if (!isPlace(change.index, others.length)) return failure(`There is no place ${change.index} among what is muted.`);
  const old = book.muted[at];
  const inverse: Change = old ? { kind: 'putMuted', muted: old, index: at } : { kind: 'dropMuted', muted: id };
  return applied({ ...book, muted: spliced(others, change.index, 0, [read.value]) }, inverse);
}

export function dropMuted(book: Book, change: Of<'dropMuted'>): Outcome<Applied> {
  const index = book.muted.findIndex((each) => each.id === change.muted);
  const muted = book.muted[index];
  if (!muted) return failure(`The book has no muted finding "${change.muted}".`);
  return applied({ ...book, muted: spliced(book.muted, index, 1, []) }, { kind: 'putMuted', muted, index });
}

export function putRemark(book: Book, change: Of<'putRemark'>): Outcome<Applied> {
  const read = readRemark(change.remark);
  if (!read.ok) return read;
  const { id } = read.value;
  const at = book.remarks.findIndex((each) => each.id === id);
  const others = at < 0 ? book.remarks : spliced(book.remarks, at, 1, []);
  if (!isPlace(change.index, others.length)) return failure(`There is no place ${change.index} among the remarks.`);
  const old = book.remarks[at];
  const inverse: Change = old ? { kind: 'putRemark', remark: old, index: at } : { kind: 'dropRemark', remark: id };
  return applied({ ...book, remarks: spliced(others, change.index, 0, [read.value]) }, inverse);
}

export function dropRemark(book: Book, change: Of<'dropRemark'>): Outcome<Applied> {
  const index = book.remarks.findIndex((each) => each.id === change.remark);
  const remark = book.remarks[index];
  if (!remark) return failure(`The book has no remark "${change.remark}".`);
  return applied({ ...book, remarks: spliced(book.remarks, index, 1, []) }, { kind: 'putRemark', remark, index });
}

/**
 * What a change led to, without what was decided about places that it took away. The inverse brings that back first, since
 * what it takes back may have been decided by the change itself.
 * @param passed the texts that a group came through: a place may have come, been decided about and gone within it.
 */
export function withoutLost(before: Book, { book, inverse }: Applied, passed: readonly Node[]): Outcome<Applied> {
  if (book.text === before.text || (book.muted.length === 0 && book.remarks.length === 0))
    return applied(book, inverse);
  const lost = lostIds(before.text, book.text);
  const wentAgain = (place: string): boolean => !hasId(book.text, place) && passed.some((text) => hasId(text, place));
  const isLost = (place: string | null, isNew: boolean): boolean =>
    place !== null && (lost.has(place) || (isNew && wentAgain(place)));
  const mutedIsLost = (each: MutedFinding): boolean => isLost(each.at, !before.muted.includes(each));
  const remarkIsLost = (each: ImportRemark): boolean => isLost(each.block, !before.remarks.includes(each));
  const back = [
    ...book.muted.flatMap((muted, index): Change[] => (mutedIsLost(muted) ? [{ kind: 'putMuted', muted, index }] : [])),
    ...book.remarks.flatMap((remark, index): Change[] =>
      remarkIsLost(remark) ? [{ kind: 'putRemark', remark, index }] : [],
    ),
  ];
  if (back.length === 0) return applied(book, inverse);
  const muted = book.muted.filter((each) => !mutedIsLost(each));
  const remarks = book.remarks.filter((each) => !remarkIsLost(each));
  return applied({ ...book, muted, remarks }, { kind: 'group', changes: [...back, inverse] });
}
