/** Pages in small on a canvas. In: pages and where they lie, in CSS pixels; out: paper and ink, the rest of the canvas clear. */
import type { Page } from '#page';
import { proofRoom } from '../proof/index.ts';
import type { Workbench } from '../state/index.ts';

export interface LaidPage {
  readonly page: Page;
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

export interface Laying {
  readonly width: number;
  readonly height: number;
  readonly pages: readonly LaidPage[];
}

/** Paper is paper in the dark too. */
const PAPER = '#fffdf8';

/** Lays pages down on a canvas of that size. */
export function layPages(workbench: Workbench, canvas: HTMLCanvasElement, { width, height, pages }: Laying): void {
  const context = canvas.getContext('2d');
  if (!context) return;
  const density = window.devicePixelRatio;
  canvas.width = Math.round(width * density);
  canvas.height = Math.round(height * density);
  canvas.style.aspectRatio = `${canvas.width} / ${canvas.height}`;
  canvas.style.width = `${width}px`;
  for (const laid of pages) {
    const [x, y] = [Math.round(laid.x * density), Math.round(laid.y * density)];
    const scale = (laid.width * density) / laid.page.size.width;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.fillStyle = PAPER;
    context.fillRect(x, y, laid.width * density, laid.page.size.height * scale);
    proofRoom(workbench).leafPainter.paint(context, laid.page, { x, y, scale });
  }
}
