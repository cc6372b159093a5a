/**
 * What the writer of the kill test does to a book: the same seed, number and book give the same change, so that whoever
 * knows the number of the last change knows the whole book.
 */

import { Slice } from 'prosemirror-model';
import { ReplaceStep } from 'prosemirror-transform';
import { assetIdOf } from '#base';
import { assetRecord, type Book, type Change, type Json, mutedAs, replaceText } from '#book';

/** Numbers between 0 and 1 from a seed (mulberry32, from memory). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The change with a number, and its number in the book's subtitle. */
export function deed(seed: number, number: number, book: Book): Change {
  const next = chance(seed * 1_000_003 + number);
  const change = makers[Math.floor(next() * makers.length)]?.(book, next, number) ?? null;
  const numbered: Change = { kind: 'setMetadata', set: { subtitle: String(number) } };
  return change ? { kind: 'group', changes: [change, numbered] } : numbered;
}

/** The number of the last deed that a book holds. */
export function lastDeed(book: Book): number {
  const { subtitle } = book.metadata;
  return subtitle !== null && /^\d+$/.test(subtitle) ? Number(subtitle) : 0;
}

type Maker = (book: Book, next: () => number, number: number) => Change | null;

function picked<T>(list: readonly T[], next: () => number): T | undefined {
  return list[Math.floor(next() * list.length)];
}

/** Types a few letters, or takes some away, somewhere. */
const typing: Maker = (book, next, number) => {
  const section = picked(book.text.children, next);
  const blocks = section?.children.filter(
    (block) => block.isTextblock && block.childCount === 1 && block.firstChild?.isText,
  );
  const block = picked(blocks ?? [], next);
  if (!section || !block) return null;
  const length = block.textContent.length;
  const from = Math.floor(next() * length);
  const to = next() < 0.3 ? Math.min(length - 1, from + 5) : from;
  const place = { section: String(section.attrs['id']), block: String(block.attrs['id']) };
  return replaceText(book, { ...place, from, to: Math.max(from, to), text: ` lamp ${number}` });
};

const moving: Maker = (book, next) => {
  const section = picked(book.text.children, next);
  if (!section) return null;
  return {
    kind: 'moveSection',
    section: String(section.attrs['id']),
    index: Math.floor(next() * book.text.childCount),
  };
};

const titling: Maker = (_book, _next, number) => ({ kind: 'setMetadata', set: { description: `After ${number}.` } });

const renaming: Maker = (book, next, number) => {
  const index = Math.floor(next() * book.editions.length);
  const edition = book.editions[index];
  return edition ? { kind: 'putEdition', edition: { ...edition, name: `Edition ${number}` }, index } : null;
};

/** Brings a picture in, or takes one out when there are some. */
const picturing: Maker = (book, next, number) => {
  // In an order that does not depend on how the book was put together.
  const known = [...book.assets.keys()].sort();
  if (known.length > 3) return { kind: 'dropAsset', asset: known[0] ?? '' };
  const bytes = new Uint8Array(20_000 + Math.floor(next() * 200_000)).map((_, at) => (at * 31 + number) & 255);
  const asset = { id: assetIdOf(bytes), bytes, mediaType: 'image/png', name: `${number}.png`, pixels: null };
  return { kind: 'putAsset', asset: assetRecord(asset) };
};

/** Mutes a finding about some section, or hears one again. */
const muting: Maker = (book, next, number) => {
  if (book.muted.length > 3) return { kind: 'dropMuted', muted: picked(book.muted, next)?.id ?? '' };
  const section = String(picked(book.text.children, next)?.attrs['id']);
  const finding = { rule: 'text/lamp', severity: 'note', message: `Lamp ${number}.`, section } as const;
  return { kind: 'putMuted', muted: mutedAs(book, finding, `After ${number}.`), index: 0 };
};

/** Dismisses a remark, or takes a block out of the book with what stands beside it, as long as some are left. */
const dismissing: Maker = (book, next) => {
  const remark = picked(book.remarks, next);
  if (!remark || book.remarks.length < 5) return null;
  if (next() < 0.5) return { kind: 'dropRemark', remark: remark.id };
  for (const section of book.text.children) {
    let from = 0;
    for (const block of section.children) {
      if (block.attrs['id'] === remark.block) {
        const steps = [new ReplaceStep(from, from + block.nodeSize, Slice.empty).toJSON() as Json];
        return { kind: 'editText', section: String(section.attrs['id']), steps };
      }
      from += block.nodeSize;
    }
  }
  return null;
};

const makers: readonly Maker[] = [
  ...[typing, typing, typing, typing, typing, moving],
  ...[titling, renaming, picturing, muting, dismissing],
];
