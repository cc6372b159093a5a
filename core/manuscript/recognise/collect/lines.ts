/**
 * The manuscript as a list of lines. In: raw blocks; out: one item for each paragraph that holds something, with the
 * empty paragraphs and page breaks before it counted, and the features by which headings give themselves away.
 */
import type { Points } from '#base';
import type { RawBlock, RawFrame, RawInline, RawParagraph, RawTable } from '../../raw.ts';
import { join, LEAF, type Rich, richOf } from './rich.ts';

/** Empty paragraphs in a row that stand for a page break typed with the return key. */
export const EMPTIES_AS_PAGE = 6;

interface Place {
  /** Empty paragraphs before it. */
  readonly gap: number;
  /** An explicit page break before it. */
  readonly page: boolean;
  /** A drawn rule before it, alone in its paragraph. */
  readonly rule: boolean;
}

export interface Line extends Place {
  readonly kind: 'line';
  readonly source: RawParagraph;
  readonly rich: Rich;
  /** Without leaves and outer white space; tabs and soft returns kept. */
  readonly plain: string;
  readonly words: number;
  readonly centred: boolean;
  readonly atEnd: boolean;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly underline: boolean;
  /** Typed in capitals, or shown so. */
  readonly capitals: boolean;
  readonly smallCaps: boolean;
  /** The size of most letters, null where unknown. */
  readonly size: Points | null;
  /** Of the style or paragraph: 1 to 9. */
  readonly level: number | null;
  /** Tabs before the first letter; four spaces count as one. */
  readonly tabs: number;
  readonly images: number;
  /** An item of a list; a heading that the word processor numbers is none, its number stands in its text. */
  readonly listed: boolean;
}

export interface TableItem extends Place {
  readonly kind: 'table';
  readonly table: RawTable;
}

export interface FrameItem extends Place {
  readonly kind: 'frame';
  readonly frame: RawFrame;
}

export type Item = Line | TableItem | FrameItem;

export interface Collected {
  readonly items: readonly Item[];
  /** Empty paragraphs dropped. */
  readonly empties: number;
  /** A rule at the very end belongs to nothing. */
}

/** Reads the blocks into items. */
export function collectLines(blocks: readonly RawBlock[]): Collected {
  const items: Item[] = [];
  let place: Place = { gap: 0, page: false, rule: false };
  let empties = 0;
  for (const block of blocks) {
    if (block.kind === 'paragraph') {
      if (block.pageBreakBefore || block.sectionBreakBefore) place = { ...place, page: true };
      const pieces = cutAtPageBreaks(block.inlines);
      const head = pieces.length === 1 ? 0 : headPiece(pieces);
      pieces.forEach((inlines, index) => {
        if (index > 0) place = { ...place, page: true };
        const line = lineOf(index === head ? block : { ...block, numberText: null }, inlines, place);
        if (line !== null) {
          items.push(line);
          place = { gap: 0, page: false, rule: false };
        } else if (pieces.length === 1) {
          empties++;
          place = { ...place, gap: place.gap + 1, rule: place.rule || block.rule };
        }
      });
      continue;
    }
    items.push(
      block.kind === 'table' ? { kind: 'table', table: block, ...place } : { kind: 'frame', frame: block, ...place },
    );
    place = { gap: 0, page: false, rule: false };
  }
  return { items, empties };
}

function cutAtPageBreaks(inlines: readonly RawInline[]): readonly (readonly RawInline[])[] {
  if (!inlines.some((inline) => inline.kind === 'pageBreak')) return [inlines];
  const pieces: RawInline[][] = [[]];
  for (const inline of inlines) {
    if (inline.kind === 'pageBreak') pieces.push([]);
    else pieces[pieces.length - 1]?.push(inline);
  }
  return pieces;
}

/** The piece before which a number of the paragraph shows: the first with text. */
function headPiece(pieces: readonly (readonly RawInline[])[]): number {
  const first = pieces.findIndex((inlines) => VISIBLE.test(richOf(inlines).text));
  return first === -1 ? pieces.length - 1 : first;
}

const VISIBLE = /[^\s\u200b-\u200f\u2060\ufeff\u00ad]/u;

/** A paragraph as a line, or null where it shows nothing. */
export function lineOf(source: RawParagraph, inlines: readonly RawInline[], place: Place): Line | null {
  const own = richOf(inlines);
  const number = headingNumber(source);
  if (!VISIBLE.test(own.text) && number === null) return null;
  const rich = number === null ? own : join([richOf([{ kind: 'text', text: number }]), own], '\t');
  const plain = (rich.leaves.length > 0 ? rich.text.replaceAll(LEAF, '') : rich.text).trim();
  const shares = sharesOf(inlines);
  return {
    kind: 'line',
    ...place,
    source,
    rich,
    plain,
    words: countSpaced(plain),
    listed: source.list !== null && number === null,
    centred: source.align === 'center' || isPushedIn(source, own.text, plain),
    atEnd: source.align === 'end',
    bold: shares.bold >= 0.9,
    italic: shares.italic >= 0.9,
    underline: shares.underline >= 0.9,
    smallCaps: shares.smallCaps >= 0.9,
    capitals: shares.allCaps >= 0.9 || (/\p{Lu}/u.test(plain) && !/\p{Ll}/u.test(plain)),
    size: shares.size,
    level: levelOf(source),
    tabs: leadingTabs(rich.text),
    images: rich.leaves.reduce((sum, leaf) => sum + (leaf.kind === 'image' ? 1 : 0), 0),
  };
}

/** Tabs that push a line in so far that it was meant to stand in the middle. */
const CENTRING_TABS = 4;

/** Centred by hand, with tabs or spaces. */
function isPushedIn(source: RawParagraph, text: string, plain: string): boolean {
  return source.align === 'start' && plain.length <= 60 && !plain.includes('\n') && leadingTabs(text) >= CENTRING_TABS;
}

/** The number that a heading's numbering shows, null for anything else. */
function headingNumber(source: RawParagraph): string | null {
  const number = source.numberText?.trim() ?? '';
  if (number === '' || source.list?.ordered === false) return null;
  return levelOf(source) !== null || source.align === 'center' ? number : null;
}

/** Words by white space: near enough for judging lengths. */
function countSpaced(text: string): number {
  let words = 0;
  let inside = false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    const space = code === 32 || code === 9 || code === 10 || code === 0xa0;
    if (!space && !inside) words++;
    inside = !space;
  }
  return words;
}

function leadingTabs(text: string): number {
  let tabs = 0;
  let spaces = 0;
  for (const character of text) {
    if (character === '\t') tabs++;
    else if (character === ' ' || character === '\u00a0') spaces++;
    else break;
  }
  return tabs + Math.floor(spaces / 4);
}

interface Shares {
  readonly bold: number;
  readonly italic: number;
  readonly underline: number;
  readonly smallCaps: number;
  readonly allCaps: number;
  readonly size: Points | null;
}

function sharesOf(inlines: readonly RawInline[]): Shares {
  let total = 0;
  const sums = { bold: 0, italic: 0, underline: 0, smallCaps: 0, allCaps: 0 };
  const sizes = new Map<number, number>();
  for (const inline of inlines) {
    if (inline.kind !== 'text') continue;
    const weight = inline.text.trim().length;
    if (weight === 0) continue;
    total += weight;
    if (inline.bold === true) sums.bold += weight;
    if (inline.italic === true) sums.italic += weight;
    if (inline.underline === true) sums.underline += weight;
    if (inline.smallCaps === true) sums.smallCaps += weight;
    if (inline.allCaps === true) sums.allCaps += weight;
    if (inline.size !== undefined) sizes.set(inline.size, (sizes.get(inline.size) ?? 0) + weight);
  }
  const share = (sum: number): number => (total === 0 ? 0 : sum / total);
  return {
    bold: share(sums.bold),
    italic: share(sums.italic),
    underline: share(sums.underline),
    smallCaps: share(sums.smallCaps),
    allCaps: share(sums.allCaps),
    size: heaviest(sizes),
  };
}

/** The key of the greatest weight; the first of equals. */
export function heaviest<Key>(weights: ReadonlyMap<Key, number>): Key | null {
  let best: Key | null = null;
  let most = 0;
  for (const [key, weight] of weights) {
    if (weight > most) {
      best = key;
      most = weight;
    }
  }
  return best;
}

function levelOf(source: RawParagraph): number | null {
  if (source.outlineLevel !== null) return source.outlineLevel;
  const match = /^heading ([1-9])$/i.exec(source.style ?? '');
  return match === null ? null : Number(match[1]);
}
