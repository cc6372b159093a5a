/** Counts what the reader dropped or could not take, and says it once for each kind in plain words. */
import type { Remark } from '../raw.ts';

const MESSAGES = {
  'tracked-insertion': 'Tracked insertions were accepted.',
  'tracked-deletion': 'Tracked deletions were left out.',
  comment: 'Comments were left out.',
  'hidden-text': 'Hidden text was left out.',
  'header-footer': 'Headers and footers were left out; the book makes its own running heads and folios.',
  'unknown-symbol': 'Symbols of a pictorial font have no known character; each stands as \uFFFD in the text.',
  equation: 'Equations were taken as plain text and have lost their layout.',
  ruby: 'Reading aids beside characters (ruby) were left out.',
  'embedded-object': 'Embedded objects can only be taken as pictures.',
  drawing: 'Drawings such as charts and diagrams could not be taken.',
  'unusable-image': 'Pictures in a format that books cannot carry (EMF, WMF, TIFF, BMP or unknown) were left out.',
  'oversized-image': 'Pictures too large to handle were left out.',
  'missing-image': 'Pictures are missing from the file.',
  'linked-image': 'Pictures that the file only links to were left out.',
  'missing-note': 'Notes are referred to but missing from the file.',
  'unsafe-link': 'Links to scripts or local files were taken as plain text.',
  'file-properties': 'The title and author noted in the file could not be read.',
  'embedded-document': 'Documents embedded in the file were left out.',
} as const;

export type RemarkKind = keyof typeof MESSAGES;

export class Remarks {
  private readonly counts = new Map<RemarkKind, number>();

  add(kind: RemarkKind, times = 1): void {
    if (times > 0) this.counts.set(kind, (this.counts.get(kind) ?? 0) + times);
  }

  /** In the order of first appearance. */
  list(): readonly Remark[] {
    return [...this.counts].map(([kind, count]) => ({ kind, count, message: MESSAGES[kind] }));
  }
}
