/**
 * The display list on a canvas. In: a page and where it lies, in device pixels; out: its ink. Takes no decisions: whatever
 * the list says is painted in its order, as the PDF writer does it.
 */
import { type AssetId, assertNever } from '#base';
import type { GlyphRun, ImageItem, Page, PageItem, PathItem, RuleItem } from '#page';
import { type FaceStamps, type GlyphAtlas, PHASES, stampKey } from './atlas.ts';
import type { Strip } from './strips.ts';

export type Context = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/** Where a page's top left corner lies, and how many device pixels a point takes. */
export interface PagePlace {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** Pictures of the book; null for one that has not arrived. */
export type PictureOf = (asset: AssetId) => CanvasImageSource | null;

export class PagePainter {
  private readonly paths = new Map<string, Path2D>();

  constructor(
    private readonly atlas: GlyphAtlas,
    private readonly pictureOf: PictureOf,
  ) {}

  /** Paints the ink of a page. The paper is the caller's. */
  paint(context: Context, page: Page, place: PagePlace): void {
    this.atlas.tidy();
    this.paintItems(context, page, page.items, place);
  }

  /** Paints the ink of strips across the page anew, where before it was clean or had other ink. `place.x` is whole. */
  paintStrips(context: Context, page: Page, place: PagePlace, strips: readonly Strip[]): void {
    this.atlas.tidy();
    const reaches = page.items.map((item) => this.reachOf(page, item));
    const parts = strips.map((strip) => {
      const { first, last } = rowsOf(strip, place);
      const [above, below] = [(first - 1 - place.y) / place.scale, (last + 1 - place.y) / place.scale];
      const items = page.items.filter((_, at) => {
        const reach = reaches[at];
        return reach && reach.top < below && reach.bottom > above;
      });
      return { first, last, items };
    });
    // All pictures before any stamp: a sheet that has been stamped from is slow to change.
    for (const { items } of parts) this.prepared(page, items, place, context.canvas.height);
    for (const { first, last, items } of parts) {
      const { width } = context.canvas;
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.clearRect(0, first, width, last - first);
      context.save();
      context.beginPath();
      context.rect(0, first, width, last - first);
      context.clip();
      this.paintItems(context, page, items, place);
      context.restore();
    }
  }

  /** How far the ink of an item reaches above and below; null for one without ink. */
  readonly reachOf = (page: Page, item: PageItem): Strip | null => {
    if (item.kind === 'link') return null;
    if (item.kind !== 'glyphs') return { top: item.y, bottom: item.y + item.height };
    const shapes = this.atlas.shapesOf(item.face);
    if (!shapes) return null;
    let [up, down] = [-Infinity, -Infinity];
    for (let at = item.start; at < item.start + item.count; at++) {
      const shape = shapes.shape(page.glyphs[at]!);
      if (!shape) continue;
      const fall = page.offsets?.[at * 2 + 1] ?? 0;
      up = Math.max(up, (shape.top / shapes.unitsPerEm) * item.size - fall);
      down = Math.max(down, (-shape.bottom / shapes.unitsPerEm) * item.size + fall);
    }
    return up === -Infinity ? null : { top: item.y - up, bottom: item.y + down };
  };

  private paintItems(context: Context, page: Page, items: readonly PageItem[], place: PagePlace): void {
    const runs = this.prepared(page, items, place, context.canvas.height);
    context.setTransform(1, 0, 0, 1, 0, 0);
    for (const item of items) {
      switch (item.kind) {
        case 'glyphs': {
          const face = runs.get(item);
          if (face) this.run(context, page, item, face, place);
          break;
        }
        case 'rule':
          this.rule(context, item, place);
          break;
        case 'path':
          this.path(context, item, place);
          break;
        case 'image':
          this.image(context, item, place);
          break;
        case 'link':
          break;
        default:
          assertNever(item);
      }
    }
    context.globalAlpha = 1;
  }

  /** The runs in view with their faces, whose pictures are all there. */
  private prepared(
    page: Page,
    items: readonly PageItem[],
    place: PagePlace,
    height: number,
  ): ReadonlyMap<GlyphRun, FaceStamps> {
    const runs = new Map<GlyphRun, FaceStamps>();
    for (const item of items) {
      const face = item.kind === 'glyphs' && isInView(item, place, height) ? this.faceOf(item, place) : null;
      if (item.kind !== 'glyphs' || !face) continue;
      runs.set(item, face);
      this.prepare(page, item, face, place);
    }
    return runs;
  }

  private faceOf(run: GlyphRun, { scale }: PagePlace): FaceStamps | null {
    return this.atlas.face(run.face, run.size * scale, run.scale ?? 1);
  }

  private prepare(page: Page, run: GlyphRun, face: FaceStamps, place: PagePlace): void {
    eachPen(page, run, place, (glyph, x, y) => {
      const [pixelX, pixelY] = [Math.floor(x), Math.floor(y)];
      this.atlas.prepare(face, glyph, phase(x - pixelX), phase(y - pixelY));
    });
  }

  private run(context: Context, page: Page, run: GlyphRun, face: FaceStamps, place: PagePlace): void {
    context.globalAlpha = 1 - (run.grey ?? 0);
    context.fillStyle = INK;
    eachPen(page, run, place, (glyph, x, y) => {
      const [pixelX, pixelY] = [Math.floor(x), Math.floor(y)];
      const stamp = face.stamps.get(stampKey(glyph, phase(x - pixelX), phase(y - pixelY)));
      if (!stamp) return;
      if (stamp === 'large') {
        this.outline(context, face, glyph, x, y);
        return;
      }
      const { sheet, width, height, left, top } = stamp;
      context.drawImage(sheet, stamp.x, stamp.y, width, height, pixelX + left, pixelY + top, width, height);
    });
  }

  private outline(context: Context, face: FaceStamps, glyph: number, x: number, y: number): void {
    const shape = face.shapes.shape(glyph);
    if (!shape) return;
    context.setTransform(face.across, 0, 0, -face.down, x - HALF_PHASE, y - HALF_PHASE);
    context.fill(shape.path);
    context.setTransform(1, 0, 0, 1, 0, 0);
  }

  private rule(context: Context, rule: RuleItem, { x, y, scale }: PagePlace): void {
    context.globalAlpha = 1 - (rule.grey ?? 0);
    context.fillStyle = INK;
    context.fillRect(x + rule.x * scale, y + rule.y * scale, rule.width * scale, rule.height * scale);
  }

  private path(context: Context, path: PathItem, { x, y, scale }: PagePlace): void {
    context.globalAlpha = 1 - (path.grey ?? 0);
    context.fillStyle = INK;
    const across = (path.width / path.viewBox.width) * scale;
    const down = (path.height / path.viewBox.height) * scale;
    context.setTransform(across, 0, 0, down, x + path.x * scale, y + path.y * scale);
    context.fill(this.pathOf(path.path));
    context.setTransform(1, 0, 0, 1, 0, 0);
  }

  private pathOf(data: string): Path2D {
    let path = this.paths.get(data);
    if (!path) {
      path = new Path2D(data);
      this.paths.set(data, path);
    }
    return path;
  }

  private image(context: Context, image: ImageItem, { x, y, scale }: PagePlace): void {
    const picture = this.pictureOf(image.asset);
    const [left, top, width, height] = [
      x + image.x * scale,
      y + image.y * scale,
      image.width * scale,
      image.height * scale,
    ];
    context.globalAlpha = 1;
    context.save();
    if (image.clip) {
      const { clip } = image;
      context.beginPath();
      context.rect(x + clip.x * scale, y + clip.y * scale, clip.width * scale, clip.height * scale);
      context.clip();
    }
    if (picture) {
      context.imageSmoothingQuality = 'high';
      context.drawImage(picture, left, top, width, height);
    } else {
      context.fillStyle = PICTURE_ON_ITS_WAY;
      context.fillRect(left, top, width, height);
    }
    context.restore();
  }
}

/** The rows of whole pixels that a strip takes, its softened edges included. */
function rowsOf({ top, bottom }: Strip, { y, scale }: PagePlace): { readonly first: number; readonly last: number } {
  return { first: Math.floor(y + top * scale) - 1, last: Math.ceil(y + bottom * scale) + 1 };
}

const HALF_PHASE = 0.5 / PHASES;

/** Print is black whatever the window's colours are. */
const INK = '#000';
const PICTURE_ON_ITS_WAY = '#e4e1da';

/** Whether a line reaches into the canvas: at a high zoom most do not. */
function isInView(run: GlyphRun, { y, scale }: PagePlace, height: number): boolean {
  const baseline = y + run.y * scale;
  const reach = run.size * scale * 2;
  return baseline + reach > 0 && baseline - reach < height;
}

/** The quarter of a pixel that a place falls into. */
function phase(fraction: number): number {
  return Math.floor(fraction * PHASES);
}

/**
 * Every glyph of a run with the place of its pen in device pixels, moved by half a phase so that rounding down to a phase
 * takes the nearest.
 */
function eachPen(
  page: Page,
  run: GlyphRun,
  { x, y, scale }: PagePlace,
  visit: (glyph: number, x: number, y: number) => void,
): void {
  const { glyphs, advances, offsets } = page;
  const baseline = y + run.y * scale + HALF_PHASE;
  let pen = x + run.x * scale + HALF_PHASE;
  for (let at = run.start; at < run.start + run.count; at++) {
    if (offsets) visit(glyphs[at]!, pen + offsets[at * 2]! * scale, baseline + offsets[at * 2 + 1]! * scale);
    else visit(glyphs[at]!, pen, baseline);
    pen += advances[at]! * scale;
  }
}
