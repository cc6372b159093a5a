/**
 * The print interior. In: pages (a display list), fonts, pictures, what the document is; out: the bytes of a PDF file,
 * the same for the same request.
 */
import type { LinkItem, Page } from '#page';
import type { FontFace } from '#type';
import { boxesOf, type PageBoxes } from './boxes.ts';
import type { FaceText } from './faceText.ts';
import { PdfFile } from './file.ts';
import { type CutFont, cutFont, embedFont } from './fonts.ts';
import { ImageStore } from './images.ts';
import { writeInformation, writeXmp } from './metadata.ts';
import { destination, writeOutline, writePageLabels } from './navigation.ts';
import { type Dictionary, literal, type Ref } from './objects.ts';
import { PageWriter } from './pageWriter.ts';
import { placesOf } from './places.ts';
import type { Place, PlaceOf, PrintRequest } from './request.ts';
import { ByteSink } from './sink.ts';

/** Pages whose contents are packed together. */
const BATCH = 24;

/** Writes a book block. Pages must be there; a face that the library lacks is a RangeError. */
export function writePdf(request: PrintRequest): Uint8Array {
  const writer = new DocumentWriter(request);
  const contents: Uint8Array[] = [];
  for (const content of writer.contents()) contents.push(request.deflate(content));
  return writer.finish(contents, writer.faces().map(cutFont));
}

/** Streams, one after the other: their bytes, and where each ends. */
export interface Batch {
  readonly bytes: Uint8Array;
  readonly ends: readonly number[];
}

/** Deflates each stream of a batch as `PrintRequest.deflate` does, somewhere else. The bytes are given away. */
export type Pack = (batch: Batch) => Promise<Batch>;

/** What is done elsewhere while the file is written. */
export interface Aside {
  readonly pack: Pack;
  /** A font with these glyphs alone, as `FontFace.subset` makes it. */
  readonly cut: (face: FontFace, glyphs: readonly number[]) => Promise<Uint8Array>;
}

/** The same file, while pages are deflated and fonts are cut elsewhere: that takes as long as writing the pages. */
export async function writePdfAside(request: PrintRequest, { pack, cut }: Aside): Promise<Uint8Array> {
  const writer = new DocumentWriter(request);
  const packed: Promise<Batch>[] = [];
  const batch = new ByteSink();
  let ends: number[] = [];
  const send = () => {
    packed.push(pack({ bytes: batch.copy(), ends }));
    batch.clear();
    ends = [];
  };
  for (const content of writer.contents()) {
    batch.append(content);
    ends.push(batch.size);
    if (ends.length === BATCH) send();
  }
  if (ends.length > 0) send();
  const cutAside = async (text: FaceText): Promise<CutFont> =>
    text.face.maySubset ? { text, program: await cut(text.face, text.glyphs()) } : cutFont(text);
  const [contents, fonts] = await Promise.all([Promise.all(packed), Promise.all(writer.faces().map(cutAside))]);
  return writer.finish(contents.flatMap(streamsOf), fonts);
}

/** The streams of a batch, as views of its bytes. */
function streamsOf({ bytes, ends }: Batch): Uint8Array[] {
  return ends.map((end, index) => bytes.subarray(ends[index - 1] ?? 0, end));
}

class DocumentWriter {
  private readonly file = new PdfFile();
  private readonly images: ImageStore;
  private readonly writer: PageWriter;
  private readonly pageRefs: readonly Ref[];
  private readonly boxes: readonly PageBoxes[];
  private readonly tree: Ref;
  private readonly resources: Ref;
  private places: PlaceOf | null = null;

  constructor(private readonly request: PrintRequest) {
    if (request.pages.length === 0) throw new RangeError('a PDF needs at least one page');
    this.images = new ImageStore(this.file, request);
    this.writer = new PageWriter(request.library, this.images);
    this.boxes = request.pages.map((page) => boxesOf(page, request.bleed ?? 0));
    this.tree = this.file.reserve();
    this.resources = this.file.reserve();
    this.pageRefs = request.pages.map(() => this.file.reserve());
  }

  /** What each page paints, as bytes that are valid until the next page is asked for. */
  *contents(): Generator<Uint8Array, void> {
    for (const [index, page] of this.request.pages.entries()) yield this.writer.write(page, this.boxes[index]!);
  }

  /** The faces that the contents are set in, known once all are written. */
  faces(): readonly FaceText[] {
    return [...this.writer.usedFaces()];
  }

  /** The file; `contents` are those of the pages, deflated. */
  finish(contents: readonly Uint8Array[], fonts: readonly CutFont[]): Uint8Array {
    const { file, request } = this;
    this.writeResources(fonts);
    request.pages.forEach((page, index) => {
      this.writePage(page, index, contents[index]!);
    });
    file.assign(this.tree, { Type: 'Pages', Kids: this.pageRefs, Count: this.pageRefs.length });
    const catalog = this.writeCatalog();
    return file.finish(catalog, writeInformation(file, request.document));
  }

  private writeResources(fonts: readonly CutFont[]): void {
    const { file, request } = this;
    const refs = fonts.map((font) => [font.text.resource, embedFont(file, font, request.deflate)] as const);
    file.assign(this.resources, { Font: Object.fromEntries(refs), XObject: this.images.resources() });
  }

  private writePage(page: Page, index: number, content: Uint8Array): void {
    const { file, request } = this;
    const { media, trim } = this.boxes[index]!;
    const contents = file.addStream({ Filter: 'FlateDecode' }, content);
    const links = request.links === false ? [] : this.linksOf(page, index);
    file.assign(this.pageRefs[index]!, {
      Type: 'Page',
      Parent: this.tree,
      MediaBox: media,
      BleedBox: media,
      TrimBox: trim,
      Resources: this.resources,
      Contents: contents,
      ...(links.length > 0 ? { Annots: links, Tabs: 'S' } : {}),
    });
  }

  private linksOf(page: Page, index: number): Ref[] {
    const refs: Ref[] = [];
    for (const item of page.items) {
      if (item.kind !== 'link') continue;
      const target = this.linkTarget(item);
      if (target) refs.push(this.writeLink(item, index, target));
    }
    return refs;
  }

  private linkTarget(item: LinkItem): Dictionary | null {
    if ('url' in item.target) return { A: { S: 'URI', URI: literal(asciiUrl(item.target.url)) } };
    // Read from the pages only where a link asks for it.
    this.places ??= placesOf(this.request.pages);
    const place = this.places(item.target.at);
    return place ? { Dest: this.destinationOf(place) } : null;
  }

  private writeLink(item: LinkItem, index: number, target: Dictionary): Ref {
    const { trim } = this.boxes[index]!;
    const left = trim[0] + item.x;
    const top = trim[3] - item.y;
    const box = [left, top - item.height, left + item.width, top].map((value) => Math.round(value * 100) / 100);
    return this.file.add({ Type: 'Annot', Subtype: 'Link', Rect: box, Border: [0, 0, 0], ...target });
  }

  private destinationOf(place: Place) {
    const box = this.boxes[place.page]!;
    return destination(this.pageRefs[place.page]!, box.trim[3] - place.y);
  }

  private writeCatalog(): Ref {
    const { file, request } = this;
    const labels = writePageLabels(file, request.pages);
    const metadata = writeXmp(file, request.document);
    const outline = writeOutline(file, request.outline, (entry) => this.destinationOf(entry));
    return file.add({
      Type: 'Catalog',
      Pages: this.tree,
      PageLabels: labels,
      Metadata: metadata,
      ViewerPreferences: { DisplayDocTitle: true },
      ...(request.document.language ? { Lang: literal(request.document.language) } : {}),
      ...(outline ? { Outlines: outline, PageMode: 'UseOutlines' } : {}),
    });
  }
}

/** An address in ASCII, its parentheses and backslashes encoded so that they cannot end the string. */
function asciiUrl(url: string): string {
  return encodeURI(url)
    .replace(/%25(?=[0-9A-Fa-f]{2})/g, '%')
    .replace(/[()\\]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}
