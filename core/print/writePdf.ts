/**
 * The print interior. In: pages (a display list), fonts, pictures, what the document is; out: the bytes of a PDF file,
 * the same for the same request.
 */
import { PDFContext, PDFName, PDFRawStream, type PDFRef, PDFString } from 'pdf-lib';
import type { LinkItem, Page } from '#page';
import { boxesOf, type PageBoxes } from './boxes.ts';
import { embedFont } from './fonts.ts';
import { ImageStore } from './images.ts';
import { writeInformation, writeXmp } from './metadata.ts';
import { destination, writeOutline, writePageLabels } from './navigation.ts';
import { PageWriter } from './pageWriter.ts';
import { placesOf } from './places.ts';
import type { Place, PlaceOf, PrintRequest } from './request.ts';
import { serialize } from './serialize.ts';

/** Writes a book block. Pages must be there; a face that the library lacks is a RangeError. */
export function writePdf(request: PrintRequest): Uint8Array {
  if (request.pages.length === 0) throw new RangeError('a PDF needs at least one page');
  return new DocumentWriter(request).write();
}

class DocumentWriter {
  private readonly context = PDFContext.create();
  private readonly images: ImageStore;
  private readonly pageRefs: readonly PDFRef[];
  private readonly boxes: readonly PageBoxes[];
  private readonly tree: PDFRef;
  private readonly resources: PDFRef;
  private places: PlaceOf | null = null;

  constructor(private readonly request: PrintRequest) {
    this.images = new ImageStore(this.context, request);
    this.boxes = request.pages.map((page) => boxesOf(page, request.bleed ?? 0));
    this.tree = this.context.nextRef();
    this.resources = this.context.nextRef();
    this.pageRefs = request.pages.map(() => this.context.nextRef());
  }

  write(): Uint8Array {
    const { context, request } = this;
    const writer = new PageWriter(request.library, this.images);
    request.pages.forEach((page, i) => {
      this.writePage(page, i, writer);
    });
    this.writeResources(writer);
    const kids = this.pageRefs as PDFRef[];
    context.assign(this.tree, context.obj({ Type: 'Pages', Kids: kids, Count: kids.length }));
    return serialize(context, this.writeCatalog(), writeInformation(context, request.document));
  }

  private writePage(page: Page, index: number, writer: PageWriter): void {
    const { context, request } = this;
    const { media, trim } = this.boxes[index]!;
    const content = request.deflate(writer.write(page, this.boxes[index]!));
    const stream = PDFRawStream.of(context.obj({ Filter: 'FlateDecode' }), content);
    const dictionary = context.obj({
      Type: 'Page',
      Parent: this.tree,
      MediaBox: [...media],
      BleedBox: [...media],
      TrimBox: [...trim],
      Resources: this.resources,
      Contents: context.register(stream),
    });
    const links = request.links === false ? [] : this.linksOf(page, index);
    if (links.length > 0) {
      dictionary.set(PDFName.of('Annots'), context.obj(links));
      dictionary.set(PDFName.of('Tabs'), PDFName.of('S'));
    }
    context.assign(this.pageRefs[index]!, dictionary);
  }

  private linksOf(page: Page, index: number): PDFRef[] {
    const refs: PDFRef[] = [];
    for (const item of page.items) {
      if (item.kind !== 'link') continue;
      const target = this.linkTarget(item);
      if (target) refs.push(this.writeLink(item, index, target));
    }
    return refs;
  }

  private linkTarget(item: LinkItem): Readonly<Record<string, unknown>> | null {
    if ('url' in item.target) return { A: { S: 'URI', URI: PDFString.of(asciiUrl(item.target.url)) } };
    // Read from the pages only where a link asks for it.
    this.places ??= placesOf(this.request.pages);
    const place = this.places(item.target.at);
    return place ? { Dest: this.destinationOf(place) } : null;
  }

  private writeLink(item: LinkItem, index: number, target: Readonly<Record<string, unknown>>): PDFRef {
    const { context } = this;
    const { trim } = this.boxes[index]!;
    const left = trim[0] + item.x;
    const top = trim[3] - item.y;
    const box = [left, top - item.height, left + item.width, top].map((value) => Math.round(value * 100) / 100);
    const entries = { Type: 'Annot', Subtype: 'Link', Rect: box, Border: [0, 0, 0], ...(target as { Dest: PDFRef }) };
    return context.register(context.obj(entries));
  }

  private destinationOf(place: Place) {
    const box = this.boxes[place.page]!;
    return destination(this.context, this.pageRefs[place.page]!, box.trim[3] - place.y);
  }

  private writeResources(writer: PageWriter): void {
    const { context, request } = this;
    const fonts: Record<string, PDFRef> = {};
    for (const face of writer.usedFaces()) fonts[face.resource] = embedFont(context, face, request.deflate);
    const images = this.images.resources();
    context.assign(this.resources, context.obj({ Font: fonts, XObject: { ...images } }));
  }

  private writeCatalog(): PDFRef {
    const { context, request } = this;
    const catalog = context.obj({
      Type: 'Catalog',
      Pages: this.tree,
      PageLabels: writePageLabels(context, request.pages),
      Metadata: writeXmp(context, request.document),
      ViewerPreferences: { DisplayDocTitle: true },
      ...(request.document.language ? { Lang: PDFString.of(request.document.language) } : {}),
    });
    const outline = writeOutline(context, request.outline, (entry) => this.destinationOf(entry));
    if (outline) {
      catalog.set(PDFName.of('Outlines'), outline);
      catalog.set(PDFName.of('PageMode'), PDFName.of('UseOutlines'));
    }
    return context.register(catalog);
  }
}

/** An address in ASCII, its parentheses and backslashes encoded so that they cannot end the string. */
function asciiUrl(url: string): string {
  return encodeURI(url)
    .replace(/%25(?=[0-9A-Fa-f]{2})/g, '%')
    .replace(/[()\\]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}
