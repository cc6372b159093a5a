/**
 * A corrected manuscript taken into a book that exists. In: the book as it is and the book that the manuscript makes; out:
 * one change that brings the text in, and what it changes. Design, editions, running order and what the author set by hand
 * stay; a section that the manuscript no longer has stays too, and is named.
 */
import { Fragment, type Node, Slice } from 'prosemirror-model';
import { ReplaceStep } from 'prosemirror-transform';
import type { SectionId } from '#base';
import type { Book, Json } from './book.ts';
import type { Change } from './change.ts';
import { isSectionHead, textOf } from './flat.ts';

/** A paragraph before and after; '' where it is new or gone. */
export interface Correction {
  readonly before: string;
  readonly after: string;
}

export interface CorrectedSection {
  readonly section: SectionId;
  readonly corrections: readonly Correction[];
}

export interface Corrected {
  /** null where the manuscript says what the book says already. */
  readonly change: Change | null;
  readonly changed: readonly CorrectedSection[];
  readonly added: readonly SectionId[];
  /** Sections with text that the manuscript does not have. */
  readonly missing: readonly SectionId[];
  readonly unchanged: number;
}

/** The ids that nodes of the manuscript are given in the book. */
class NewIds {
  /** By the id that the node had in the manuscript. */
  readonly given = new Map<string, string>();

  constructor(readonly fresh: () => string) {}

  take(old: unknown): string {
    const id = this.fresh();
    this.given.set(String(old), id);
    return id;
  }
}

/** @param freshId gives ids that are free in the book. */
export function correctedText(book: Book, manuscript: Book, freshId: () => string): Corrected {
  const ids = new NewIds(freshId);
  const old = book.text.children;
  const fresh = manuscript.text.children.filter((section) => hasText(section) && fromManuscript(section));
  const pairs = paired(old, fresh);
  const changes: Change[] = [];
  const changed: CorrectedSection[] = [];
  const added: SectionId[] = [];
  let unchanged = 0;
  let index = 0;
  for (const section of fresh) {
    const known = pairs.get(section);
    if (!known) {
      const node = withFreshIds(section, ids);
      changes.push({ kind: 'addSection', index: index++, section: node.toJSON() as Json });
      added.push(idOf(node));
      continue;
    }
    index = old.indexOf(known) + 1 + added.length;
    const { node, corrections } = merged(known, section, ids);
    const step = stepBetween(known, node);
    if (step) {
      changes.push({ kind: 'editText', section: idOf(known), steps: [step.toJSON() as Json] });
      changed.push({ section: idOf(known), corrections });
    } else unchanged++;
  }
  const met = new Set(pairs.values());
  const missing = old.filter((each) => hasText(each) && !met.has(each) && fromManuscript(each)).map(idOf);
  const all = [...changes, ...remarksOn(book, manuscript, ids)];
  const change: Change | null = changes.length === 0 ? null : { kind: 'group', changes: all };
  return { change, changed, added, missing, unchanged };
}

/** What the import did where the text came in, instead of what an earlier one did there. */
function remarksOn({ remarks }: Book, manuscript: Book, { given, fresh }: NewIds): readonly Change[] {
  const added = manuscript.remarks.flatMap((remark) => {
    const block = given.get(remark.block);
    return block === undefined ? [] : [{ ...remark, block, id: fresh() }];
  });
  const met = new Set(given.values());
  const old = remarks.filter(({ block }) => met.has(block));
  const left = remarks.length - old.length;
  return [
    ...old.map(({ id }): Change => ({ kind: 'dropRemark', remark: id })),
    ...added.map((remark, at): Change => ({ kind: 'putRemark', remark, index: left + at })),
  ];
}

function idOf(section: Node): SectionId {
  return section.attrs['id'] as SectionId;
}

function hasText(section: Node): boolean {
  return lettersOf(section) !== '';
}

/** Pages that the book makes from its details are no manuscript's: those of the book stay. */
function fromManuscript({ attrs }: Node): boolean {
  return !['halfTitle', 'titlePage', 'copyright', 'contents'].includes(String(attrs['kind']));
}

const letters = new WeakMap<Node, string>();

/** What two texts are known to be the same by: letters and digits alone. */
function lettersOf(node: Node): string {
  let known = letters.get(node);
  if (known === undefined) {
    known = textOf(node)
      .replace(/[^\p{L}\p{N}]+/gu, '')
      .toLowerCase();
    letters.set(node, known);
  }
  return known;
}

/** Share of a section's paragraphs that the other must have to be taken for the same section. */
const ALIKE = 0.3;

/** Each section of the manuscript with the one of the book that it is: by kind and title, else by its paragraphs. */
function paired(old: readonly Node[], fresh: readonly Node[]): ReadonlyMap<Node, Node> {
  const pairs = new Map<Node, Node>();
  const free = new Set(old.filter(fromManuscript));
  const take = (section: Node, known: Node | undefined): void => {
    if (!known) return;
    pairs.set(section, known);
    free.delete(known);
  };
  for (const section of fresh) {
    const title = titleOf(section);
    if (title !== '')
      take(
        section,
        [...free].find((each) => titleOf(each) === title && sameKind(each, section)),
      );
  }
  for (const section of fresh) {
    if (pairs.has(section)) continue;
    const ranked = [...free].map((each) => ({ each, share: alike(each, section) }));
    const best = ranked.reduce((one, other) => (other.share > one.share ? other : one), { each: section, share: 0 });
    if (best.share >= ALIKE) take(section, best.each);
  }
  return pairs;
}

function sameKind(one: Node, other: Node): boolean {
  return one.attrs['kind'] === other.attrs['kind'];
}

function titleOf(section: Node): string {
  const first = section.firstChild;
  return first && isSectionHead(first) ? lettersOf(first) : '';
}

function alike(one: Node, other: Node): number {
  const known = new Set(one.children.map(lettersOf));
  const blocks = other.children.filter((block) => lettersOf(block) !== '');
  return blocks.filter((block) => known.has(lettersOf(block))).length / Math.max(1, blocks.length, one.childCount);
}

/** The old section with the manuscript's text: what is the same stays the very block that it was. */
function merged(old: Node, fresh: Node, ids: NewIds): { node: Node; corrections: readonly Correction[] } {
  const blocks: Node[] = [];
  const corrections: Correction[] = [];
  for (const { before, after } of gapsOf(old.children, fresh.children)) {
    if (before === after) {
      blocks.push(...before);
      continue;
    }
    blocks.push(...after.map((block, at) => inPlaceOf(before[at], block, ids)));
    for (let at = 0; at < Math.max(before.length, after.length); at++) {
      corrections.push({ before: said(before[at]), after: said(after[at]) });
    }
  }
  return { node: old.copy(Fragment.from(blocks)), corrections };
}

function said(block: Node | undefined): string {
  return block ? textOf(block) : '';
}

/** A block of the manuscript with the id and the editions of the one whose place it takes. */
function inPlaceOf(old: Node | undefined, block: Node, ids: NewIds): Node {
  const fresh = withFreshIds(block, ids);
  if (old?.type !== block.type) return fresh;
  ids.given.set(String(block.attrs['id']), String(old.attrs['id']));
  const kept = Object.fromEntries(
    ['id', 'editions'].flatMap((name) => (name in old.attrs ? [[name, old.attrs[name]]] : [])),
  );
  return fresh.type.create({ ...fresh.attrs, ...kept }, fresh.content, fresh.marks);
}

interface Gap {
  readonly before: readonly Node[];
  /** The very list of `before` where nothing changed. */
  readonly after: readonly Node[];
}

/** Blocks that are the same and blocks that are not, by the longest common run of them. */
function gapsOf(old: readonly Node[], fresh: readonly Node[]): readonly Gap[] {
  const gaps: Gap[] = [];
  let [from, to] = [0, 0];
  const reach = (oldAt: number, freshAt: number): void => {
    if (oldAt > from || freshAt > to) gaps.push({ before: old.slice(from, oldAt), after: fresh.slice(to, freshAt) });
  };
  for (const [oldAt, freshAt] of common(old, fresh)) {
    reach(oldAt, freshAt);
    const same = old.slice(oldAt, oldAt + 1);
    gaps.push({ before: same, after: same });
    [from, to] = [oldAt + 1, freshAt + 1];
  }
  reach(old.length, fresh.length);
  return gaps;
}

/** Places of the longest common subsequence of two lists of blocks (Wagner and Fischer 1974, the table walked backwards). */
function common(old: readonly Node[], fresh: readonly Node[]): readonly (readonly [number, number])[] {
  const width = fresh.length + 1;
  const table = new Uint32Array((old.length + 1) * width);
  const same = (one: number, other: number): boolean => sameBlock(old[one]!, fresh[other]!);
  for (let one = old.length - 1; one >= 0; one--) {
    for (let other = fresh.length - 1; other >= 0; other--) {
      table[one * width + other] = same(one, other)
        ? table[(one + 1) * width + other + 1]! + 1
        : Math.max(table[(one + 1) * width + other]!, table[one * width + other + 1]!);
    }
  }
  const pairs: [number, number][] = [];
  for (let one = 0, other = 0; one < old.length && other < fresh.length; ) {
    if (same(one, other)) pairs.push([one++, other++]);
    else if (table[(one + 1) * width + other]! >= table[one * width + other + 1]!) one++;
    else other++;
  }
  return pairs;
}

const plain = new WeakMap<Node, string>();

/** Whether two blocks say the same in the same way; ids and editions aside. */
function sameBlock(one: Node, other: Node): boolean {
  return plainOf(one) === plainOf(other);
}

function plainOf(block: Node): string {
  let known = plain.get(block);
  if (known === undefined) {
    known = JSON.stringify(block.toJSON(), (name, value: unknown) =>
      name === 'id' || name === 'editions' ? undefined : value,
    );
    plain.set(block, known);
  }
  return known;
}

function withFreshIds(node: Node, ids: NewIds): Node {
  if (node.isText) return node;
  const children = node.children.map((child) => withFreshIds(child, ids));
  const attrs = 'id' in node.attrs ? { ...node.attrs, id: ids.take(node.attrs['id']) } : node.attrs;
  return node.type.create(attrs, children, node.marks);
}

/** The step that makes one section's content the other's; null where it is so. */
function stepBetween(old: Node, next: Node): ReplaceStep | null {
  const start = old.content.findDiffStart(next.content);
  const ends = start === null ? null : old.content.findDiffEnd(next.content);
  if (start === null || !ends) return null;
  // Whole blocks: a step that cuts into two of them would have to join what does not belong together.
  const from = old.resolve(start).depth === 0 ? start : old.resolve(start).before(1);
  const overlap = Math.max(0, from - Math.min(ends.a, ends.b));
  const [oldEnd, nextEnd] = [ends.a + overlap, ends.b + overlap];
  const to = blockEnd(old, oldEnd);
  return new ReplaceStep(from, to, new Slice(next.content.cut(from, nextEnd + (to - oldEnd)), 0, 0));
}

function blockEnd(section: Node, at: number): number {
  const $at = section.resolve(at);
  return $at.depth === 0 ? at : $at.after(1);
}
