/**
 * Collects a section's opening: sink, number, title, subtitle, ornament, white. Display lines are balanced, never
 * divided, and stand on the grid.
 */
import type { Node } from 'prosemirror-model';
import { type Heading, headingOf } from '#book';
import type { Align, Look, PrintDesign, PrintOpener } from '#design';
import type { StyledText } from '#paragraph';
import { OPENING_MOVED } from '../fill/costs.ts';
import { FORBIDDEN, fixedItem, type Row, solidRow, spaceRow, type Variant } from '../flow.ts';
import { balanced } from './balance.ts';
import type { Collector, Column } from './collector.ts';
import { rowsOf } from './rows.ts';
import { ornamentPaint } from './sceneBreak.ts';

/** Which of the design's openers a section has. */
export function openerOf(design: PrintDesign, kind: string): PrintOpener {
  if (kind === 'part') return design.part;
  return NARRATIVE.has(kind) ? design.opener : design.matter;
}

/** From this many times the text size on, a title wants a white line above it. */
const LARGE_TITLE = 2.2;

/** Kinds that open like a chapter. */
export const NARRATIVE: ReadonlySet<string> = new Set(['prologue', 'chapter', 'interlude', 'epilogue', 'excerpt']);

/** How headings are written in this design: shared by openers, contents, running heads and the outline. */
export function headingStyle(opener: PrintOpener, language: string): Parameters<typeof headingOf>[1] {
  return { number: opener.number, showLabel: opener.showLabel, language };
}

/** The opening of a section; `fallback` stands where it has neither number nor title. */
export function addOpener(collector: Collector, fallback = ''): void {
  const opener = openerOf(collector.design, collector.section.kind);
  const heading = headingOf(collector.section, headingStyle(opener, collector.shop.language));
  const rows = displayRows(collector, opener, heading, fallback);
  if (rows.length === 0) return;
  addSink(collector, opener.sink);
  collector.addAiry(...rows);
}

/** The least sink that is left where one gives a line. */
const LEAST_SINK = 2;

/** The white above an opening: in need a line more or less. */
function addSink(collector: Collector, lines: number): void {
  if (lines === 0) return;
  const sink = fixedItem(spaceRow(lines, true));
  collector.addAiryItem({ ...sink, inNeed: [-1, 1].flatMap((change) => movedSink(lines, change)) });
}

function movedSink(lines: number, change: number): readonly Variant[] {
  if (lines + change < LEAST_SINK) return [];
  return [{ rows: [spaceRow(lines + change, true)], change, demerits: 0, loose: 0, price: OPENING_MOVED }];
}

/** The rows of an opening, with the white after it. */
function displayRows(collector: Collector, opener: PrintOpener, heading: Heading, fallback: string): readonly Row[] {
  const rows: Row[] = [];
  const { section } = collector;
  const titled = section.title !== null || fallback !== '';
  const { numberLine } = heading;
  if (numberLine !== '' && titled) {
    rows.push(...literalRows(collector, numberLine, worded(collector, opener, opener.numberLook), opener.align));
    rows.push(...between(collector, opener, 'aboveTitle'));
  } else if (numberLine !== '' || titled) rows.push(spaceRow(1, true));
  if (titled) rows.push(...titleRows(collector, opener, section.title, fallback));
  else if (numberLine !== '') rows.push(...loneNumber(collector, opener, numberLine));
  if (section.subtitle) {
    if (titled) rows.push(spaceRow(1, true));
    rows.push(...nodeRows(collector, section.subtitle, opener.subtitleLook, opener.align));
  }
  if (rows.length > 0) {
    if (opener.ornament && (opener.ornamentPlace === 'belowTitle' || !titled))
      rows.push(...ornamentRows(collector, opener));
    rows.push(spaceRow(opener.spaceAfter, true));
  }
  return rows;
}

/** A number without a title stands where the title would, so that the text of all chapters begins on one line. */
function loneNumber(collector: Collector, opener: PrintOpener, numberLine: string): readonly Row[] {
  const look = worded(collector, opener, opener.loneNumberLook);
  const rows = literalRows(collector, numberLine, look, opener.align);
  const missing = Math.round((opener.titleLook.leading - look.leading) / collector.design.frame.leading);
  return missing > 0 ? [spaceRow(missing, true), ...rows] : rows;
}

/** A look that was drawn for figures alone, larger than the title, is too loud where a label has to stand with them. */
function worded({ section }: Collector, { showLabel, titleLook }: PrintOpener, look: Look): Look {
  return section.needsLabel && !showLabel && look.size > titleLook.size ? titleLook : look;
}

/** Between number and title: an ornament, or nothing where the title's own leading parts them well enough. */
function between(collector: Collector, opener: PrintOpener, place: PrintOpener['ornamentPlace']): readonly Row[] {
  if (opener.ornament && opener.ornamentPlace === place) return ornamentRows(collector, opener);
  const { leading, size } = collector.design.frame;
  const airy = opener.titleLook.leading > leading && opener.titleLook.size < size * LARGE_TITLE;
  return airy ? [] : [spaceRow(1, true)];
}

function titleRows(collector: Collector, opener: PrintOpener, title: Node | null, fallback: string): readonly Row[] {
  if (title) return nodeRows(collector, title, opener.titleLook, opener.align);
  return literalRows(collector, fallback, opener.titleLook, opener.align);
}

function ornamentRows(collector: Collector, opener: PrintOpener): readonly Row[] {
  const { ornament } = opener;
  if (!ornament) return [];
  return [
    solidRow({
      height: 2,
      penalty: FORBIDDEN,
      paint: ornamentPaint(collector, collector.column, { ornament, rise: 0.5, at: null }),
    }),
  ];
}

/** Display lines of a text block of the book. */
export function nodeRows(collector: Collector, node: Node, look: Look, align: Align, column?: Column): readonly Row[] {
  const text = collector.shop.spans.of({ node, look, numberOf: collector.numberOf });
  return textRows(collector, text, look, align, column);
}

/** Display lines that stand nowhere in the text. */
export function literalRows(
  collector: Collector,
  words: string,
  look: Look,
  align: Align,
  column?: Column,
): readonly Row[] {
  const text = collector.shop.spans.literal(words, look, collector.section.id);
  return textRows(collector, text, look, align, column).map((row) => ({ ...row, start: null }));
}

function textRows(
  collector: Collector,
  text: StyledText,
  look: Look,
  align: Align,
  column: Column = collector.column,
): readonly Row[] {
  if (text.spans.length === 0) return [];
  const { broken, left } = balanced(collector.shop, text, collector.shop.ragged(look, column.measure, align));
  const height = Math.max(1, Math.round(look.leading / collector.design.frame.leading));
  collector.watch(broken);
  return rowsOf(broken, { height, orphans: 99, after: FORBIDDEN, left: column.left + left });
}
