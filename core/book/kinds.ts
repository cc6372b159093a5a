/**
 * The kinds of section that a book is made of, and where each belongs.
 *
 * Order and division follow the outline of the parts of a book in The Chicago Manual of Style, 17th ed., 1.4; prologue
 * and epilogue are part of the narrative and so of the body (EPUB Structural Semantics Vocabulary 1.1).
 */

export type Matter = 'front' | 'body' | 'back';

export const SECTION_KINDS = [
  'halfTitle',
  'alsoBy',
  'frontispiece',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'contents',
  'foreword',
  'preface',
  'acknowledgments',
  'introduction',
  'prologue',
  'part',
  'chapter',
  'interlude',
  'epilogue',
  'afterword',
  'appendix',
  'notes',
  'glossary',
  'bibliography',
  'index',
  'discussion',
  'aboutAuthor',
  'excerpt',
  'colophon',
  'note',
  'other',
] as const;

export type SectionKind = (typeof SECTION_KINDS)[number];

const FRONT: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'halfTitle',
  'frontispiece',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'contents',
  'foreword',
  'preface',
  'introduction',
]);

const BODY: ReadonlySet<SectionKind> = new Set<SectionKind>(['prologue', 'part', 'chapter', 'interlude', 'epilogue']);

/**
 * The division that a kind belongs to, or null for kinds at home in more than one (`alsoBy`, `acknowledgments`, `note`,
 * `other`): those belong where they stand.
 */
export function matterOf(kind: SectionKind): Matter | null {
  if (FRONT.has(kind)) return 'front';
  if (BODY.has(kind)) return 'body';
  if (kind === 'alsoBy' || kind === 'acknowledgments' || kind === 'note' || kind === 'other') return null;
  return 'back';
}

export function isSectionKind(value: unknown): value is SectionKind {
  return typeof value === 'string' && (SECTION_KINDS as readonly string[]).includes(value);
}
