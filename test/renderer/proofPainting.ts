/** The page proof's painter for Chromium, bundled: what it is given crosses as JSON, and its picture comes back as base64. */
import type { Page } from '#page';
import { GlyphAtlas } from '../../renderer/proof/atlas.ts';
import { InkCache } from '../../renderer/proof/inkCache.ts';
import { PagePainter } from '../../renderer/proof/painter.ts';
import { GlyphShapes } from '../../renderer/worker/glyphs.ts';
import type { OutlinesReply } from '../../renderer/worker/messages.ts';

/** A page as JSON has it. */
export interface PlainPage {
  readonly page: Omit<Page, 'glyphs' | 'advances' | 'offsets' | 'clusters'>;
  readonly glyphs: readonly number[];
  readonly advances: readonly number[];
  readonly offsets: readonly number[] | null;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Red of each pixel, row by row, as characters of that code. */
  readonly pixels: string;
}

function pageOf({ page, glyphs, advances, offsets }: PlainPage): Page {
  return {
    ...page,
    glyphs: Uint16Array.from(glyphs),
    advances: Float32Array.from(advances),
    offsets: offsets && Float32Array.from(offsets),
    clusters: new Uint16Array(glyphs.length),
  };
}

/** Paints a page on white; `scale`: pixels to a point. */
export function paint(plain: PlainPage, outlines: readonly OutlinesReply[], scale: number): Picture {
  const page = pageOf(plain);
  const shapes = new GlyphShapes();
  for (const each of outlines) shapes.add(each);
  const [width, height] = [Math.round(page.size.width * scale), Math.round(page.size.height * scale)];
  const context = new OffscreenCanvas(width, height).getContext('2d');
  if (!context) throw new RangeError('a canvas without a 2D context');
  context.fillStyle = '#fff';
  context.fillRect(0, 0, width, height);
  new PagePainter(new GlyphAtlas(shapes), () => null).paint(context, page, { x: 0, y: 0, scale });
  const { data } = context.getImageData(0, 0, width, height);
  let pixels = '';
  for (let at = 0; at < data.length; at += 4) pixels += String.fromCharCode(data[at] ?? 0);
  return { width, height, pixels };
}

/** Paints a page, then what it has become over it; and the latter on a sheet of its own. Alpha of each pixel, and stamps set. */
export function repaint(before: PlainPage, after: PlainPage, outlines: readonly OutlinesReply[], scale: number) {
  const [was, is] = [pageOf(before), pageOf(after)];
  const shapes = new GlyphShapes();
  for (const each of outlines) shapes.add(each);
  const painter = new PagePainter(new GlyphAtlas(shapes), () => null);
  const [width, height] = [Math.ceil(is.size.width * scale), Math.ceil(is.size.height * scale)];
  let stamps = 0;
  const sheet = OffscreenCanvasRenderingContext2D.prototype;
  const stamp = sheet.drawImage;
  sheet.drawImage = function (...given: unknown[]) {
    stamps++;
    return Reflect.apply(stamp, this, given);
  };
  const shown = (steps: readonly Page[]): { readonly alpha: string; readonly stamps: number } => {
    const cache = new InkCache(painter);
    let alpha = '';
    for (const page of steps) {
      const context = new OffscreenCanvas(width, height).getContext('2d');
      if (!context) throw new RangeError('a canvas without a 2D context');
      stamps = 0;
      cache.paint(context, page, { x: 0, y: 0, scale });
      const { data } = context.getImageData(0, 0, width, height);
      alpha = '';
      for (let at = 3; at < data.length; at += 4) alpha += String.fromCharCode(data[at] ?? 0);
    }
    return { alpha, stamps };
  };
  const result = { amended: shown([was, is]), whole: shown([is]), before: shown([was]) };
  sheet.drawImage = stamp;
  return result;
}

Object.assign(globalThis, { paint, repaint });
