/**
 * All pages in small, side by side. In: the pages, the place scrolled to, the page in view; out: a canvas as wide as the room.
 * Leaves are painted in idle moments, those in view first, and kept; scrolling only lays painted leaves down. Where a page
 * has changed, its old leaf lies there until the new one is painted: while a design is dragged, all pages change all the time.
 */
import type { PageIndex } from '#base';
import type { Page } from '#page';
import type { Workbench } from '../state/index.ts';
import { coloursAt, type ProofColours } from './colours.ts';
import { KeptLeaves } from './keptLeaves.ts';
import { shows } from './places.ts';
import { type ProofRoom, proofRoom } from './room.ts';
import { spreadAt, spreadOf } from './spreads.ts';

export interface StripElements {
  readonly room: HTMLElement;
  /** As wide as all leaves. */
  readonly track: HTMLElement;
  readonly canvas: HTMLCanvasElement;
}

/** CSS pixels: height of a leaf, room above and below, between spreads. */
export const LEAF_HEIGHT = 88;
const LEAF_TOP = 8;
const GAP = 10;
const LABELS = 18;
export const STRIP_HEIGHT = LEAF_TOP + LEAF_HEIGHT + LABELS;

/** Milliseconds of an idle moment that must be left to begin another leaf. */
const LEAST_IDLE = 6;
/** Milliseconds after which a leaf is painted though no moment is idle. */
const LONGEST_WAIT = 120;

export class LeafStrip {
  private readonly context: CanvasRenderingContext2D;
  private readonly proof: ProofRoom;
  private readonly leaves = new KeptLeaves();
  private readonly endings: (() => void)[] = [];
  private colours: ProofColours | null = null;
  /** Colour and face of the folios; asking for it costs a layout. */
  private lettering: Pick<CSSStyleDeclaration, 'color' | 'fontFamily'> | null = null;
  private frame = 0;
  private idle = 0;
  private marked: { readonly of: unknown; readonly pages: ReadonlySet<PageIndex> } | null = null;

  constructor(
    private readonly workbench: Workbench,
    private readonly elements: StripElements,
  ) {
    const context = elements.canvas.getContext('2d');
    if (!context) throw new RangeError('a canvas without a 2D context');
    this.context = context;
    this.proof = proofRoom(workbench);
    this.listen();
    this.schedule();
  }

  dispose(): void {
    cancelAnimationFrame(this.frame);
    cancelIdleCallback(this.idle);
    for (const end of this.endings) end();
  }

  /** The page under a point of the window, or null. */
  pageAt(clientX: number): PageIndex | null {
    const box = this.elements.canvas.getBoundingClientRect();
    const x = clientX - box.left + this.elements.room.scrollLeft;
    const width = this.leafWidth;
    const spread = Math.floor(x / (2 * width + GAP));
    const within = x - spread * (2 * width + GAP) - GAP / 2;
    const { verso, recto } = spreadAt(spread, this.count, 'facing');
    return within < width ? (verso ?? recto) : (recto ?? verso);
  }

  /** Scrolls until a page is in view. */
  reveal(page: PageIndex): void {
    const { room } = this.elements;
    const [left, width] = [this.leftOf(page), this.leafWidth];
    if (left < room.scrollLeft + GAP) room.scrollLeft = left - width;
    else if (left + width > room.scrollLeft + room.clientWidth) room.scrollLeft = left + 2 * width - room.clientWidth;
  }

  private get count(): number {
    const { count, pages } = this.workbench.layout.get();
    return Math.max(count, pages.length);
  }

  private get leafWidth(): number {
    const page = this.workbench.layout.get().pages.find((each) => each !== undefined);
    return page ? Math.round((page.size.width / page.size.height) * LEAF_HEIGHT) : LEAF_HEIGHT;
  }

  private leftOf(page: PageIndex): number {
    const width = this.leafWidth;
    return spreadOf(page, 'facing') * (2 * width + GAP) + GAP / 2 + (page % 2 === 0 ? width : 0);
  }

  private listen(): void {
    const schedule = (): void => this.schedule();
    const { layout, press } = this.workbench;
    const { room } = this.elements;
    for (const store of [layout, press, this.proof.view]) this.endings.push(store.subscribe(schedule));
    this.endings.push(
      this.proof.onPicture(() => {
        this.leaves.outdate();
        this.schedule();
      }),
    );
    const forgetColours = (): void => {
      this.colours = null;
      this.lettering = null;
      this.schedule();
    };
    const sizes = new ResizeObserver(forgetColours);
    sizes.observe(room);
    const looks = new MutationObserver(forgetColours);
    looks.observe(document.documentElement, { attributes: true });
    room.addEventListener('scroll', schedule, { passive: true });
    this.endings.push(
      () => sizes.disconnect(),
      () => looks.disconnect(),
      () => room.removeEventListener('scroll', schedule),
    );
  }

  private schedule(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.paint());
  }

  private paint(): void {
    this.frame = 0;
    const { room, track, canvas } = this.elements;
    const density = window.devicePixelRatio;
    const [width, count] = [this.leafWidth, this.count];
    const spreads = Math.floor(count / 2) + 1;
    track.style.width = `${count === 0 ? 0 : spreads * (2 * width + GAP)}px`;
    const [wide, high] = [Math.round(room.clientWidth * density), Math.round(STRIP_HEIGHT * density)];
    if (canvas.width !== wide || canvas.height !== high) {
      canvas.width = wide;
      canvas.height = high;
      canvas.style.width = `${room.clientWidth}px`;
      canvas.style.height = `${STRIP_HEIGHT}px`;
    }
    this.context.setTransform(1, 0, 0, 1, 0, 0);
    this.context.clearRect(0, 0, wide, high);
    this.colours ??= coloursAt(canvas);
    this.leaves.belongTo(this.workbench.layout.get().edition);
    let missing = false;
    for (const page of this.inView()) missing = !this.paintLeaf(page, density, this.colours) || missing;
    if (missing) this.paintInIdle();
  }

  /** The pages in view, from the left. */
  private inView(): readonly Page[] {
    const { room } = this.elements;
    const step = 2 * this.leafWidth + GAP;
    const first = Math.max(0, Math.floor(room.scrollLeft / step));
    const last = Math.ceil((room.scrollLeft + room.clientWidth) / step);
    return this.workbench.layout
      .get()
      .pages.slice(Math.max(0, first * 2 - 1), last * 2 + 1)
      .filter((page) => page !== undefined);
  }

  /** Lays a leaf down; false where it has still to be painted. */
  private paintLeaf(page: Page, density: number, colours: ProofColours): boolean {
    const { context } = this;
    const [x, width] = [
      Math.round((this.leftOf(page.index) - this.elements.room.scrollLeft) * density),
      this.leafWidth,
    ];
    const [y, wide, high] = [
      Math.round(LEAF_TOP * density),
      Math.round(width * density),
      Math.round(LEAF_HEIGHT * density),
    ];
    context.fillStyle = colours.edge;
    context.fillRect(x - 1, y - 1, wide + 2, high + 2);
    context.fillStyle = colours.paper;
    context.fillRect(x, y, wide, high);
    const leaf = this.leaves.at(page.index);
    if (leaf) context.drawImage(leaf, x, y, wide, high);
    const { page: current } = this.proof.view.get();
    if (spreadOf(current, 'facing') === spreadOf(page.index, 'facing')) {
      context.fillStyle = colours.current;
      context.fillRect(x, y + high + Math.round(2 * density), wide, Math.max(2, Math.round(2 * density)));
    }
    if (this.withFindings().has(page.index)) {
      context.fillStyle = colours.finding;
      context.beginPath();
      context.arc(x + wide - 5 * density, y + 6 * density, 3 * density, 0, 2 * Math.PI);
      context.fill();
    }
    if (this.isChanged(page)) {
      const edge = Math.max(2, Math.round(3 * density));
      context.fillStyle = colours.changed;
      context.fillRect(page.side === 'recto' ? x + wide - edge : x, y, edge, high);
    }
    this.label(page, x + wide / 2, (STRIP_HEIGHT - 3) * density, density);
    return this.leaves.shows(page);
  }

  /** Whether the page is to be marked as other than it was last made. */
  private isChanged(page: Page): boolean {
    const { layout, exported } = this.workbench;
    const { edition } = layout.get();
    return edition !== null && this.proof.view.get().overlays.has('changed') && exported.changed(edition, page);
  }

  private label({ folio }: Page, x: number, y: number, density: number): void {
    if (folio.value % 5 !== 0 && folio.value !== 1) return;
    const { context } = this;
    this.lettering ??= this.readLettering();
    context.fillStyle = this.lettering.color;
    context.font = `${11 * density}px ${this.lettering.fontFamily}`;
    context.textAlign = 'center';
    context.fillText(folio.label, x, y);
  }

  private readLettering(): Pick<CSSStyleDeclaration, 'color' | 'fontFamily'> {
    const { color, fontFamily } = getComputedStyle(this.elements.canvas);
    return { color, fontFamily };
  }

  /** Pages that a finding stands on. */
  private withFindings(): ReadonlySet<PageIndex> {
    const { findings, pages } = this.workbench.layout.get();
    if (this.marked?.of === findings) return this.marked.pages;
    const found = new Set<PageIndex>();
    const labels = new Map(pages.flatMap((page) => (page ? [[page.folio.label, page.index] as const] : [])));
    for (const finding of findings) {
      const index = finding.page === undefined ? undefined : labels.get(finding.page);
      const { at } = finding;
      const page = at ? pages.find((each) => each && shows(each, at)) : undefined;
      const known = index ?? page?.index;
      if (known !== undefined) found.add(known);
    }
    this.marked = { of: findings, pages: found };
    return found;
  }

  private paintInIdle(): void {
    if (this.idle !== 0) return;
    this.idle = requestIdleCallback(
      (deadline) => {
        this.idle = 0;
        const density = window.devicePixelRatio;
        let mustPaint = deadline.didTimeout;
        for (const page of this.leaves.missing(this.inView())) {
          if (!mustPaint && deadline.timeRemaining() < LEAST_IDLE) break;
          mustPaint = false;
          this.leaves.keep(page, this.painted(page, density));
        }
        this.schedule();
      },
      { timeout: LONGEST_WAIT },
    );
  }

  private painted(page: Page, density: number): OffscreenCanvas {
    const scale = (LEAF_HEIGHT * density) / page.size.height;
    const leaf = new OffscreenCanvas(Math.round(this.leafWidth * density), Math.round(LEAF_HEIGHT * density));
    const context = leaf.getContext('2d');
    if (!context) throw new RangeError('a canvas without a 2D context');
    this.proof.leafPainter.paint(context, page, { x: 0, y: 0, scale });
    return leaf;
  }
}
