/**
 * The fore-edge as figures. In: the rows of a book and a height; out: a band for each section, as thick as its pages, and
 * which of them a height falls on.
 */
import type { Node } from 'prosemirror-model';
import type { Anchor, SectionId } from '#base';
import { flatText, textblocksOf } from '#book';
import type { SectionRow } from '../../state/index.ts';

/** Chapters alternate two papers; front and back matter have a third; a part shows as a rule. */
export type Tone = 'one' | 'two' | 'matter' | 'part';

export interface Band {
  readonly section: SectionId;
  readonly tone: Tone;
  /** Shares of the height, 0 to 1. */
  readonly from: number;
  readonly to: number;
  readonly errors: number;
  readonly warnings: number;
  readonly changed: boolean;
}

type Measured = Pick<SectionRow, 'id' | 'kind' | 'matter' | 'words' | 'pages' | 'errors' | 'warnings' | 'changed'>;

/** Words on a page of a novel, until the pages are known: common practice, no source. */
const WORDS_ON_A_PAGE = 280;
/** What a section without pages in this edition keeps, in pages: enough to be seen. */
const LEAST = 0.4;

export function bandsOf(rows: readonly Measured[]): readonly Band[] {
  const sizes = rows.map(thickness);
  const whole = sizes.reduce((sum, size) => sum + size, 0);
  let at = 0;
  let chapters = 0;
  return rows.map((row, index) => {
    const from = at / whole;
    at += sizes[index]!;
    const tone = toneOf(row, chapters);
    if (tone === 'one' || tone === 'two') chapters++;
    const { id, errors, warnings, changed } = row;
    return { section: id, tone, from, to: at / whole, errors, warnings, changed };
  });
}

function thickness({ pages, words }: Measured): number {
  return Math.max(LEAST, pages ?? Math.ceil(words / WORDS_ON_A_PAGE));
}

function toneOf({ kind, matter }: Measured, chapters: number): Tone {
  if (kind === 'part') return 'part';
  if (matter !== 'body') return 'matter';
  return chapters % 2 === 0 ? 'one' : 'two';
}

/** The band at a share of the height; the last for what lies below, null for no bands. */
export function bandAt(bands: readonly Band[], share: number): Band | null {
  return bands.find((band) => share < band.to) ?? bands.at(-1) ?? null;
}

/** How much of a section stands before a place in it, by its characters, 0 to 1. */
export function shareInSection(section: Node, { block, offset }: Anchor): number {
  const blocks = textblocksOf(section);
  const at = blocks.findIndex((each) => each.attrs['id'] === block);
  if (at < 0) return 0;
  const lengths = blocks.map((each) => flatText(each).length);
  const before = lengths.slice(0, at).reduce((sum, length) => sum + length, 0);
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  return whole === 0 ? 0 : (before + Math.min(offset, lengths[at] ?? 0)) / whole;
}
