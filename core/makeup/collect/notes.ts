/**
 * Collects notes: for the foot of the page, in smaller type on lines of their own, or for the end of a chapter or the
 * book, as paragraphs of the text block.
 */
import type { Node } from 'prosemirror-model';
import type { NoteId } from '#base';
import { sectionName, type ViewNote } from '#book';
import type { Look } from '#design';
import type { SingleLine } from '#paragraph';
import { type Flow, type Footnote, lineRow, type Row } from '../flow.ts';
import type { Workshop } from '../workshop.ts';
import { addBlocks } from './blocks.ts';
import { type CollectContext, Collector, type Column } from './collector.ts';
import { once } from './once.ts';
import { literalRows } from './opener.ts';
import { Together } from './rows.ts';

/** Between a note's figure and its text, in ems. */
const FIGURE_GAP = 0.35;

/** Notes that belong to one section, and what it is called. */
export interface NoteGroup {
  readonly name: string;
  readonly notes: readonly ViewNote[];
}

/** The notes of a section as they stand at the foot of pages. */
export function footnotesOf(collector: Collector, context: CollectContext): ReadonlyMap<NoteId, Footnote> {
  const notes = new Map<NoteId, Footnote>();
  const look = collector.design.notes.look;
  for (const note of context.section.notes) {
    const { rows, missing, overfull } = setNote(context, note, look);
    collector.missing.push(...missing);
    collector.overfull.push(...overfull);
    notes.set(note.id, { id: note.id, rows });
  }
  return withNested(notes);
}

interface SetNote extends Pick<Flow, 'missing' | 'overfull'> {
  readonly number: number;
  readonly rows: readonly Row[];
}

const setNotes = new WeakMap<Workshop, WeakMap<Node, SetNote>>();

/** A note's rows: the very same as long as it and its number stay, so that the pages with them are known again. */
function setNote(context: CollectContext, note: ViewNote, look: Look): SetNote {
  const known = setNotes.get(context.shop) ?? new WeakMap<Node, SetNote>();
  setNotes.set(context.shop, known);
  const before = known.get(note.node);
  if (before?.number === note.number) return before;
  const inner = new Collector(context);
  addNote(inner, note, { ...inner.column, look }, superiorFigure(inner, note, look));
  const { missing, overfull, items } = inner;
  const made = { number: note.number, rows: items.flatMap((item) => item.rows), missing, overfull };
  if (isPlain(note.node)) known.set(note.node, made);
  return made;
}

/** Whether a note says the same wherever it stands: it has neither notes of its own nor pictures. */
function isPlain(note: Node): boolean {
  let plain = true;
  note.descendants((node) => {
    if (node.type.name === 'note' || node.type.name === 'figure') plain = false;
    return plain;
  });
  return plain;
}

/** A note that is referred to inside another one stands below it. */
function withNested(notes: ReadonlyMap<NoteId, Footnote>): ReadonlyMap<NoteId, Footnote> {
  const whole = (note: Footnote): readonly Row[] => {
    const inner = note.rows.flatMap((row) => row.notes.map((id) => notes.get(id)).filter((each) => each !== undefined));
    return inner.length === 0 ? note.rows : [...note.rows, ...inner.flatMap(whole)];
  };
  return new Map([...notes.values()].map((note) => [note.id, { id: note.id, rows: whole(note) }]));
}

/** The notes of a section below its text. */
export function addEndNotes(collector: Collector): void {
  const { section, design, shop } = collector;
  if (section.notes.length === 0) return;
  collector.white(2);
  addNotesHeading(collector, sectionName('notes', shop.language));
  collector.white(1);
  for (const note of section.notes) addEndNote(collector, note, design.quotation.look);
}

function addNotesHeading(collector: Collector, name: string): void {
  const look = collector.design.subheads[1];
  collector.addRows(literalRows(collector, name, look, look.align === 'justify' ? 'start' : look.align));
}

/** In a list of notes the figure is as large as the text, with a full stop (The Chicago Manual of Style; from memory). */
function addEndNote(collector: Collector, note: ViewNote, look: Look): void {
  const figure = collector.shop.line(`${note.number}.`, look, String(note.id));
  addNote(collector, note, { ...collector.column, look }, figure);
}

/** The notes of the whole book, under the names of their sections. */
export function addBookNotes(collector: Collector, groups: readonly NoteGroup[]): void {
  const { design } = collector;
  for (const group of groups) {
    collector.white(1);
    addNotesHeading(collector, group.name);
    for (const note of group.notes) addEndNote(collector, note, design.quotation.look);
  }
}

/** A note: its figure before the first line, its blocks as they are. */
function addNote(collector: Collector, note: ViewNote, column: Column, figure: SingleLine): void {
  const from = collector.items.length;
  collector.nextIndent = figure.width + column.look.size * FIGURE_GAP;
  collector.flush = true;
  addBlocks(collector, blocksOf(note.node), column);
  collector.nextIndent = null;
  for (let index = from; index < collector.items.length; index++) {
    const item = collector.items[index];
    const first = item?.rows[0];
    if (!item || first?.kind !== 'line' || !first.paint) continue;
    const parts = [
      { paint: once(figure), x: column.left, y: 0 },
      { paint: first.paint, x: 0, y: 0 },
    ];
    const marked: Row = lineRow({ ...first, paint: new Together(parts) });
    collector.items[index] = { rows: [marked, ...item.rows.slice(1)], demerits: item.demerits, variants: null };
    return;
  }
}

/** At the foot of the page the figure is the one in the text. */
function superiorFigure(collector: Collector, note: ViewNote, look: Look): SingleLine {
  const style = collector.shop.styler.noteMark(look);
  const text = String(note.number);
  const spans = [{ kind: 'text', text, offset: 0, style, href: null }] as const;
  return collector.shop.setter.line({ block: String(note.id), spans }, look.size);
}

function blocksOf(node: Node): readonly Node[] {
  return node.children;
}
