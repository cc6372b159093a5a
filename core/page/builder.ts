/** Collects the items of one page; `finish` freezes them into a `Page`. */
import type { Anchor, FaceId, Points } from '#base';
import type { GlyphRun, Page, PageItem } from './page.ts';

/** What a run is, besides its glyphs. */
export interface RunStart {
  readonly face: FaceId;
  readonly size: Points;
  readonly x: Points;
  readonly y: Points;
  readonly at?: Anchor;
  readonly grey?: number;
  readonly scale?: number;
  readonly furniture?: boolean;
}

/** A run that is being set: where its glyphs are, how many they are and its text come with the end of it. */
export type OpenRun = { -readonly [Key in keyof GlyphRun]: GlyphRun[Key] };

type PageFrame = Omit<Page, 'items' | 'glyphs' | 'advances' | 'offsets' | 'clusters'>;

const FIRST_CAPACITY = 4096;

/** Room for a page's glyphs. */
interface Pools {
  readonly glyphs: Uint16Array;
  readonly advances: Float32Array;
  readonly clusters: Uint16Array;
}

/** Pools of a finished page, for the next one: large arrays are dear to make. */
let spare: Pools | null = null;

function takePools(): Pools {
  const pools = spare ?? {
    glyphs: new Uint16Array(FIRST_CAPACITY),
    advances: new Float32Array(FIRST_CAPACITY),
    clusters: new Uint16Array(FIRST_CAPACITY),
  };
  spare = null;
  return pools;
}

/** Numbers that a packed glyph takes: its id with the cluster in the upper half, and its advance in font units. */
export const PACKED = 2;

export class PageBuilder {
  private readonly items: PageItem[] = [];
  private glyphs: Uint16Array;
  private advances: Float32Array;
  private clusters: Uint16Array;
  private offsets: Float32Array | null = null;
  private count = 0;
  private open: OpenRun | null = null;

  constructor() {
    ({ glyphs: this.glyphs, advances: this.advances, clusters: this.clusters } = takePools());
  }

  /** Adds a rule, image, path or link. */
  add(item: Exclude<PageItem, GlyphRun>): void {
    this.items.push(item);
  }

  /** Begins a run; glyphs follow, then `endRun`. */
  beginRun(start: RunStart): void {
    this.openRun({ kind: 'glyphs', ...start, start: 0, count: 0, text: '' });
  }

  /** The same with the very object that the run will be. */
  openRun(run: OpenRun): void {
    if (this.open) throw new RangeError('a run is open already');
    run.start = this.count;
    this.open = run;
  }

  /** Adds a glyph to the open run. `advance` in points, `cluster` an index into the text given to `endRun`. */
  glyph(id: number, advance: Points, cluster: number): void {
    if (this.count === this.glyphs.length) this.grow();
    this.glyphs[this.count] = id;
    this.advances[this.count] = advance;
    this.clusters[this.count] = cluster;
    this.count++;
  }

  /**
   * Adds packed glyphs to the open run (see `PACKED`); gives the width that they take.
   * @param scale points to a font unit. @param cluster what is added to each cluster.
   */
  append(packed: Int32Array, from: number, count: number, scale: number, cluster: number): Points {
    while (this.count + count > this.glyphs.length) this.grow();
    const { glyphs, advances, clusters } = this;
    const end = this.count + count;
    let width = 0;
    for (let to = this.count, at = from; to < end; to++, at += PACKED) {
      const advance = packed[at + 1]! * scale;
      glyphs[to] = packed[at]!;
      advances[to] = advance;
      clusters[to] = (packed[at]! >>> 16) + cluster;
      width += advance;
    }
    this.count = end;
    return width;
  }

  /** Moves the last glyph from the pen, in points (y down), without moving the pen. */
  offsetLast(x: Points, y: Points): void {
    if (x === 0 && y === 0) return;
    this.offsets ??= new Float32Array(this.glyphs.length * 2);
    this.offsets[(this.count - 1) * 2] = x;
    this.offsets[(this.count - 1) * 2 + 1] = y;
  }

  /** Ends the open run; an empty run leaves no item. */
  endRun(text: string): void {
    if (!this.open) throw new RangeError('no run is open');
    const { open } = this;
    this.open = null;
    if (this.count === open.start) return;
    open.count = this.count - open.start;
    open.text = text;
    this.items.push(open);
  }

  /** The finished page. The builder is spent afterwards. */
  finish(frame: PageFrame): Page {
    const { glyphs, advances, clusters, offsets, count } = this;
    // In one block: it is the blocks that are dear to make.
    const block = new ArrayBuffer(count * 8);
    const page: Page = {
      ...frame,
      items: this.items,
      glyphs: copyInto(new Uint16Array(block, count * 4, count), glyphs.subarray(0, count)),
      advances: copyInto(new Float32Array(block, 0, count), advances.subarray(0, count)),
      offsets: offsets ? offsets.slice(0, count * 2) : null,
      clusters: copyInto(new Uint16Array(block, count * 6, count), clusters.subarray(0, count)),
    };
    spare = { glyphs, advances, clusters };
    return page;
  }

  private grow(): void {
    const wider = this.glyphs.length * 2;
    this.glyphs = copyInto(new Uint16Array(wider), this.glyphs);
    this.advances = copyInto(new Float32Array(wider), this.advances);
    this.clusters = copyInto(new Uint16Array(wider), this.clusters);
    if (this.offsets) this.offsets = copyInto(new Float32Array(wider * 2), this.offsets);
  }
}

function copyInto<T extends Uint16Array | Float32Array>(target: T, source: T): T {
  target.set(source);
  return target;
}
