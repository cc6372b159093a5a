/**
 * The files of the text, before any is written. In: a view; out: which section goes into which file, in spine order, and
 * where each block, note and reference stands.
 */
import type { Node } from 'prosemirror-model';
import type { EditionView, SectionKind, ViewNote, ViewSection } from '#book';
import { sectionFileNames } from './names.ts';

export type PlannedFile =
  | { readonly kind: 'section'; readonly name: string; readonly section: ViewSection }
  /** The nav document, standing in for the contents that the edition makes by itself. */
  | { readonly kind: 'contents'; readonly section: ViewSection }
  /** Notes of the whole book where no section is there to hold them. */
  | { readonly kind: 'notes'; readonly name: string };

/** The nav document as seen from the text folder. */
export const NAV_FROM_TEXT = '../nav.xhtml';

export interface Plan {
  readonly files: readonly PlannedFile[];
  /** The file that holds all notes, or null where they stand with their sections. */
  readonly notesFile: string | null;
  readonly fileOf: (id: string) => string | undefined;
  readonly noteFileOf: (note: ViewNote) => string;
  readonly referenceFileOf: (note: ViewNote) => string;
}

export function planFiles(view: EditionView): Plan {
  const contents = view.sections.find((section) => section.kind === 'contents' && section.generated);
  const written = view.sections.filter((section) => section !== contents && !isEmpty(section));
  const names = sectionFileNames(written.map((section) => section.kind));
  const nameOf = new Map(written.map((section, index) => [section.id, names[index] ?? '']));
  const files: PlannedFile[] = view.sections.flatMap((section): readonly PlannedFile[] => {
    if (section === contents) return [{ kind: 'contents', section }];
    const name = nameOf.get(section.id);
    return name === undefined ? [] : [{ kind: 'section', name, section }];
  });
  const notesFile = placeNotes(view, written, nameOf, files);
  return { files, notesFile, ...placesOf(view, { nameOf, notesFile, contents }) };
}

/** A section that would be an empty screen, such as a part of the manuscript that this edition holds nothing of. */
function isEmpty(section: ViewSection): boolean {
  if (section.generated || section.matter === 'body' || section.kind === 'notes') return false;
  return section.blocks.length === 0 && section.title === null && section.subtitle === null && section.number === null;
}

/** Back matter that a notes section follows (The Chicago Manual of Style, 17th ed., 1.4). */
const BEFORE_NOTES: ReadonlySet<SectionKind> = new Set<SectionKind>(['afterword', 'acknowledgments', 'appendix']);

/** Finds or makes room for the notes of the whole book; null where the edition puts them elsewhere or has none. */
function placeNotes(
  view: EditionView,
  written: readonly ViewSection[],
  nameOf: ReadonlyMap<string, string>,
  files: PlannedFile[],
): string | null {
  if (view.edition.notes !== 'book' || view.notes.size === 0) return null;
  const own = written.find((section) => section.kind === 'notes');
  if (own) return nameOf.get(own.id) ?? null;
  const name = 'endnotes.xhtml';
  const later = files.findIndex(
    (file) => file.kind === 'section' && file.section.matter === 'back' && !BEFORE_NOTES.has(file.section.kind),
  );
  files.splice(later < 0 ? files.length : later, 0, { kind: 'notes', name });
  return name;
}

interface Names {
  readonly nameOf: ReadonlyMap<string, string>;
  readonly notesFile: string | null;
  readonly contents: ViewSection | undefined;
}

function placesOf(view: EditionView, names: Names): Pick<Plan, 'fileOf' | 'noteFileOf' | 'referenceFileOf'> {
  const { nameOf, notesFile, contents } = names;
  const sectionFile = (section: string): string => nameOf.get(section) ?? '';
  // Few books link to places inside themselves, so the blocks are looked through only when one does.
  let blocks: ReadonlyMap<string, string> | null = null;
  let nested: ReadonlySet<string> | null = null;
  return {
    fileOf: (id) => {
      if (contents?.id === id) return NAV_FROM_TEXT;
      blocks ??= filesOfBlocks(view, names);
      return nameOf.get(id) ?? blocks.get(id);
    },
    noteFileOf: (note) => notesFile ?? sectionFile(note.section),
    referenceFileOf: (note) => {
      nested ??= notesInNotes(view);
      return notesFile !== null && nested.has(note.id) ? notesFile : sectionFile(note.section);
    },
  };
}

function filesOfBlocks(view: EditionView, { nameOf, notesFile }: Names): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const visit = (node: Node, file: string): void => {
    const inside = node.type.name === 'note' && notesFile !== null ? notesFile : file;
    const id: unknown = node.attrs['id'];
    if (typeof id === 'string' && id !== '') files.set(id, inside);
    for (const child of node.children) visit(child, inside);
  };
  for (const section of view.sections) {
    const file = nameOf.get(section.id);
    if (file !== undefined) visit(section.node, file);
  }
  return files;
}

function notesInNotes(view: EditionView): ReadonlySet<string> {
  const nested = new Set<string>();
  for (const note of view.notes.values()) {
    note.node.descendants((node) => {
      if (node.type.name === 'note') nested.add(String(node.attrs['id']));
      return true;
    });
  }
  return nested;
}
