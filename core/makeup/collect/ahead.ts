/**
 * The running text of a section, read before the section is collected, so that its words are shaped on another thread
 * meanwhile. In: a section; out: the setter knows the styled texts that collecting will ask for. One that is set otherwise
 * after all was read for nothing, and no harm done.
 */
import type { Node } from 'prosemirror-model';
import type { NoteId } from '#base';
import type { ViewSection } from '#book';
import type { StyledText } from '#paragraph';
import type { TextLook } from '../styler.ts';
import type { Workshop } from '../workshop.ts';

/** In which look a section was read last. */
const read = new WeakMap<Node, TextLook>();

/** Reads a section ahead, unless that has been done. */
export function readAhead(shop: Workshop, section: ViewSection): void {
  const look = shop.styler.textLook(shop.design.text);
  if (read.get(section.node) === look) return;
  read.set(section.node, look);
  shop.setter.readAhead(textsOf(shop, section));
}

function* textsOf(shop: Workshop, section: ViewSection): Generator<StyledText, void> {
  const { text: look } = shop.design;
  const numbers = new Map(section.notes.map((note) => [note.id, note.number]));
  const numberOf = (note: NoteId): number => numbers.get(note) ?? 0;
  for (const node of section.blocks) {
    const isRunning = node.type.name === 'paragraph' && node.attrs['align'] === null;
    if (isRunning) yield shop.spans.of({ node, look, numberOf, leadIn: null });
  }
}
