/**
 * The spread on its table. In: the pages, how they are looked at, the cursor's place and the findings; out: a canvas as large
 * as the room, painted in the next frame after any of them changed. Nothing here goes through React: a key on the copy desk
 * costs one repainting.
 */
import type { Anchor, Finding, PageIndex, Points } from '#base';
import { defaultPress } from '#design';
import type { Page } from '#page';
import type { LayoutState, PlaceState, Workbench } from '../state/index.ts';
import { coloursAt, type ProofColours } from './colours.ts';
import { drawCursor, drawFinding, drawGuides, drawPaper, FINDING_INSET } from './guides.ts';
import { InkCache } from './inkCache.ts';
import type { PagePlace } from './painter.ts';
import { anchorAt, lineOf, type PlacedLine, shows } from './places.ts';
import { type ProofRoom, proofRoom } from './room.ts';
import { planSpread, type SpreadPlan, scrollKeeping, spreadAt, spreadOf, type Zoom } from './spreads.ts';

/** Elements that the spread lives in: a scrolling room, what makes it as large as the table, and the canvas. */
export interface SpreadElements {
  readonly room: HTMLElement;
  readonly table: HTMLElement;
  readonly canvas: HTMLCanvasElement;
}

/** What a point of the spread is. */
export interface SpreadHit {
  readonly page: Page;
  readonly anchor: Anchor | null;
  readonly finding: Finding | null;
}

export interface SpreadOptions {
  /** Which page is shown; the proof desk shows the one that the person turned to. */
  readonly page: () => PageIndex;
  readonly facing: () => 'facing' | 'single';
  readonly zoom: () => Zoom;
  /** Hears how large the spread came to be shown: pixels to a point. */
  readonly onScale?: (scale: number) => void;
}

/** Points within which a click on a finding's mark counts. */
const REACH: Points = 9;

export class SpreadCanvas {
  private readonly context: CanvasRenderingContext2D;
  private readonly proof: ProofRoom;
  private readonly endings: (() => void)[] = [];
  private readonly ink: InkCache;
  private colours: ProofColours | null = null;
  private frame = 0;
  private plan: SpreadPlan | null = null;
  /** A point of the room that is to show the same place of the spread at the next size; null for its middle. */
  private held: { readonly x: number; readonly y: number } | null = null;
  /** The cursor's line that was last brought into view. */
  private revealed = '';
  /** What the canvas shows. */
  private painted: readonly unknown[] = [];

  constructor(
    private readonly workbench: Workbench,
    private readonly elements: SpreadElements,
    private readonly options: SpreadOptions,
  ) {
    const context = elements.canvas.getContext('2d');
    if (!context) throw new RangeError('a canvas without a 2D context');
    this.context = context;
    this.proof = proofRoom(workbench);
    this.ink = new InkCache(this.proof.painter);
    this.listen();
    this.schedule();
  }

  dispose(): void {
    cancelAnimationFrame(this.frame);
    for (const end of this.endings) end();
  }

  /** Paints in the next frame. */
  schedule(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.paint());
  }

  /** Pixels to a point, as now shown. */
  get scale(): number {
    return this.plan?.scale ?? 1;
  }

  /** At its next size, the spread keeps under this point of the window what it shows there now. */
  hold(clientX: number, clientY: number): void {
    const box = this.elements.room.getBoundingClientRect();
    this.held = { x: clientX - box.left, y: clientY - box.top };
  }

  /** The page, text and finding under a point of the window. */
  hit(clientX: number, clientY: number): SpreadHit | null {
    const box = this.elements.canvas.getBoundingClientRect();
    const { room } = this.elements;
    const [x, y] = [clientX - box.left + room.scrollLeft, clientY - box.top + room.scrollTop];
    const placed = this.plan?.pages.find(
      (each) => x >= each.x && x < each.x + each.width && y >= each.y && y < each.y + each.height,
    );
    const page = placed && this.layout.pages[placed.index];
    if (!placed || !page) return null;
    const [atX, atY] = [(x - placed.x) / this.scale, (y - placed.y) / this.scale];
    return { page, anchor: anchorAt(page, atX, atY), finding: this.findingNear(page, atX, atY) };
  }

  private get layout(): LayoutState {
    return this.workbench.layout.get();
  }

  private get place(): PlaceState {
    return this.workbench.place.get();
  }

  private listen(): void {
    const schedule = (): void => this.schedule();
    const { layout, place, press } = this.workbench;
    const { view } = this.proof;
    const { room } = this.elements;
    for (const store of [layout, place, view, press]) this.endings.push(store.subscribe(schedule));
    const forgetColours = (): void => {
      this.colours = null;
      this.painted = [];
      this.schedule();
    };
    this.endings.push(
      this.proof.onPicture(() => {
        this.ink.clear();
        forgetColours();
      }),
    );
    const sizes = new ResizeObserver(forgetColours);
    sizes.observe(room);
    const looks = new MutationObserver(forgetColours);
    looks.observe(document.documentElement, { attributes: true });
    const dark = matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', forgetColours);
    room.addEventListener('scroll', schedule, { passive: true });
    this.endings.push(
      () => sizes.disconnect(),
      () => looks.disconnect(),
      () => dark.removeEventListener('change', forgetColours),
      () => room.removeEventListener('scroll', schedule),
    );
  }

  private paint(): void {
    this.frame = 0;
    const { room, table } = this.elements;
    const { pages, count } = this.layout;
    const [width, height] = [room.clientWidth, room.clientHeight];
    const page = pages[this.options.page()] ?? pages.find((each) => each !== undefined);
    if (!page || width === 0 || height === 0) return;
    const facing = this.options.facing();
    const before = this.plan;
    const plan = planSpread({
      spread: spreadAt(spreadOf(page.index, facing), Math.max(count, pages.length), facing),
      facing,
      page: page.size,
      room: { width, height },
      zoom: this.options.zoom(),
      around: this.proof.view.get().overlays.has('trim') ? defaultPress.bleed : 0,
    });
    this.plan = plan;
    this.options.onScale?.(plan.scale);
    const scrolled = { x: room.scrollLeft, y: room.scrollTop };
    // The canvas takes part of the room itself: what is left makes the table.
    setSize(table, plan.table.width, plan.table.height);
    if (before) this.keepInView({ ...before, scrolled }, plan);
    const cursor = this.cursorLine();
    this.reveal(cursor, plan);
    const shown = this.shownBy(plan, cursor, width, height);
    if (shown.length === this.painted.length && shown.every((each, at) => Object.is(each, this.painted[at]))) return;
    this.painted = shown;
    this.fitCanvas(width, height);
    this.paintPages(plan, cursor);
  }

  /** Another size shows the same place, another spread its head. */
  private keepInView(before: Parameters<typeof scrollKeeping>[1], plan: SpreadPlan): void {
    const { room } = this.elements;
    if (before.scale !== plan.scale) {
      const middle = { x: room.clientWidth / 2, y: room.clientHeight / 2 };
      const { x, y } = scrollKeeping(this.held ?? middle, before, plan);
      room.scrollTo(x, y);
    } else if (before.pages[0]?.index !== plan.pages[0]?.index) room.scrollTop = 0;
    this.held = null;
  }

  /** Scrolls to the cursor's line where it has moved to one that is out of view. */
  private reveal(cursor: PlacedLine | null, { pages, scale }: SpreadPlan): void {
    const line = cursor ? `${cursor.page} ${cursor.y}` : '';
    if (line === this.revealed) return;
    this.revealed = line;
    const placed = pages.find((each) => each.index === cursor?.page);
    const { room } = this.elements;
    if (!cursor || !placed) return;
    const top = placed.y + cursor.y * scale;
    const bottom = top + cursor.height * scale;
    if (top >= room.scrollTop && bottom <= room.scrollTop + room.clientHeight) return;
    room.scrollTop = (top + bottom - room.clientHeight) / 2;
  }

  /** All that the picture depends on: where nothing of it has changed, the canvas stays as it is. */
  private shownBy({ pages, scale }: SpreadPlan, cursor: PlacedLine | null, width: number, height: number): unknown[] {
    const { room } = this.elements;
    const { findings, frame, pages: all } = this.layout;
    const { overlays } = this.proof.view.get();
    return [
      ...[width, height, scale, room.scrollLeft, room.scrollTop, window.devicePixelRatio],
      ...[findings, frame, overlays, this.workbench.press.get().history],
      ...(cursor ? [cursor.page, cursor.x, cursor.y, cursor.width, cursor.height] : []),
      ...pages.flatMap((each) => [each.x, each.y, all[each.index]]),
    ];
  }

  private fitCanvas(width: number, height: number): void {
    const { canvas } = this.elements;
    const density = window.devicePixelRatio;
    const [wide, high] = [Math.round(width * density), Math.round(height * density)];
    if (canvas.width !== wide || canvas.height !== high) {
      canvas.width = wide;
      canvas.height = high;
      setSize(canvas, width, height);
    } else {
      this.context.setTransform(1, 0, 0, 1, 0, 0);
      this.context.clearRect(0, 0, wide, high);
    }
  }

  private paintPages({ pages: placed, scale }: SpreadPlan, cursor: PlacedLine | null): void {
    const { room } = this.elements;
    const density = window.devicePixelRatio;
    for (const each of placed) {
      const page = this.layout.pages[each.index];
      if (!page) continue;
      const place = {
        x: Math.round((each.x - room.scrollLeft) * density),
        y: Math.round((each.y - room.scrollTop) * density),
        scale: scale * density,
      };
      this.paintPage(page, place, cursor);
    }
  }

  private paintPage(page: Page, place: PagePlace, cursor: PlacedLine | null): void {
    const { context } = this;
    const { edition, frame } = this.layout;
    this.colours ??= coloursAt(this.elements.canvas);
    const { colours } = this;
    const { overlays } = this.proof.view.get();
    const changed = overlays.has('changed') && edition !== null && this.workbench.exported.changed(edition, page);
    drawPaper(context, page, place, colours);
    if (cursor?.page === page.index) drawCursor(context, cursor, place, colours);
    drawGuides(context, { page, place, frame, overlays, bleed: defaultPress.bleed, changed, colours });
    this.ink.paint(context, page, place, overlays.has('trim') ? defaultPress.bleed : 0);
    for (const { line } of this.findingsOn(page)) drawFinding(context, page, line, place, colours);
  }

  private cursorLine(): PlacedLine | null {
    const { anchor, section } = this.place;
    return anchor && section !== null ? lineOf(this.layout.pages, anchor, section) : null;
  }

  private findingsOn(page: Page): readonly { readonly finding: Finding; readonly line: PlacedLine }[] {
    const { findings, pages } = this.layout;
    // A paragraph goes on over the turn: its lines on the neighbours say whether the place is here.
    const near = pages.slice(Math.max(0, page.index - 1), page.index + 2);
    return findings.flatMap((finding) => {
      if (!finding.at || !shows(page, finding.at)) return [];
      const line = lineOf(near, finding.at);
      return line?.page === page.index ? [{ finding, line }] : [];
    });
  }

  private findingNear(page: Page, x: Points, y: Points): Finding | null {
    const outer = page.side === 'recto' ? page.size.width - FINDING_INSET : FINDING_INSET;
    if (Math.abs(x - outer) > REACH) return null;
    const near = this.findingsOn(page).find(({ line }) => Math.abs(y - line.y - line.height * 0.6) <= REACH);
    return near?.finding ?? null;
  }
}

function setSize(element: HTMLElement, width: number, height: number): void {
  const [wide, high] = [`${width}px`, `${height}px`];
  if (element.style.width !== wide) element.style.width = wide;
  if (element.style.height !== high) element.style.height = high;
}
