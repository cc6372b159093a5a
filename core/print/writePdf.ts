/**
 * The print interior. In: pages (a display list), fonts, pictures, what the document is; out: the bytes of a PDF file,
 * the same for the same request.
 */
import type { LinkItem, Page } from '#page';
import { boxesOf, type PageBoxes } from './boxes.ts';
import { embedFont } from './fonts.ts';
import { ImageStore } from './images.ts';
import { writeInformation, writeXmp } from './metadata.ts';
import { destination, writeOutline, writePageLabels } from './navigation.ts';
import { type Dictionary, literal, ObjectStore, type Ref } from './objects.ts';
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
  private readonly objects = new ObjectStore();
  private readonly images: ImageStore;
  private readonly pageRefs: readonly Ref[];
  private readonly boxes: readonly PageBoxes[];
  private readonly tree: Ref;
  private readonly resources: Ref;
  private places: PlaceOf | null = null;

  constructor(private readonly request: PrintRequest) {
    this.images = new ImageStore(this.objects, request);
    this.boxes = request.pages.map((page) => boxesOf(page, request.bleed ?? 0));
    this.tree = this.objects.reserve();
    this.resources = this.objects.reserve();
    this.pageRefs = request.pages.map(() => this.objects.reserve());
  }

  write(): Uint8Array {
    const { objects, request } = this;
    const writer = new PageWriter(request.library, this.images);
    request.pages.forEach((page, i) => {
      this.writePage(page, i, writer);
    });
    this.writeResources(writer);
    objects.assign(this.tree, { Type: 'Pages', Kids: this.pageRefs, Count: this.pageRefs.length });
    const catalog = this.writeCatalog();
    const information = writeInformation(objects, request.document);
    return serialize(objects.list(), catalog, information);
  }

  private writePage(page: Page, index: number, writer: PageWriter): void {
    const { objects, request } = this;
    const { media, trim } = this.boxes[index]!;
    const content = request.deflate(writer.write(page, this.boxes[index]!));
    const contents = objects.addStream({ Filter: 'FlateDecode' }, content);
    const links = request.links === false ? [] : this.linksOf(page, index);
    objects.assign(this.pageRefs[index]!, {
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
    return this.objects.add({ Type: 'Annot', Subtype: 'Link', Rect: box, Border: [0, 0, 0], ...target });
  }

  private destinationOf(place: Place) {
    const box = this.boxes[place.page]!;
    return destination(this.pageRefs[place.page]!, box.trim[3] - place.y);
  }

  private writeResources(writer: PageWriter): void {
    const { objects, request } = this;
    const fonts: Record<string, Ref> = {};
    for (const face of writer.usedFaces()) fonts[face.resource] = embedFont(objects, face, request.deflate);
    const images = this.images.resources();
    objects.assign(this.resources, { Font: fonts, XObject: images });
  }

  private writeCatalog(): Ref {
    const { objects, request } = this;
    const labels = writePageLabels(objects, request.pages);
    const metadata = writeXmp(objects, request.document);
    const outline = writeOutline(objects, request.outline, (entry) => this.destinationOf(entry));
    return objects.add({
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
