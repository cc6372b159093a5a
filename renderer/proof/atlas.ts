/**
 * Glyphs drawn once and stamped many times. In: a face, a glyph and where its pen falls between two pixels; out: the place
 * of its picture on a sheet. A page of text is some two thousand glyphs of a hundred shapes, and a stamp costs a small part
 * of filling an outline.
 */
import type { FaceId, GlyphId } from '#base';
import type { FaceShapes, GlyphShape, GlyphShapes } from '../worker/index.ts';

/** Pens fall on quarters of a pixel: nearer than an eye can tell, and few enough pictures. */
export const PHASES = 4;

/** Pixels along a sheet's side, and sheets before all begin anew. */
const SIDE = 1024;
const MOST_SHEETS = 8;

/** Room around a picture, for the softened edge. */
const EDGE = 1;

/** A glyph larger than this is filled as an outline: it is rare, and its picture would take much room. */
const LARGEST = 96;

export interface Stamp {
  readonly sheet: OffscreenCanvas;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** From the whole pixel of the pen to the picture's left and top. */
  readonly left: number;
  readonly top: number;
}

/** One face at one size and width. */
export interface FaceStamps {
  readonly shapes: FaceShapes;
  /** Pixels to a font unit, across and down. */
  readonly across: number;
  readonly down: number;
  /** By glyph and phases; null for a glyph without ink, `large` for one to be filled as an outline. */
  readonly stamps: Map<number, Stamp | 'large' | null>;
}

interface Sheet {
  readonly canvas: OffscreenCanvas;
  readonly context: OffscreenCanvasRenderingContext2D;
}

/** The number of a glyph at its phases. */
export function stampKey(glyph: GlyphId, phaseX: number, phaseY: number): number {
  return (glyph * PHASES + phaseX) * PHASES + phaseY;
}

export class GlyphAtlas {
  private faces = new Map<string, FaceStamps>();
  private sheets: Sheet[] = [];
  private x = 0;
  private y = 0;
  private shelf = 0;

  constructor(private readonly shapes: GlyphShapes) {}

  /**
   * A face's pictures at a size. Widths differ by half a per cent at least: lines that are set a little narrower or wider
   * share their pictures.
   * @param size pixels to the em.
   */
  face(id: FaceId, size: number, width: number): FaceStamps | null {
    const narrow = Math.round(width * 200) / 200;
    const key = `${id} ${size.toFixed(3)} ${narrow}`;
    const known = this.faces.get(key);
    if (known) return known;
    const shapes = this.shapes.face(id);
    if (!shapes) return null;
    const down = size / shapes.unitsPerEm;
    const made: FaceStamps = { shapes, across: down * narrow, down, stamps: new Map() };
    this.faces.set(key, made);
    return made;
  }

  /** The outlines of a face; null while none has arrived. */
  shapesOf(id: FaceId): FaceShapes | null {
    return this.shapes.face(id);
  }

  /** Draws a picture that is not there yet. Do this for all glyphs before stamping any: sheets are slow to change in use. */
  prepare(face: FaceStamps, glyph: GlyphId, phaseX: number, phaseY: number): void {
    const key = stampKey(glyph, phaseX, phaseY);
    if (face.stamps.has(key)) return;
    const shape = face.shapes.shape(glyph);
    face.stamps.set(key, shape && this.draw(shape, face, phaseX / PHASES, phaseY / PHASES));
  }

  /** Forgets all pictures, where there are too many. Call it between pages. */
  tidy(): void {
    if (this.sheets.length <= MOST_SHEETS) return;
    this.clear();
  }

  /** Forgets all pictures: outlines have changed. */
  clear(): void {
    this.faces = new Map();
    this.sheets = [];
    this.x = this.y = this.shelf = 0;
  }

  private draw(shape: GlyphShape, { across, down }: FaceStamps, dx: number, dy: number): Stamp | 'large' {
    const left = Math.floor(shape.left * across + dx) - EDGE;
    const right = Math.ceil(shape.right * across + dx) + EDGE;
    const top = Math.floor(dy - shape.top * down) - EDGE;
    const bottom = Math.ceil(dy - shape.bottom * down) + EDGE;
    const [width, height] = [right - left, bottom - top];
    if (width > LARGEST || height > LARGEST) return 'large';
    const { sheet, x, y } = this.room(width, height);
    sheet.context.setTransform(across, 0, 0, -down, x - left + dx, y - top + dy);
    sheet.context.fill(shape.path);
    return { sheet: sheet.canvas, x, y, width, height, left, top };
  }

  /** A free place: pictures stand in rows as high as the highest of each. */
  private room(width: number, height: number): { readonly sheet: Sheet; readonly x: number; readonly y: number } {
    if (this.x + width > SIDE) {
      this.x = 0;
      this.y += this.shelf;
      this.shelf = 0;
    }
    if (this.sheets.length === 0 || this.y + height > SIDE) {
      this.sheets.push(newSheet());
      this.x = this.y = this.shelf = 0;
    }
    const place = { sheet: this.sheets.at(-1)!, x: this.x, y: this.y };
    this.x += width;
    this.shelf = Math.max(this.shelf, height);
    return place;
  }
}

function newSheet(): Sheet {
  const canvas = new OffscreenCanvas(SIDE, SIDE);
  const context = canvas.getContext('2d');
  if (!context) throw new RangeError('a canvas without a 2D context');
  return { canvas, context };
}
