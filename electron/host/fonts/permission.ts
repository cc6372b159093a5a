/**
 * What a font's licence bits mean for a book. In: OS/2 fsType (OpenType specification 1.9; FACTS D-15); out: the permission
 * by name, and one sentence for the author.
 */
import type { InstalledFamily } from '#host';
import type { FaceFacts } from './sfnt.ts';

export type Embedding = InstalledFamily['faces'][number]['embedding'];

const NO_SUBSETS = 0x0100;
const BITMAPS_ONLY = 0x0200;

/** The least restrictive of the bits counts where an old font sets several. */
export function embeddingOf(fsType: number): Embedding {
  if (fsType & BITMAPS_ONLY) return 'bitmapOnly';
  if (fsType & 8) return 'editable';
  if (fsType & 4) return 'preview';
  return fsType & 2 ? 'restricted' : 'installable';
}

export function maySubset(fsType: number): boolean {
  return (fsType & NO_SUBSETS) === 0;
}

/** Whether a book can be set in the face. */
export function isUsable({ fsType, plain }: FaceFacts): boolean {
  const embedding = embeddingOf(fsType);
  return plain && embedding !== 'restricted' && embedding !== 'bitmapOnly';
}

/** From the freest to the strictest. */
const STRICTNESS: readonly Embedding[] = ['installable', 'editable', 'preview', 'bitmapOnly', 'restricted'];

const MEANS: Readonly<Record<Embedding, string>> = {
  installable: 'The font says that it may be embedded in print files and ebooks.',
  editable: 'The font says that it may be embedded in print files and ebooks.',
  preview: 'The font says that it may be embedded for reading and printing, which is all that a finished book needs.',
  bitmapOnly: 'The font allows only pictures of its letters to be embedded, so no book can be set in it.',
  restricted: 'The font says that it may not be embedded, so no book can be set in it.',
};

/** The sentence for a family: its strictest face speaks for all. */
export function permissionOf(faces: readonly FaceFacts[]): string {
  if (!faces.some((face) => face.plain)) {
    return 'The font’s letters are pictures, or vary in a form (CFF2) that can’t be embedded, so no book can be set in it.';
  }
  const ranks = faces.map((face) => STRICTNESS.indexOf(embeddingOf(face.fsType)));
  const strictest = STRICTNESS[Math.max(...ranks)] ?? 'restricted';
  const sentence = MEANS[strictest];
  const whole = faces.some((face) => isUsable(face) && !maySubset(face.fsType));
  return whole ? `${sentence} It has to be embedded whole, which makes files larger.` : sentence;
}
