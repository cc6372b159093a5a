/**
 * Outlines ready to be filled. In: the worker's outlines; out: a Path2D for each face and glyph, made when it is first
 * asked for, with the box of its ink.
 */
import type { FaceId, GlyphId } from '#base';
import type { OutlinesReply } from './messages.ts';

/** Font units, y up. */
export interface GlyphShape {
  readonly path: Path2D;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

export interface FaceShapes {
  readonly unitsPerEm: number;
  /** The shape of a glyph; null for one that shows nothing or has not arrived. */
  shape(glyph: GlyphId): GlyphShape | null;
}

class Face implements FaceShapes {
  private readonly data = new Map<GlyphId, string>();
  private readonly shapes = new Map<GlyphId, GlyphShape | null>();

  constructor(readonly unitsPerEm: number) {}

  add(glyph: GlyphId, path: string): void {
    this.data.set(glyph, path);
    this.shapes.delete(glyph);
  }

  shape(glyph: GlyphId): GlyphShape | null {
    let shape = this.shapes.get(glyph);
    if (shape === undefined) {
      shape = shapeOf(this.data.get(glyph) ?? '');
      this.shapes.set(glyph, shape);
    }
    return shape;
  }
}

export class GlyphShapes {
  private readonly faces = new Map<FaceId, Face>();

  add({ face: id, unitsPerEm, glyphs, paths }: OutlinesReply): void {
    let face = this.faces.get(id);
    if (!face) {
      face = new Face(unitsPerEm);
      this.faces.set(id, face);
    }
    for (const [at, glyph] of glyphs.entries()) face.add(glyph, paths[at] ?? '');
  }

  face(id: FaceId): FaceShapes | null {
    return this.faces.get(id) ?? null;
  }
}

/** The box holds the control points too: somewhat large, never small. */
function shapeOf(data: string): GlyphShape | null {
  const box = boxOf(data);
  return box ? { path: new Path2D(data), ...box } : null;
}

/** The box of path data with absolute commands of x, y pairs (M, L, Q, C), as HarfBuzz draws them; null for none. */
export function boxOf(data: string): Omit<GlyphShape, 'path'> | null {
  let [left, bottom, right, top] = [Infinity, Infinity, -Infinity, -Infinity];
  let vertical = false;
  for (const [token] of data.matchAll(/[A-Za-z]|-?\d*\.?\d+(?:e-?\d+)?/g)) {
    const value = Number(token);
    if (Number.isNaN(value)) {
      if (!'MLQCZ'.includes(token)) throw new RangeError(`unexpected path command ${token}`);
      vertical = false;
      continue;
    }
    if (vertical) {
      bottom = Math.min(bottom, value);
      top = Math.max(top, value);
    } else {
      left = Math.min(left, value);
      right = Math.max(right, value);
    }
    vertical = !vertical;
  }
  return left <= right && bottom <= top ? { left, bottom, right, top } : null;
}
