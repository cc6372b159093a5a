/**
 * Finding and replacing in a book. In: what is looked for and the text; out: the places with their surroundings, and the one
 * change that replaces them.
 */
import type { Node } from 'prosemirror-model';
import type { SectionId } from '#base';
import { type Book, type Change, flatText, type Json, replaceText } from '#book';

export interface Query {
  readonly text: string;
  readonly words: boolean;
  /** Whether capitals count. */
  readonly letters: boolean;
  /** Whether the text is a regular expression. */
  readonly pattern: boolean;
}

export interface Hit {
  readonly section: SectionId;
  readonly block: string;
  readonly from: number;
  readonly to: number;
  /** What was found, with the brackets of a pattern after it. */
  readonly found: readonly string[];
  readonly before: string;
  readonly after: string;
}

/** A text block that is looked through. */
export interface SearchedBlock {
  readonly section: SectionId;
  readonly block: string;
  readonly text: string;
}

/** How many places are looked for at most. */
export const MOST_HITS = 5000;

/** Characters shown on either side. */
const AROUND = 48;

/** The expression of a query; null where a pattern can't be read. */
export function expressionOf({ text, words, letters, pattern }: Query): RegExp | null {
  const source = pattern
    ? `(?:${text})`
    : text
        .replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
        .replace(/['\u2019]/g, "['\u2019]")
        .replace(/["\u201c\u201d]/g, '["\u201c\u201d]');
  const whole = words ? `(?<![\\p{L}\\p{M}\\p{N}])${source}(?![\\p{L}\\p{M}\\p{N}])` : source;
  try {
    return new RegExp(whole, letters ? 'gu' : 'giu');
  } catch {
    return null;
  }
}

/** The text blocks of some sections, notes and captions included. */
export function searchedBlocks(sections: readonly Node[]): readonly SearchedBlock[] {
  const blocks: SearchedBlock[] = [];
  for (const section of sections) {
    const id = String(section.attrs['id']);
    section.descendants((node) => {
      if (node.isTextblock) blocks.push({ section: id, block: String(node.attrs['id']), text: flatText(node) });
      return true;
    });
  }
  return blocks;
}

/** The places at which an expression matches, up to `MOST_HITS`. */
export function hitsIn(blocks: readonly SearchedBlock[], expression: RegExp): readonly Hit[] {
  const hits: Hit[] = [];
  for (const { section, block, text } of blocks) {
    for (const match of text.matchAll(expression)) {
      const [found = ''] = match;
      if (found === '') continue;
      const [from, to] = [match.index, match.index + found.length];
      const before = text.slice(Math.max(0, from - AROUND), from);
      const after = text.slice(to, to + AROUND);
      hits.push({ section, block, from, to, found: [...match].map((each) => each ?? ''), before, after });
      if (hits.length >= MOST_HITS) return hits;
    }
  }
  return hits;
}

/** What takes the place of a hit: with a pattern, `$1` and `$&` stand for what was found. */
export function replacementOf({ found }: Hit, replacement: string, pattern: boolean): string {
  if (!pattern) return replacement;
  return replacement.replace(/\$(\$|&|\d{1,2})/g, (whole, name: string) => {
    if (name === '$') return '$';
    return name === '&' ? (found[0] ?? '') : (found[Number(name)] ?? whole);
  });
}

/** The change that replaces all of the hits; null where none of them is in the book any more. */
export function replacing(book: Book, hits: readonly Hit[], replacement: string, pattern: boolean): Change | null {
  const steps = new Map<SectionId, Json[]>();
  for (const hit of hits) {
    const { section, block, from, to } = hit;
    const change = replaceText(book, { section, block, from, to, text: replacementOf(hit, replacement, pattern) });
    if (change?.kind === 'editText') steps.set(section, [...(steps.get(section) ?? []), ...change.steps]);
  }
  // From the end of a section to its beginning: no replacement moves one that is still to come.
  const changes = [...steps].map(
    ([section, each]): Change => ({ kind: 'editText', section, steps: each.sort(laterFirst) }),
  );
  const [first] = changes;
  if (!first) return null;
  return changes.length === 1 ? first : { kind: 'group', changes };
}

function laterFirst(one: Json, other: Json): number {
  return fromOf(other) - fromOf(one);
}

function fromOf(step: Json): number {
  return Number((step as { readonly from?: number }).from ?? 0);
}
