/**
 * Text shaped in the faces that it needs. In: a fount and characters without spaces; out: stretches of one face each (the
 * fount's own, or a fallback for what it lacks), parted also where no ligature may tie, and their width.
 */
import type { FontFace, Shaped } from '#type';
import type { Fount } from './fount.ts';

/** A stretch of a word in one face. */
export interface Segment {
  readonly face: FontFace;
  /** Text sizes to a font unit of this face. */
  readonly scale: number;
  readonly shaped: Shaped;
  /** Offset of the stretch in the word's text. */
  readonly from: number;
}

/** A character that no face has, and its offset in the text. */
export interface Lack {
  readonly codePoint: number;
  readonly at: number;
}

/** Shapes text of one direction, in other faces where the fount's own lacks characters. */
export function segmentsOf(fount: Fount, text: string, leftward: boolean, missing: Lack[] | null): readonly Segment[] {
  const setting = leftward ? fount.rightToLeft : fount.setting;
  if (hasAll(fount.face, text)) {
    const { face, scale } = fount;
    const starts = [0, ...fount.jointsIn(text)];
    return starts.map((from, index) => {
      return { face, scale, shaped: face.shape(text.slice(from, starts[index + 1]), setting), from };
    });
  }
  return facesOf(fount, text, missing).map(({ face, from, to }) => ({
    face,
    scale: fount.style.size / face.unitsPerEm,
    shaped: face.shape(text.slice(from, to), setting),
    from,
  }));
}

function hasAll(face: FontFace, text: string): boolean {
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    const high = unit >= 0xd800 && unit < 0xdc00;
    if (!face.has(high ? text.codePointAt(i)! : unit)) return false;
    if (high) i++;
  }
  return true;
}

const CLUSTER = /\P{M}(?:\p{M}|\u200d)*/gu;

/** Parts a text by face: a base and its marks stay together. */
function facesOf(fount: Fount, text: string, missing: Lack[] | null): { face: FontFace; from: number; to: number }[] {
  const stretches: { face: FontFace; from: number; to: number }[] = [];
  for (const { 0: cluster, index } of text.matchAll(CLUSTER)) {
    let face = [fount.face, ...fount.fallbacks].find((candidate) => hasAll(candidate, cluster));
    if (!face) {
      face = fount.face;
      for (const character of cluster) {
        const codePoint = character.codePointAt(0)!;
        if (!face.has(codePoint)) missing?.push({ codePoint, at: index });
      }
    }
    const last = stretches.at(-1);
    if (last && last.face === face) last.to = index + cluster.length;
    else stretches.push({ face, from: last ? index : 0, to: index + cluster.length });
  }
  return stretches.length > 0 ? stretches : [{ face: fount.face, from: 0, to: text.length }];
}

/** Width of segments with letterspacing after each cluster. */
export function widthOf(fount: Fount, segments: readonly Segment[]): number {
  let width = 0;
  for (const { shaped, scale } of segments) {
    width += shaped.width * scale;
    if (fount.tracking !== 0) width += fount.tracking * clusterCount(shaped);
  }
  return width;
}

function clusterCount({ clusters }: Shaped): number {
  let count = 0;
  for (let i = 0; i < clusters.length; i++) if (clusters[i] !== clusters[i + 1]) count++;
  return count;
}
