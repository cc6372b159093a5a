/**
 * What typing leaves behind and import should have cleaned. In: a book; out: one finding for each section and sort of
 * leftover, at the first of them, with a change that mends all where that needs no judgement.
 */
import type { Node } from 'prosemirror-model';
import type { Finding } from '#base';
import { type Book, type Change, flatText, replaceText } from '#book';
import { allTextblocks, anchor, nameOf, sectionId } from './places.ts';

interface Leftover {
  readonly rule: string;
  readonly one: string;
  readonly many: string;
  /** A quick look that spares nearly every paragraph the pattern. */
  readonly mayBeIn: (text: string) => boolean;
  /** Must have the flag `g`. */
  readonly pattern: RegExp;
  /** What belongs there; null where it takes a reader to say. */
  readonly mended: string | null;
}

/** Marks after a figure may be feet, inches, minutes or seconds, and stay. */
const LEFTOVERS: readonly Leftover[] = [
  {
    rule: 'text/doubled-space',
    one: 'doubled space',
    many: 'doubled spaces',
    mayBeIn: (text) => text.includes('  '),
    pattern: /(?<=\S) {2,}(?=\S)/g,
    mended: ' ',
  },
  {
    rule: 'text/stray-space',
    one: 'space at an end of a paragraph',
    many: 'spaces at ends of paragraphs',
    mayBeIn: (text) => isBlank(text[0]) || isBlank(text.at(-1)),
    pattern: /^[ \t]+|[ \t]+$/g,
    mended: '',
  },
  {
    rule: 'text/straight-apostrophe',
    one: 'straight apostrophe',
    many: 'straight apostrophes',
    mayBeIn: (text) => text.includes("'"),
    pattern: /(?<=\p{L})'(?=\p{L})/gu,
    mended: '\u2019',
  },
  {
    rule: 'text/straight-quote',
    one: 'straight quotation mark',
    many: 'straight quotation marks',
    mayBeIn: (text) => text.includes('"') || text.includes("'"),
    pattern: /(?<!\d)"|(?<![\p{L}\d])'|(?<=\p{L})'(?!\p{L})/gu,
    mended: null,
  },
  {
    rule: 'text/double-hyphen',
    one: 'double hyphen for a dash',
    many: 'double hyphens for dashes',
    mayBeIn: (text) => text.includes('--'),
    pattern: /--+/g,
    mended: null,
  },
  {
    rule: 'text/dots',
    one: 'ellipsis of single dots',
    many: 'ellipses of single dots',
    mayBeIn: (text) => text.includes('...'),
    pattern: /(?<!\.)\.{3}(?!\.)/g,
    mended: '\u2026',
  },
];

function isBlank(character: string | undefined): boolean {
  return character === ' ' || character === '\t';
}

/** Rules `text/...` about leftovers. */
export function checkLeftovers(book: Book): readonly Finding<Change>[] {
  return book.text.children.flatMap((section) => {
    const blocks = allTextblocks(section);
    return LEFTOVERS.flatMap((leftover) => checkLeftover(book, { section, blocks }, leftover));
  });
}

interface Place {
  readonly section: Node;
  readonly blocks: readonly Node[];
}

interface Hit {
  readonly block: Node;
  readonly from: number;
  readonly to: number;
}

function checkLeftover(book: Book, place: Place, leftover: Leftover): readonly Finding<Change>[] {
  const hits = place.blocks.flatMap((block) => hitsIn(block, leftover));
  const [first] = hits;
  if (!first) return [];
  const count = `${hits.length} ${hits.length === 1 ? leftover.one : leftover.many}`;
  const fix = mending(book, place.section, hits, leftover.mended);
  return [
    {
      rule: leftover.rule,
      severity: 'warning',
      message: `${count} in “${nameOf(place.section, book.metadata.language)}”.`,
      at: anchor(first.block, first.from),
      section: sectionId(place.section),
      ...(fix ? { fix } : {}),
    },
  ];
}

function hitsIn(block: Node, { mayBeIn, pattern }: Leftover): readonly Hit[] {
  const text = flatText(block);
  if (!mayBeIn(text)) return [];
  return Array.from(text.matchAll(pattern), (match) => ({
    block,
    from: match.index,
    to: match.index + match[0].length,
  }));
}

/** From the last to the first, so that each change finds its place where it was. */
function mending(book: Book, section: Node, hits: readonly Hit[], text: string | null): Change | null {
  if (text === null) return null;
  const changes = hits.map(({ block, from, to }) =>
    replaceText(book, { section: sectionId(section), block: String(block.attrs['id']), from, to, text }),
  );
  return { kind: 'group', changes: changes.filter((change) => change !== null).reverse() };
}
