/**
 * A page's display list as a content stream. In: a page; out: bytes. Takes no decisions: whatever the list says is painted
 * in its order.
 */
import { assertNever, type FaceId } from '#base';
import type { GlyphRun, ImageItem, Page, PathItem, RuleItem } from '#page';
import type { FontLibrary } from '#type';
import type { PageBoxes } from './boxes.ts';
import { FaceText } from './faceText.ts';
import type { ImageStore } from './images.ts';
import { readPath, type Segment } from './path.ts';
import { ByteSink } from './sink.ts';
import { TextWriter } from './textWriter.ts';

/** Where the trimmed page lies: its left edge and its top in the file's coordinates. */
interface Origin {
  readonly x: number;
  readonly top: number;
}

export class PageWriter {
  private readonly sink = new ByteSink();
  private readonly faces = new Map<FaceId, FaceText>();
  private readonly text: TextWriter;
  private readonly paths = new Map<string, readonly Segment[]>();

  constructor(
    private readonly library: FontLibrary,
    private readonly images: ImageStore,
  ) {
    this.text = new TextWriter(this.sink, (id) => this.faceOf(id));
  }

  /** The faces met so far, in the order of their first use. */
  usedFaces(): Iterable<FaceText> {
    return this.faces.values();
  }

  /** The content of a page; valid until the next call. */
  write(page: Page, boxes: PageBoxes): Uint8Array {
    const origin = { x: boxes.trim[0], top: boxes.trim[3] };
    this.sink.clear();
    this.text.startPage();
    for (const item of page.items) this.item(page, item, origin);
    this.text.close();
    return this.sink.view();
  }

  private item(page: Page, item: Page['items'][number], origin: Origin): void {
    switch (item.kind) {
      case 'glyphs':
        this.run(page, item, origin);
        break;
      case 'rule':
        this.rule(item, origin);
        break;
      case 'path':
        this.path(item, origin);
        break;
      case 'image':
        this.image(item, origin);
        break;
      case 'link':
        break;
      default:
        assertNever(item);
    }
  }

  private run(page: Page, run: GlyphRun, origin: Origin): void {
    this.text.run(page, run, origin);
  }

  private rule(rule: RuleItem, origin: Origin): void {
    this.beginArtwork(rule.grey);
    this.numbers(origin.x + rule.x, origin.top - rule.y - rule.height, rule.width, rule.height);
    this.sink.text('re f\nEMC\n');
  }

  private path(path: PathItem, origin: Origin): void {
    this.beginArtwork(path.grey);
    const scaleX = path.width / path.viewBox.width;
    const scaleY = path.height / path.viewBox.height;
    const left = origin.x + path.x;
    const top = origin.top - path.y;
    for (const segment of this.segmentsOf(path.path)) {
      this.segment(
        segment,
        (x) => left + x * scaleX,
        (y) => top - y * scaleY,
      );
    }
    this.sink.text('f\nEMC\n');
  }

  private segment(segment: Segment, x: (value: number) => number, y: (value: number) => number): void {
    switch (segment.kind) {
      case 'move':
        this.numbers(x(segment.x), y(segment.y));
        this.sink.text('m\n');
        break;
      case 'line':
        this.numbers(x(segment.x), y(segment.y));
        this.sink.text('l\n');
        break;
      case 'curve': {
        const [x1, y1, x2, y2, x3, y3] = segment.points;
        this.numbers(x(x1), y(y1), x(x2), y(y2), x(x3), y(y3));
        this.sink.text('c\n');
        break;
      }
      case 'close':
        this.sink.text('h\n');
        break;
      default:
        assertNever(segment);
    }
  }

  private image(image: ImageItem, origin: Origin): void {
    const name = this.images.nameOf(image.asset);
    if (name === null) return;
    this.text.close();
    if (image.furniture) this.sink.text('/Artifact BMC\n');
    this.sink.text('q ');
    if (image.clip) {
      const { x, y, width, height } = image.clip;
      this.numbers(origin.x + x, origin.top - y - height, width, height);
      this.sink.text('re W n\n');
    }
    this.numbers(image.width, 0, 0, image.height, origin.x + image.x, origin.top - image.y - image.height);
    this.sink.text(`cm /${name} Do Q\n`);
    if (image.furniture) this.sink.text('EMC\n');
  }

  /** Rules and ornaments are no part of the text. */
  private beginArtwork(grey = 0): void {
    this.text.close();
    this.sink.text('/Artifact BMC\n');
    this.text.fillGrey(grey);
  }

  private numbers(...values: readonly number[]): void {
    for (const value of values) this.sink.thousandths(Math.round(value * 1000));
  }

  private segmentsOf(data: string): readonly Segment[] {
    let segments = this.paths.get(data);
    if (!segments) {
      segments = readPath(data);
      this.paths.set(data, segments);
    }
    return segments;
  }

  private faceOf(id: FaceId): FaceText {
    let face = this.faces.get(id);
    if (!face) {
      face = new FaceText(this.library.face(id), `F${this.faces.size + 1}`);
      this.faces.set(id, face);
    }
    return face;
  }
}
