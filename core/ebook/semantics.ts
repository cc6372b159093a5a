/**
 * What a section of each kind is to a reading system: its `epub:type` (EPUB 3 Structural Semantics Vocabulary 1.1) and
 * its role (Digital Publishing WAI-ARIA Module 1.1, on the elements that the EPUB Type to ARIA Role Authoring Guide
 * names). A kind that the vocabularies have no word for gets none.
 */
import type { Matter, SectionKind } from '#book';

export interface Semantics {
  readonly type: string | null;
  readonly role: string | null;
  /** The element that carries them: `doc-epigraph` may not stand on a `section`. */
  readonly element: 'section' | 'div';
}

function known(
  type: string,
  role: string | null = `doc-${type}`,
  element: Semantics['element'] = 'section',
): Semantics {
  return { type, role, element };
}

const NONE: Semantics = { type: null, role: null, element: 'section' };

const SEMANTICS: Readonly<Record<SectionKind, Semantics>> = {
  halfTitle: known('halftitlepage', null),
  alsoBy: NONE,
  frontispiece: NONE,
  titlePage: known('titlepage', null),
  copyright: known('copyright-page', null),
  dedication: known('dedication'),
  epigraph: known('epigraph', 'doc-epigraph', 'div'),
  contents: known('toc'),
  foreword: known('foreword'),
  preface: known('preface'),
  acknowledgments: known('acknowledgments'),
  introduction: known('introduction'),
  prologue: known('prologue'),
  part: known('part'),
  chapter: known('chapter'),
  interlude: NONE,
  epilogue: known('epilogue'),
  afterword: known('afterword'),
  appendix: known('appendix'),
  notes: known('endnotes'),
  glossary: known('glossary'),
  bibliography: known('bibliography'),
  index: known('index'),
  discussion: NONE,
  aboutAuthor: NONE,
  // No `chapter`: it belongs to another book and must not count as one of this book's.
  excerpt: NONE,
  colophon: known('colophon'),
  note: NONE,
  other: NONE,
};

export function semanticsOf(kind: SectionKind): Semantics {
  return SEMANTICS[kind];
}

/** The division of the book, on `body`. */
export function divisionOf(matter: Matter): 'frontmatter' | 'bodymatter' | 'backmatter' {
  return `${matter}matter`;
}
