/**
 * The ink of the pages last shown, kept as pictures. In: a page and its scale; out: the picture, painted once: where the cursor
 * moves or one page of a spread changes, the other is only laid down again, and of a page that has changed only some lines.
 */
import type { Points } from '#base';
import type { Page } from '#page';
import type { Context, PagePainter, PagePlace } from './painter.ts';
import { changedStrips } from './strips.ts';

/** Pages that are kept: two spreads. */
const KEPT = 4;

/** Device pixels of the largest picture that is kept; a page shown larger than that is painted where it lies. */
const LARGEST = 6_000_000;

interface Ink {
  readonly scale: number;
  readonly canvas: OffscreenCanvas;
}

export class InkCache {
  private readonly inks = new Map<Page, Ink>();

  constructor(private readonly painter: PagePainter) {}

  /**
   * Lays a page's ink down, cut at its trim or, with bleed, beyond its three outer edges. `place.x` and `place.y` are whole
   * pixels.
   */
  paint(context: Context, page: Page, place: PagePlace, bleed: Points = 0): void {
    const { scale } = place;
    const beyond = Math.ceil(bleed * scale);
    const [trimmed, tall] = [Math.ceil(page.size.width * scale), Math.ceil(page.size.height * scale) + 2 * beyond];
    const wide = trimmed + beyond;
    const left = page.side === 'verso' ? beyond : 0;
    context.setTransform(1, 0, 0, 1, 0, 0);
    if (wide * tall > LARGEST) {
      context.save();
      context.beginPath();
      context.rect(place.x - left, place.y - beyond, wide, tall);
      context.clip();
      this.painter.paint(context, page, place);
      context.restore();
      return;
    }
    const ink = this.inkOf(page, { x: left, y: beyond, scale }, wide, tall);
    context.drawImage(ink, place.x - left, place.y - beyond);
  }

  /** Forgets everything: a picture has arrived, or another book. */
  clear(): void {
    this.inks.clear();
  }

  private inkOf(page: Page, place: PagePlace, width: number, height: number): OffscreenCanvas {
    const { scale } = place;
    const known = this.inks.get(page);
    if (known?.scale === scale && known.canvas.width === width && known.canvas.height === height) return known.canvas;
    const canvas = this.amended(page, place, width, height) ?? this.painted(page, place, width, height);
    this.inks.delete(page);
    this.inks.set(page, { scale, canvas });
    return canvas;
  }

  /** The picture of what the page was before, with new ink where it has changed; null where that is not simpler. */
  private amended(page: Page, place: PagePlace, width: number, height: number): OffscreenCanvas | null {
    for (const [before, { scale, canvas }] of this.inks) {
      if (before.index !== page.index || scale !== place.scale) continue;
      const strips = changedStrips(before, page, this.painter.reachOf);
      const context = canvas.getContext('2d');
      if (!strips || !context || canvas.width !== width || canvas.height !== height) continue;
      this.inks.delete(before);
      this.painter.paintStrips(context, page, place, strips);
      return canvas;
    }
    return null;
  }

  private painted(page: Page, place: PagePlace, width: number, height: number): OffscreenCanvas {
    const canvas = this.emptyCanvas(width, height);
    const context = canvas.getContext('2d');
    if (!context) throw new RangeError('a canvas without a 2D context');
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, width, height);
    this.painter.paint(context, page, place);
    return canvas;
  }

  /** The oldest picture's canvas once there are enough, where it has the size. */
  private emptyCanvas(width: number, height: number): OffscreenCanvas {
    const [oldest] = this.inks;
    if (!oldest || this.inks.size < KEPT) return new OffscreenCanvas(width, height);
    const [page, { canvas }] = oldest;
    this.inks.delete(page);
    return canvas.width === width && canvas.height === height ? canvas : new OffscreenCanvas(width, height);
  }
}
