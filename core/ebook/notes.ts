/**
 * Notes at the end of a section or of the book, linked with their references in both directions. A list item for each
 * (the vocabularies have withdrawn `endnote` and `doc-endnote`: FACTS 2.3).
 */
import { sectionName, type ViewNote } from '#book';
import { renderBlocks } from './blocks.ts';
import type { FileContext } from './context.ts';
import { referenceIdOf } from './inline.ts';
import { attributes, escapeText } from './xml.ts';

/** The notes of one section as a section of its own, '' where there are none. */
export function renderSectionNotes(notes: readonly ViewNote[], file: FileContext, rank: number): string {
  if (notes.length === 0) return '';
  const { language } = file.book;
  const title = escapeText(sectionName('notes', language));
  const values = attributes({
    class: 'notes',
    'epub:type': 'endnotes',
    role: 'doc-endnotes',
    'aria-labelledby': 'x-notes',
  });
  return `<section${values}>\n<h${rank} id="x-notes">${title}</h${rank}>\n${renderNoteList(notes, file, rank + 1)}</section>\n`;
}

/** The list itself. `rank` is that of a subhead inside a note. */
export function renderNoteList(notes: readonly ViewNote[], file: FileContext, rank: number): string {
  let out = '';
  let expected = 1;
  for (const note of notes) {
    const value = note.number === expected ? '' : ` value="${note.number}"`;
    expected = note.number + 1;
    out += `<li${file.idAttribute(note.id)}${value}>\n${renderNote(note, file, rank)}</li>\n`;
  }
  return `<ol>\n${out}</ol>\n`;
}

function renderNote(note: ViewNote, file: FileContext, rank: number): string {
  const body = renderBlocks(note.node.children, file, { opens: false, rank });
  const link = attributes({
    class: 'backlink',
    'epub:type': 'backlink',
    role: 'doc-backlink',
    href: `${backTo(note, file)}#${referenceIdOf(note.id)}`,
    'aria-label': file.book.words.backTo(note.number),
  });
  const arrow = ` <a${link}>\u2191</a>`;
  const lastParagraph = body.endsWith('</p>\n');
  return lastParagraph ? `${body.slice(0, -5)}${arrow}</p>\n` : `${body}<p>${arrow.trim()}</p>\n`;
}

function backTo(note: ViewNote, file: FileContext): string {
  const target = file.book.referenceFileOf(note);
  return target === file.name ? '' : target;
}
