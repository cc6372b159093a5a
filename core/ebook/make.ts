/**
 * The ebook. In: one edition's view with design, fonts, cover and the print edition's pages; out: the entries of an
 * EPUB 3.3 container in their final order, ready to be zipped. Same request, same bytes.
 */
import type { EbookDesign, Ornament } from '#design';
import { accessibilityMetadata } from './accessibility.ts';
import type { BookContext } from './context.ts';
import { type FontFaceRule, styleSheet } from './css.ts';
import { fontMediaType, mayEmbed } from './fonts.ts';
import { isRightToLeft, languageTag } from './links.ts';
import { ornamentPath, ornamentSvg, picturePath, sidesOf } from './looks.ts';
import { ROOT, safeFileName } from './names.ts';
import { navDocument, ncxDocument } from './navigation.ts';
import { navigationOf } from './outline.ts';
import { type ManifestItem, packageDocument } from './package.ts';
import { PageBreaks } from './pages.ts';
import { imageEnding, Pictures } from './pictures.ts';
import { type Plan, planFiles } from './plan.ts';
import type { EbookRequest } from './request.ts';
import { type TextFile, writeCover, writeTextFiles } from './text.ts';
import type { EbookEntry } from './types.ts';
import { utf8 } from './utf8.ts';
import { ebookWords } from './words.ts';
import { attributes, XML_DECLARATION } from './xml.ts';

/** Every file of the ebook. Expects a request whose parts were checked where they came in. */
export function makeEbook(request: EbookRequest): readonly EbookEntry[] {
  const plan = planFiles(request.view);
  const book = contextOf(request, plan);
  const coverPath = `images/cover.${imageEnding(request.cover.mediaType) ?? 'jpg'}`;
  const cover = writeCover(book, request.cover, coverPath);
  const text = writeTextFiles(plan, book);
  const navigation = navigationOf({ plan, book, text, cover });
  const resources = resourcesOf(request, book, coverPath);
  const nav: Resource = {
    item: { id: 'nav', href: 'nav.xhtml', mediaType: XHTML, properties: 'nav' },
    bytes: utf8(navDocument(navigation)),
  };
  const ncx: Resource = {
    item: { id: 'ncx', href: 'toc.ncx', mediaType: 'application/x-dtbncx+xml' },
    bytes: utf8(ncxDocument({ navigation, identifier: request.view.metadata.identifier, title: navigation.bookTitle })),
  };
  const pages = [cover, ...text].map(pageResource);
  const all = [nav, ncx, ...pages, ...resources];
  const spine = spineOf(plan, [cover, ...text]);
  const packageXml = packageDocument({
    ...packageParts(request, book),
    items: all.map((each) => each.item),
    spine,
  });
  return [
    plainEntry('mimetype', 'application/epub+zip', 'application/epub+zip', false),
    plainEntry('META-INF/container.xml', CONTAINER, 'application/xml', true),
    plainEntry(`${ROOT}/package.opf`, packageXml, 'application/oebps-package+xml', true),
    ...all.map(entryOf),
  ];
}

const XHTML = 'application/xhtml+xml';

const CONTAINER = `${XML_DECLARATION}<container xmlns="urn:oasis:names:tc:opendocument:xmlns:container" version="1.0">
<rootfiles>
<rootfile${attributes({ 'full-path': `${ROOT}/package.opf`, 'media-type': 'application/oebps-package+xml' })}/>
</rootfiles>
</container>
`;

interface Resource {
  readonly item: ManifestItem;
  readonly bytes: Uint8Array;
}

/** What the writers of an ebook share. */
export function contextOf(request: Pick<EbookRequest, 'view' | 'design' | 'pageStarts'>, plan: Plan): BookContext {
  const language = languageTag(request.view.metadata.language) ?? 'und';
  return {
    view: request.view,
    design: request.design,
    language,
    words: ebookWords(language),
    pages: new PageBreaks(request.pageStarts),
    pictures: new Pictures(request.view.asset),
    fileOf: plan.fileOf,
    noteFileOf: plan.noteFileOf,
    referenceFileOf: plan.referenceFileOf,
  };
}

function pageResource(file: TextFile): Resource {
  return { item: { id: file.id, href: file.path, mediaType: XHTML }, bytes: utf8(file.xhtml) };
}

/** The contents stand in the spine only where the edition has them; the nav document is in the package in any case. */
function spineOf(plan: Plan, files: readonly TextFile[]): readonly string[] {
  const spine = files.map((file) => file.id);
  const contents = plan.files.findIndex((file) => file.kind === 'contents');
  // The cover comes before the planned files.
  if (contents >= 0) spine.splice(contents + 1, 0, 'nav');
  return spine;
}

function packageParts(
  request: EbookRequest,
  book: BookContext,
): Omit<Parameters<typeof packageDocument>[0], 'items' | 'spine'> {
  const { view, cover, printIsbn } = request;
  const { pages, pictures, words } = book;
  const hasPages = pages.written.length > 0;
  const described = pictures.allDescribed && cover.alt.trim() !== '';
  return {
    metadata: view.metadata,
    language: book.language,
    isbn: view.edition.isbn,
    modified: request.modified,
    accessibility: accessibilityMetadata({
      headings: view.sections.some((section) => section.title !== null || section.number !== null),
      pageBreaks: hasPages,
      informativePictures: pictures.hasInformative,
      allDescribed: described,
      words,
    }),
    accessibilityLanguage: words.language,
    // An ebook is no source of its own page numbers (FACTS E-66).
    pageSource: hasPages
      ? { isbn: printIsbn === view.edition.isbn ? null : printIsbn, name: words.printEdition(view.metadata.title) }
      : null,
    coverId: 'cover-image',
    ncxId: 'ncx',
  };
}

/** Style sheet, cover, pictures, ornaments, fonts and their licences. */
function resourcesOf(request: EbookRequest, book: BookContext, coverPath: string): readonly Resource[] {
  const fonts = fontsOf(request);
  const sides = sidesOf(isRightToLeft(book.language));
  const css = styleSheet(
    request.design,
    fonts.map((font) => font.rule),
    sides,
  );
  const pictures = book.pictures.used.map((picture, index) => ({
    item: { id: `picture-${index + 1}`, href: picture.path, mediaType: picture.asset.mediaType },
    bytes: picture.asset.bytes,
  }));
  return [
    { item: { id: 'style', href: 'style.css', mediaType: 'text/css' }, bytes: utf8(css) },
    {
      item: { id: 'cover-image', href: coverPath, mediaType: request.cover.mediaType, properties: 'cover-image' },
      bytes: request.cover.bytes,
    },
    ...pictures,
    ...ornamentsOf(request, css),
    ...markOf(request),
    ...fonts.map((font) => font.resource),
    ...licencesOf(request),
  ];
}

function ornamentsOf({ design }: EbookRequest, css: string): readonly Resource[] {
  return [...ornamentsIn(css, design)].map(([href, ornament], index) => ({
    item: { id: `ornament-${index + 1}`, href, mediaType: 'image/svg+xml' },
    bytes: utf8(ornamentSvg(ornament)),
  }));
}

/** The picture between scenes, where it is one. */
function markOf({ view, design }: EbookRequest): readonly Resource[] {
  const { shown } = design.sceneBreak;
  const asset = shown.kind === 'picture' ? view.asset(shown.asset) : undefined;
  if (shown.kind !== 'picture' || !asset) return [];
  return [{ item: { id: 'scene-break', href: picturePath(shown), mediaType: asset.mediaType }, bytes: asset.bytes }];
}

/** The ornaments that a style sheet names, by their paths from the package document. */
export function ornamentsIn(css: string, design: EbookDesign): ReadonlyMap<string, Ornament> {
  const known = [
    design.sceneBreak.shown.kind === 'drawn' ? design.sceneBreak.shown.ornament : null,
    design.titlePage.ornament,
    design.opener.ornament,
    design.part.ornament,
    design.matter.ornament,
  ];
  const used = new Map<string, Ornament>();
  for (const ornament of known) {
    if (ornament !== null && css.includes(ornamentPath(ornament))) used.set(ornamentPath(ornament), ornament);
  }
  return used;
}

/** Fonts whose licence bits forbid embedding stay out: the style sheet then falls back on the reader's serif. */
function embeddable(request: EbookRequest): EbookRequest['fonts'] {
  return request.fonts.filter((font) => mayEmbed(font.bytes));
}

function fontsOf(request: EbookRequest): readonly { readonly rule: FontFaceRule; readonly resource: Resource }[] {
  const names = new UniqueNames();
  return embeddable(request).map((font, index) => {
    const href = `fonts/${names.take(safeFileName(font.fileName))}`;
    return {
      rule: { family: font.family, weight: font.weight, italic: font.italic, path: href },
      resource: {
        item: { id: `font-${index + 1}`, href, mediaType: fontMediaType(font.bytes) ?? 'font/ttf' },
        bytes: font.bytes,
      },
    };
  });
}

function licencesOf(request: EbookRequest): readonly Resource[] {
  if (embeddable(request).length === 0) return [];
  const names = new UniqueNames();
  return request.fontLicences.map((licence, index) => ({
    item: {
      id: `licence-${index + 1}`,
      href: `fonts/${names.take(safeFileName(licence.fileName))}`,
      mediaType: 'text/plain',
    },
    bytes: utf8(licence.text),
  }));
}

/** Names in one folder differ after case folding (FACTS E-09). */
class UniqueNames {
  private readonly taken = new Set<string>();

  take(name: string): string {
    let unique = name;
    for (let count = 2; this.taken.has(unique.toLowerCase()); count++) unique = `${count}-${name}`;
    this.taken.add(unique.toLowerCase());
    return unique;
  }
}

function plainEntry(path: string, text: string, mediaType: string, compress: boolean): EbookEntry {
  return { path, bytes: utf8(text), mediaType, compress };
}

/** Pictures and packed fonts are compressed already. */
function entryOf({ item, bytes }: Resource): EbookEntry {
  const packed = /^image\/(?!svg)|^font\/woff/.test(item.mediaType);
  return { path: `${ROOT}/${item.href}`, bytes, mediaType: item.mediaType, compress: !packed };
}
