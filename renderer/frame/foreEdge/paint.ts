/** Paints the fore-edge. In: bands, colours, a canvas; out: the book block seen from its open edge, leaf by leaf. */
import type { Band, Tone } from './bands.ts';

export interface EdgeColours {
  readonly tones: Readonly<Record<Tone, string>>;
  readonly leaf: string;
  readonly accent: string;
  readonly ink: string;
}

export interface EdgeScene {
  readonly bands: readonly Band[];
  readonly current: Band | null;
  readonly hovered: Band | null;
}

export interface EdgeSize {
  readonly width: number;
  readonly height: number;
}

/** Pixels between the lines that stand for leaves. */
const LEAF = 3;

export function paintForeEdge(
  context: CanvasRenderingContext2D,
  scene: EdgeScene,
  { width, height }: EdgeSize,
  colours: EdgeColours,
): void {
  context.clearRect(0, 0, width, height);
  for (const band of scene.bands) paintBand(context, band, { width, height }, colours);
  paintLeaves(context, { width, height }, colours);
  for (const band of scene.bands) paintTicks(context, band, { width, height }, colours);
  if (scene.hovered) outline(context, scene.hovered, { width, height }, colours.ink);
  if (scene.current) paintCurrent(context, scene.current, { width, height }, colours);
}

function paintBand(context: CanvasRenderingContext2D, band: Band, size: EdgeSize, { tones }: EdgeColours): void {
  const top = band.from * size.height;
  const bottom = band.to * size.height;
  context.fillStyle = tones[band.tone];
  context.fillRect(0, top, size.width, bottom - top);
  if (band.changed) paintDeckle(context, top, bottom, size.width, tones);
}

/** A ragged edge where the section is another than the one exported last. */
function paintDeckle(
  context: CanvasRenderingContext2D,
  top: number,
  bottom: number,
  width: number,
  tones: EdgeColours['tones'],
): void {
  context.fillStyle = tones.part;
  let deep = 1;
  for (let y = top; y < bottom; y += 2) {
    // A fixed rhythm that looks torn: no two redraws differ.
    deep = ((deep * 7 + 3) % 5) + 1;
    context.fillRect(width - deep, y, deep, Math.min(2, bottom - y));
  }
}

function paintLeaves(context: CanvasRenderingContext2D, { width, height }: EdgeSize, { leaf }: EdgeColours): void {
  context.fillStyle = leaf;
  for (let y = LEAF; y < height; y += LEAF) context.fillRect(0, y, width, 0.5);
}

function paintTicks(context: CanvasRenderingContext2D, band: Band, size: EdgeSize, { accent }: EdgeColours): void {
  const count = band.errors + band.warnings;
  if (count === 0) return;
  const top = band.from * size.height;
  const room = (band.to - band.from) * size.height;
  const shown = Math.max(1, Math.min(count, Math.floor(room / 4)));
  context.fillStyle = accent;
  for (let at = 0; at < shown; at++) {
    const y = top + ((at + 0.5) * room) / shown;
    // Errors are longer, so that they differ by more than colour.
    const long = at < band.errors ? 10 : 5;
    context.fillRect(size.width - long, y - 1, long, 2);
  }
}

function outline(context: CanvasRenderingContext2D, band: Band, { width, height }: EdgeSize, colour: string): void {
  context.strokeStyle = colour;
  context.lineWidth = 1;
  context.strokeRect(0.5, band.from * height + 0.5, width - 1, Math.max(2, (band.to - band.from) * height - 1));
}

function paintCurrent(
  context: CanvasRenderingContext2D,
  band: Band,
  { height }: EdgeSize,
  { accent }: EdgeColours,
): void {
  context.fillStyle = accent;
  context.fillRect(0, band.from * height, 4, Math.max(3, (band.to - band.from) * height));
}
