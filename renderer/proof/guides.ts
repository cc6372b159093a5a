/**
 * What is drawn over and around a page besides its ink. In: the page's frame and what is to be shown; out: lines on a canvas,
 * one device pixel wide at every zoom.
 */
import type { Points } from '#base';
import type { PageFrame } from '#design';
import type { Page } from '#page';
import type { ProofColours } from './colours.ts';
import type { Context, PagePlace } from './painter.ts';
import type { PlacedLine } from './places.ts';
import type { Overlay } from './viewStore.ts';

export interface GuideRequest {
  readonly page: Page;
  readonly place: PagePlace;
  readonly frame: PageFrame | null;
  readonly overlays: ReadonlySet<Overlay>;
  readonly bleed: Points;
  readonly changed: boolean;
  readonly colours: ProofColours;
}

/** Paper, and the shade that the fold casts on it. */
export function drawPaper(context: Context, page: Page, place: PagePlace, colours: ProofColours): void {
  const [left, top, right, bottom] = edgesOf(page, place);
  const [width, height] = [right - left, bottom - top];
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = colours.edge;
  context.fillRect(left - 1, top - 1, width + 2, height + 2);
  context.fillStyle = colours.paper;
  context.fillRect(left, top, width, height);
  const fold = Math.round(width * 0.05);
  const spine = page.side === 'recto' ? left : right;
  const inwards = page.side === 'recto' ? fold : -fold;
  const shade = context.createLinearGradient(spine, 0, spine + inwards, 0);
  shade.addColorStop(0, colours.spine);
  shade.addColorStop(1, 'transparent');
  context.fillStyle = shade;
  context.fillRect(Math.min(spine, spine + inwards), top, fold, height);
}

export function drawGuides(context: Context, request: GuideRequest): void {
  const { page, place, frame, overlays, colours } = request;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.lineWidth = 1;
  if (overlays.has('grid') && frame) drawGrid(context, page, place, frame, colours);
  if (overlays.has('margins') && frame) drawMargins(context, page, place, frame, colours);
  if (overlays.has('trim')) drawTrim(context, request);
  if (overlays.has('changed') && request.changed) drawChanged(context, page, place, colours);
}

/** Left edge of the lines: the inner margin lies at the spine. */
function measureLeft(page: Page, frame: PageFrame): Points {
  return page.side === 'recto' ? frame.inner : frame.outer;
}

function drawGrid(context: Context, page: Page, place: PagePlace, frame: PageFrame, colours: ProofColours): void {
  context.strokeStyle = colours.grid;
  const left = measureLeft(page, frame);
  for (let line = 0; line < frame.lines; line++) {
    const y = frame.firstBaseline + line * frame.leading;
    stroke(context, place, [left, y], [left + frame.measure, y]);
  }
}

function drawMargins(context: Context, page: Page, place: PagePlace, frame: PageFrame, colours: ProofColours): void {
  context.strokeStyle = colours.guide;
  const left = measureLeft(page, frame);
  const right = left + frame.measure;
  const bottom = frame.firstBaseline + (frame.lines - 1) * frame.leading;
  // The text begins above its first baseline by about the height of a lower-case letter.
  const top = frame.firstBaseline - frame.size * X_HEIGHT;
  stroke(context, place, [left, 0], [left, page.size.height]);
  stroke(context, place, [right, 0], [right, page.size.height]);
  stroke(context, place, [0, top], [page.size.width, top]);
  stroke(context, place, [0, bottom], [page.size.width, bottom]);
}

/** Height of an x as a share of the size (text faces lie near it). */
const X_HEIGHT = 0.4;

/** Ink runs beyond the three outer edges, never into the spine. */
function drawTrim(context: Context, { page, place, bleed, colours }: GuideRequest): void {
  const { width, height } = page.size;
  const left = page.side === 'verso' ? -bleed : 0;
  const right = page.side === 'recto' ? width + bleed : width;
  context.strokeStyle = colours.bleed;
  box(context, place, [left, -bleed], [right, height + bleed]);
  context.strokeStyle = colours.guide;
  box(context, place, [0, 0], [width, height]);
}

function drawChanged(context: Context, page: Page, place: PagePlace, colours: ProofColours): void {
  const [left, top, right, bottom] = edgesOf(page, place);
  const wide = Math.max(3, Math.round(place.scale * 3));
  context.fillStyle = colours.changed;
  context.fillRect(page.side === 'recto' ? right - wide : left, top, wide, bottom - top);
}

/** A wash over the line at the cursor, and a stroke in the margin for those who do not see the wash. */
export function drawCursor(context: Context, line: PlacedLine, place: PagePlace, colours: ProofColours): void {
  const { x, y, scale } = place;
  const [left, top] = [Math.round(x + line.x * scale), Math.round(y + line.y * scale)];
  const [width, height] = [Math.round(line.width * scale), Math.round(line.height * scale)];
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = colours.cursor;
  context.globalAlpha = 0.14;
  context.fillRect(left - 2, top, width + 4, height);
  context.globalAlpha = 1;
  context.fillRect(left - Math.round(6 * scale) - 2, top, Math.max(2, Math.round(scale * 1.5)), height);
}

/** A mark in the outer margin, level with the line that a finding is about. */
export function drawFinding(
  context: Context,
  page: Page,
  line: PlacedLine,
  place: PagePlace,
  colours: ProofColours,
): void {
  const { x, y, scale } = place;
  const radius = Math.max(3, 3 * scale);
  const outer = page.side === 'recto' ? page.size.width - FINDING_INSET : FINDING_INSET;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = colours.finding;
  context.beginPath();
  context.arc(x + outer * scale, y + (line.y + line.height * 0.6) * scale, radius, 0, 2 * Math.PI);
  context.fill();
}

/** Points from the outer edge at which findings are marked. */
export const FINDING_INSET: Points = 14;

/** Whole device pixels: left, top, right, bottom. */
function edgesOf(page: Page, { x, y, scale }: PagePlace): readonly [number, number, number, number] {
  const { width, height } = page.size;
  return [Math.round(x), Math.round(y), Math.round(x + width * scale), Math.round(y + height * scale)];
}

type Corner = readonly [x: Points, y: Points];

function stroke(context: Context, place: PagePlace, from: Corner, to: Corner): void {
  context.beginPath();
  context.moveTo(crisp(place.x + from[0] * place.scale), crisp(place.y + from[1] * place.scale));
  context.lineTo(crisp(place.x + to[0] * place.scale), crisp(place.y + to[1] * place.scale));
  context.stroke();
}

function box(context: Context, place: PagePlace, from: Corner, to: Corner): void {
  const [left, top] = [crisp(place.x + from[0] * place.scale), crisp(place.y + from[1] * place.scale)];
  const [right, bottom] = [crisp(place.x + to[0] * place.scale), crisp(place.y + to[1] * place.scale)];
  context.strokeRect(left, top, right - left, bottom - top);
}

/** The middle of a pixel, so that a thin line is one pixel and not two grey ones. */
function crisp(value: number): number {
  return Math.floor(value) + 0.5;
}
