/** From a planned page to the display list. Nothing is decided here: rows go to their lines, notes to the foot. */
import type { Points } from '#base';
import { covering, defaultPress, type PrintDesign } from '#design';
import { type Page, PageBuilder } from '#page';
import type { PlannedPage } from './arrange.ts';
import type { PageContent } from './fill/content.ts';
import type { Furniture } from './furniture.ts';

/** The rule above notes: a share of the measure, its thickness, and its height above the first note in note lines. */
const NOTE_RULE_WIDTH = 0.22;
const NOTE_RULE = 0.4;
const NOTE_RULE_RISE = 1.45;

/** All that a page shows besides its contents. */
interface Setting {
  readonly left: Points;
  readonly head: string;
  readonly frame: PrintDesign['frame'];
}

interface Finished extends Setting {
  readonly page: Page;
}

const finished = new WeakMap<PageContent, Finished>();

/** The finished page: the very same one where nothing on it changed. */
export function finishPage(page: PlannedPage, design: PrintDesign, furniture: Furniture): Page {
  if (page.content === null) return setPage(page, design, furniture);
  const setting = { left: leftOf(page, design), head: furniture.headOf(page), frame: design.frame };
  const known = finished.get(page.content);
  if (known && isSetAlike(known, page, setting)) return known.page;
  const made = setPage(page, design, furniture);
  finished.set(page.content, { ...setting, page: made });
  return made;
}

/** Whether a page would look as it did when it was last set. */
function isSetAlike(known: Finished, planned: PlannedPage, setting: Setting): boolean {
  const { page, frame } = known;
  const { folio } = planned;
  return (
    page.index === planned.index &&
    page.section === planned.section.id &&
    page.folio.label === folio.label &&
    page.folio.value === folio.value &&
    page.folio.printed === folio.printed &&
    known.left === setting.left &&
    known.head === setting.head &&
    frame.firstBaseline === setting.frame.firstBaseline &&
    frame.trim.width === setting.frame.trim.width &&
    frame.trim.height === setting.frame.trim.height
  );
}

function setPage(page: PlannedPage, design: PrintDesign, furniture: Furniture): Page {
  const builder = new PageBuilder();
  const left = leftOf(page, design);
  if (page.content) {
    furniture.set(page, left, builder);
    placeRows(page.content, design, left, builder);
    placePlate(page, page.content, design, builder);
    placeNotes(page.content, design, left, builder);
  }
  return builder.finish({
    index: page.index,
    side: page.side,
    folio: page.folio,
    section: page.section.id,
    blank: page.content === null,
    opener: page.content?.first ?? false,
    size: design.frame.trim,
  });
}

/** Left edge of the text block. */
export function leftOf(page: Pick<PlannedPage, 'side'>, design: PrintDesign): number {
  return page.side === 'recto' ? design.frame.inner : design.frame.outer;
}

/** The baseline of a grid line of a page. */
export function baselineOf(content: PageContent, line: number, design: PrintDesign): number {
  const { short, flow } = content;
  const { grid } = flow;
  if (grid.align === 'head') return design.frame.firstBaseline + line * grid.leading;
  return lastBaseline(design) - (grid.lines - 1 - short - line) * grid.leading;
}

function lastBaseline(design: PrintDesign): number {
  const { firstBaseline, lines, leading } = design.frame;
  return firstBaseline + (lines - 1) * leading;
}

function placeRows(content: PageContent, design: PrintDesign, left: number, builder: PageBuilder): void {
  content.eachLine((line, paint, row) => paint?.place(row, left, baselineOf(content, line, design), builder));
}

/** A plate fills its page from the spine to beyond the edges; what of it is too high or too wide is cut off evenly. */
function placePlate(page: PlannedPage, content: PageContent, design: PrintDesign, builder: PageBuilder): void {
  const placed = content.isPlate ? content.rows.find(({ row }) => row.plate) : undefined;
  if (!placed?.row.plate) return;
  const { asset, alt, at, shape, toFoot } = placed.row.plate;
  const { bleed } = defaultPress;
  const { trim } = design.frame;
  const foot = toFoot ? trim.height + bleed : baselineOf(content, placed.line, design);
  const clip = { x: page.side === 'recto' ? 0 : -bleed, y: -bleed, width: trim.width + bleed, height: foot + bleed };
  const { width, height } = covering(shape, clip);
  const x = clip.x + (clip.width - width) / 2;
  const y = clip.y + (clip.height - height) / 2;
  builder.add({ kind: 'image', asset, alt, at, x, y, width, height, clip });
}

function placeNotes(content: PageContent, design: PrintDesign, left: number, builder: PageBuilder): void {
  const { notes, flow } = content;
  if (notes.length === 0) return;
  const lowest = lastBaseline(design) - Math.min(0, content.short) * flow.grid.leading;
  const first = lowest - (notes.length - 1) * flow.noteLeading;
  if (design.notes.rule) {
    const width = design.frame.measure * NOTE_RULE_WIDTH;
    builder.add({
      kind: 'rule',
      x: left,
      y: first - flow.noteLeading * NOTE_RULE_RISE,
      width,
      height: NOTE_RULE,
    });
  }
  notes.forEach((row, index) => {
    row.paint?.place(row.line, left, first + index * flow.noteLeading, builder);
  });
}
