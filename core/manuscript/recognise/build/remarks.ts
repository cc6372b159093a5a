/**
 * What was decided at a place, to stand beside the text. In: blocks and what was done there; out: remarks in the order in which
 * they were made, and the sentences that they are made of. Only judgments are remarked upon: a row of asterisks needs no word.
 */
import { IdSource } from '#base';
import { type ImportRemark, type SectionKind, sectionName } from '#book';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';

export class Remarks {
  private readonly ids = new IdSource('r');
  private readonly made: ImportRemark[] = [];

  get all(): readonly ImportRemark[] {
    return this.made;
  }

  /** @param block the id of a block or section. */
  add(block: string, kind: string, message: string): void {
    this.made.push({ id: this.ids.take(), block, kind, message });
  }
}

/** Why a section was taken as it was. */
export function sectionSentence(kind: SectionKind, reasons: readonly string[]): string {
  return `Taken as “${sectionName(kind, 'en')}”: ${reasons.join(', ')}.`;
}

export function subheadSentence(reasons: readonly string[]): string {
  return `Taken as a subhead: ${reasons.join(', ')}.`;
}

/** What stood for a break between scenes where no mark did. */
export function gapSentence({ gap, page }: Item): string {
  const what = page && gap < EMPTIES_AS_PAGE ? 'a new page' : gap === 0 ? 'extra space' : counted(gap, 'blank line');
  return `Taken as a scene break: ${what} between paragraphs.`;
}

export const RULE_SENTENCE = 'Taken as a scene break: a drawn line.';
export const SEPARATOR_SENTENCE = 'Taken as a scene break: a picture that stands between paragraphs again and again.';
export const FRAME_SENTENCE = 'Taken as a sign: it stood in a frame beside the text.';
export const CAPTION_SENTENCE = 'Taken as the caption of this picture: a short line, centred below it.';

/** Why a picture has a page. */
export const PLACE_SENTENCES = {
  page: 'Given a page of its own: it stood alone between two page breaks.',
  bleed: 'Made a plate over the edges of its page: it filled the page of the manuscript.',
} as const;

/** Why lines were set apart from the text as this. */
export function formSentence(what: string, { source, italic, tabs, plain }: Line, style: RegExp): string {
  if (style.test(source.style ?? '')) return `Taken as ${what}: its style is “${source.style}”.`;
  if (italic) return `Taken as ${what}: lines in italics, set apart.`;
  const atMargin = isAtMargin({ source, tabs }) && !plain.includes('\n');
  return `Taken as ${what}: ${atMargin ? 'short lines under a title that break off inside sentences' : 'lines set in from the margin'}.`;
}

function isAtMargin({ source, tabs }: Pick<Line, 'source' | 'tabs'>): boolean {
  return source.indentStart <= 0 && tabs === 0;
}

/** @param salutation the line that the letter begins with. */
export function letterSentence(salutation: Line): string {
  if (isAtMargin(salutation)) return 'Taken as a letter: from its salutation to its signature.';
  return 'Taken as a letter: set in from the margin, with a salutation.';
}

export function epigraphSentence(isStyled: boolean): string {
  return `Taken as an epigraph: ${isStyled ? 'its style says so' : 'lines set apart under the heading, with their source'}.`;
}

/** What became of the soft returns of a paragraph; null where it had none. */
export function softReturnSentence({ joined, split }: { readonly joined: number; readonly split: number }) {
  const spaces = joined === 0 ? '' : `${counted(joined, 'soft return')} became ${joined === 1 ? 'a space' : 'spaces'}`;
  const parted = split === 0 ? '' : `one paragraph was parted into ${split + 1} at its soft returns`;
  const both = [parted, spaces].filter((each) => each !== '').join(', and ');
  return both === '' ? null : `${both.charAt(0).toUpperCase()}${both.slice(1)}.`;
}

export function linkSentence(count: number): string {
  const what = count === 1 ? 'A link that leads' : `${count} links that lead`;
  return `${what} nowhere outside the file ${count === 1 ? 'was' : 'were'} dropped; the text was kept.`;
}

export function endMarkerSentence(marker: string): string {
  return `“${marker}” was left out after this: it marks the end of the manuscript.`;
}

const NUMBERS = ['no', 'a', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

function counted(count: number, what: string): string {
  return `${NUMBERS[count] ?? count} ${what}${count === 1 ? '' : 's'}`;
}
