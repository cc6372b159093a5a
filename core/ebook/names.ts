/**
 * Names inside the container: file names that EPUB 3.3 allows (OCF, "File paths and file names") and element ids that
 * are XML names. In: kinds, ids and labels from the book; out: names that cannot clash.
 */
import type { SectionKind } from '#book';

/** Where everything but the container's own files stands. */
export const ROOT = 'EPUB';

const PLAIN = /^[A-Za-z][A-Za-z0-9.-]*$/;

/**
 * The element id of a block, section or note: the block's own id where that is an XML name that this room does not use
 * itself (its own names begin with `x-`), else a spelling of it that no other id can have.
 */
export function elementIdOf(id: string): string {
  if (PLAIN.test(id) && !id.startsWith('x-')) return id;
  return `_${id.replace(/[^A-Za-z0-9.-]/gu, (character) => `_${character.codePointAt(0)?.toString(16)}_`)}`;
}

/** Kinds of which a book has many, so that they are counted in file names even when there is one. */
const COUNTED: ReadonlySet<SectionKind> = new Set<SectionKind>(['part', 'chapter', 'interlude']);

/**
 * One file name a section: the kind in lower-case words, counted where a book has several (`chapter-04.xhtml`,
 * `title-page.xhtml`). ASCII letters, digits and hyphens only.
 */
export function sectionFileNames(kinds: readonly SectionKind[]): readonly string[] {
  const totals = new Map<SectionKind, number>();
  for (const kind of kinds) totals.set(kind, (totals.get(kind) ?? 0) + 1);
  const counts = new Map<SectionKind, number>();
  return kinds.map((kind) => {
    const count = (counts.get(kind) ?? 0) + 1;
    counts.set(kind, count);
    const total = totals.get(kind) ?? 1;
    const stem = kind.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
    if (total === 1 && !COUNTED.has(kind)) return `${stem}.xhtml`;
    return `${stem}-${String(count).padStart(Math.max(2, String(total).length), '0')}.xhtml`;
  });
}

/** A file name made of a name that a person or a font gave: ASCII only, nothing that OCF forbids. */
export function safeFileName(name: string): string {
  const kept = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[.-]+|[.-]+$/g, '')
    .slice(-100);
  return kept === '' ? 'file' : kept;
}
