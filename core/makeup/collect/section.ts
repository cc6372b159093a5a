/** Collects a section by its kind. In: a section of the view; out: its flow. */
import { type Metadata, type NotePlacement, sectionName } from '#book';
import type { PrintDesign } from '#design';
import type { Flow, FlowGrid } from '../flow.ts';
import { addBlocks } from './blocks.ts';
import { type CollectContext, Collector } from './collector.ts';
import { addContents, type ContentsEntry } from './contents.ts';
import { addDedication, addEpigraphPage, addHalfTitle, addImprint, addTitles, addTypedHeading } from './display.ts';
import { addBookNotes, addEndNotes, footnotesOf, type NoteGroup } from './notes.ts';
import { addOpener, NARRATIVE } from './opener.ts';
import { addTitlePage } from './titlePage.ts';

export interface SectionRequest extends CollectContext {
  readonly metadata: Metadata;
  readonly notes: NotePlacement;
  /** What a contents page lists. */
  readonly contents: readonly ContentsEntry[];
  /** What a section of notes gathers from the whole book. */
  readonly gathered: readonly NoteGroup[];
}

/** The flow of one section. */
export function collectSection(request: SectionRequest): Flow {
  const collector = new Collector(request);
  const grid = addSection(collector, request);
  const atFoot = request.notes === 'foot';
  if (request.notes === 'chapter') addEndNotes(collector);
  return {
    grid,
    items: collector.items,
    notes: atFoot ? footnotesOf(collector, request) : new Map(),
    noteLeading: collector.design.notes.look.leading,
    missing: collector.missing,
    overfull: collector.overfull,
  };
}

function addSection(collector: Collector, request: SectionRequest): FlowGrid {
  const { section } = request;
  const { leading, lines } = collector.design.frame;
  switch (section.kind) {
    case 'halfTitle':
      addHalfTitle(collector, request.metadata);
      break;
    case 'titlePage':
      addTitlePage(collector, request.metadata);
      break;
    case 'copyright':
      return addImprint(collector);
    case 'dedication':
      addDedication(collector);
      break;
    case 'epigraph':
      addEpigraphPage(collector);
      break;
    case 'contents':
      addContents(collector, request.contents);
      break;
    case 'alsoBy':
      addOpener(collector);
      addTitles(collector);
      break;
    case 'frontispiece':
      addTypedHeading(collector);
      addBlocks(collector, section.blocks, collector.column);
      break;
    case 'notes':
      addOpener(collector, sectionName('notes', collector.shop.language));
      addBlocks(collector, section.blocks, collector.column);
      addBookNotes(collector, request.gathered);
      break;
    default:
      addRunning(collector);
  }
  return { leading, lines, extra: extraLines(collector.design), align: 'head' };
}

/** Leadings from the lowest line to a folio below it, at least: more than to a line of text (FACTS T-16 lets a spread run long). */
const CLEARANCE = 1.25;
/** White below the lowest line of a page, where nothing stands there: half an inch. */
const LEAST_FOOT = 36;

/** Lines that pages may run below the frame. */
function extraLines({ frame, folios }: PrintDesign): number {
  const { firstBaseline, lines, leading, trim } = frame;
  const below = firstBaseline + lines * leading;
  const folioBelow = folios.place !== 'none' && (folios.place !== 'headOuter' || folios.onOpeners);
  const bound = folioBelow ? folios.footBaseline - CLEARANCE * leading : trim.height - LEAST_FOOT;
  return below <= bound + 0.01 ? 1 : 0;
}

/** A section with an opening and running text. */
function addRunning(collector: Collector): void {
  addOpener(collector);
  collector.leadInWaits = NARRATIVE.has(collector.section.kind);
  addBlocks(collector, collector.section.blocks, collector.column);
}
