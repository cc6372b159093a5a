/**
 * The conventions of the running order: on which side a section begins, which pages show a folio, where arabic figures
 * begin. Sources: FACTS 6.1 and 6.2 (The Chicago Manual of Style, 17th ed., chapter 1).
 */
import { type EditionView, type SectionKind, schema, type ViewSection } from '#book';
import type { PrintDesign } from '#design';

/** Pages that stand by themselves: no folio, no running head (FACTS O-04). */
const DISPLAY: ReadonlySet<SectionKind> = new Set([
  'halfTitle',
  'alsoBy',
  'frontispiece',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'part',
]);

const ALWAYS_RECTO: ReadonlySet<SectionKind> = new Set([
  'halfTitle',
  'titlePage',
  'dedication',
  'contents',
  'foreword',
  'preface',
  'introduction',
  'afterword',
  'notes',
  'glossary',
  'bibliography',
  'index',
]);

/** Kinds whose verso stays blank. */
const ALONE_ON_LEAF: ReadonlySet<SectionKind> = new Set(['dedication', 'part']);

export function isDisplayPage(kind: SectionKind): boolean {
  return DISPLAY.has(kind);
}

/** Whether a section begins on a recto. `before` is the section that precedes it, `opens` true for the first of the text. */
export function beginsOnRecto(
  section: ViewSection,
  before: ViewSection | null,
  design: PrintDesign,
  opens: boolean,
): boolean {
  if (opens || (before && ALONE_ON_LEAF.has(before.kind) && section.kind !== 'epigraph')) return true;
  switch (section.kind) {
    case 'part':
      return design.recto.parts;
    case 'prologue':
    case 'chapter':
    case 'interlude':
    case 'epilogue':
      return design.recto.chapters;
    case 'acknowledgments':
    case 'appendix':
      return before?.kind !== section.kind;
    default:
      return ALWAYS_RECTO.has(section.kind);
  }
}

/** Index of the section with which arabic page numbers begin: the first of the body, else the first that is no matter. */
export function firstOfText(sections: readonly ViewSection[]): number {
  const body = sections.findIndex((section) => section.matter === 'body');
  if (body >= 0) return body;
  const running = sections.findIndex((section) => !DISPLAY.has(section.kind) && section.kind !== 'contents');
  return Math.max(0, running);
}

/** Whether a contents page names a section: what follows it and has a heading to be found by (FACTS O-12). */
export function isListed(section: ViewSection): boolean {
  if (section.kind === 'part') return true;
  if (section.kind === 'alsoBy' ? section.matter === 'front' : DISPLAY.has(section.kind)) return false;
  if (section.kind === 'contents') return false;
  return section.titleText !== '' || section.number !== null || section.kind === 'notes';
}

/** The section that gathers the notes of a book that has no place for them. */
const NOTES_NODE = schema.nodes.section.create({ id: 'gathered-notes', kind: 'notes' });

/** Sections that may follow a section of notes: it stands before the first of them. */
const AFTER_NOTES: ReadonlySet<SectionKind> = new Set([
  'glossary',
  'bibliography',
  'index',
  'discussion',
  'aboutAuthor',
  'alsoBy',
  'excerpt',
  'colophon',
]);

/** The sections of an edition that gathers its notes: a section for them is added where the book has none. */
export function withNotes(view: EditionView): readonly ViewSection[] {
  const { sections } = view;
  if (view.notes.size === 0) return sections;
  const notes = [...view.notes.values()];
  const own = sections.findIndex((section) => section.kind === 'notes');
  if (own >= 0) return sections.map((section, index) => (index === own ? { ...section, notes } : section));
  const last = sections.findLastIndex((section) => section.notes.length > 0);
  const next = sections.findIndex((section, index) => index > last && AFTER_NOTES.has(section.kind));
  const at = next < 0 ? sections.length : next;
  return [...sections.slice(0, at), gatheredNotes(notes), ...sections.slice(at)];
}

function gatheredNotes(notes: ViewSection['notes']): ViewSection {
  return {
    id: String(NOTES_NODE.attrs['id']),
    kind: 'notes',
    matter: 'back',
    node: NOTES_NODE,
    title: null,
    subtitle: null,
    blocks: [],
    number: null,
    label: null,
    needsLabel: false,
    part: null,
    titleText: '',
    generated: true,
    notes,
  };
}
