/**
 * The facade over the rooms, for the worker and the host: it only dispatches. Fonts and hyphenation patterns are loaded
 * before it is made; from there on everything is synchronous and pure.
 */
import type { EditionId, Finding, SectionId } from '#base';
import { type Book, type Edition, type EditionView, type PrintEdition, selectEdition } from '#book';
import { type DesignSettings, type DressedSettings, defaultPress, designOf, resolveForEbook } from '#design';
import { type EbookCover, type EbookEntry, makeEbook, type PageStart } from '#ebook';
import {
  countPages,
  type MadeUp,
  type MakeUpRequest,
  makeUp,
  makeUpSection,
  type Preparation,
  prepareSections,
} from '#makeup';
import { needBleed, type Page } from '#page';
import { createSetter, type ParagraphSetter } from '#paragraph';
import { type Aside, type PrintRequest, writePdf, writePdfAside } from '#print';
import type { FontLibrary, Hyphenator } from '#type';
import { Dresser } from './dress.ts';
import { ebookFonts } from './ebookFonts.ts';
import { fitPages } from './fit.ts';

export interface EngineParts {
  readonly library: FontLibrary;
  /** By BCP 47 tag, for every language of `languagesOf(book)` that has patterns. */
  readonly hyphenators: ReadonlyMap<string, Hyphenator>;
}

/** A print edition, made up. */
export interface PrintBook {
  readonly edition: PrintEdition;
  readonly view: EditionView;
  readonly madeUp: MadeUp;
}

export interface PdfOptions {
  /** Seconds since 1970-01-01T00:00:00Z. */
  readonly date: number;
  /** zlib's format, as PDF's FlateDecode reads it. */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
}

export interface EbookParts {
  readonly cover: EbookCover;
  /** Where the print edition's pages begin; empty without one. */
  readonly pageStarts: readonly PageStart[];
  readonly printIsbn: string | null;
  /** Seconds since 1970-01-01T00:00:00Z. */
  readonly modified: number;
  readonly fontLicences: readonly { readonly fileName: string; readonly text: string }[];
}

export class Engine {
  private readonly setter: ParagraphSetter;
  private readonly dresser: Dresser;

  constructor(private readonly parts: EngineParts) {
    this.dresser = new Dresser(parts.library);
    this.setter = createSetter({
      library: parts.library,
      hyphenator: (language) => parts.hyphenators.get(language) ?? null,
    });
  }

  get library(): FontLibrary {
    return this.parts.library;
  }

  /** Makes up a print edition. A RangeError for an edition that is not one of print. */
  print(book: Book, id: EditionId): PrintBook {
    const view = selectEdition(book, id);
    if (view.edition.kind !== 'print') throw new RangeError(`${id} is not a print edition`);
    const { edition } = view;
    const settings = this.dressed(book, edition);
    const told = this.told(book, edition);
    const request = { view, settings, library: this.parts.library, setter: this.setter, told };
    if (!edition.fit) return { edition, view, madeUp: makeUp(request) };
    const count = (tried: DesignSettings): number => countPages({ ...request, settings: tried });
    const pages = countPages(request, true);
    const fitted = fitPages({ fit: edition.fit, edition, settings, pages, count });
    const madeUp = makeUp({ ...request, settings: fitted.settings, told: [...told, fitted.finding] });
    return { edition, view, madeUp };
  }

  /** One section's pages after a change, where they stood in the layout before it; null where it had none. */
  printSection(of: {
    readonly book: Book;
    readonly edition: EditionId;
    readonly previous: MadeUp;
    readonly section: SectionId;
  }): readonly Page[] | null {
    return makeUpSection(this.request(of.book, of.edition), of.previous, of.section);
  }

  /** Does the slow part of `print` section by section, the one in view first; `print` then finds it done. */
  prepare(book: Book, id: EditionId, inView: SectionId | null): Generator<Preparation, void> {
    return prepareSections(this.request(book, id), inView);
  }

  private request(book: Book, id: EditionId): MakeUpRequest {
    const view = selectEdition(book, id);
    const { library } = this.parts;
    return { view, settings: this.dressed(book, view.edition), library, setter: this.setter };
  }

  /** The interior of a made-up print edition. */
  pdf(book: Book, print: PrintBook, options: PdfOptions): Uint8Array {
    return writePdf(this.printRequest(book, print, options));
  }

  /** The same bytes, while pages are deflated and fonts are cut elsewhere. */
  pdfAside(book: Book, print: PrintBook, options: PdfOptions & { readonly aside: Aside }): Promise<Uint8Array> {
    return writePdfAside(this.printRequest(book, print, options), options.aside);
  }

  private printRequest(book: Book, print: PrintBook, { date, deflate }: PdfOptions): PrintRequest {
    const { metadata } = book;
    const { pages } = print.madeUp;
    return {
      pages,
      library: this.parts.library,
      asset: (id) => book.assets.get(id),
      document: {
        title: metadata.title,
        author: metadata.contributors
          .filter((each) => each.role === 'aut')
          .map((each) => each.name)
          .join(', '),
        subject: metadata.subtitle ?? '',
        keywords: metadata.subjects,
        language: metadata.language,
        creator: 'Reglet',
        date,
      },
      outline: print.madeUp.outline,
      bleed: needBleed(pages) ? defaultPress.bleed : 0,
      deflate,
    };
  }

  /** The entries of an ebook edition, in their order. */
  ebook(book: Book, id: EditionId, parts: EbookParts): readonly EbookEntry[] {
    const view = selectEdition(book, id);
    const design = resolveForEbook(this.dressed(book, view.edition));
    return makeEbook({
      view,
      design,
      fonts: ebookFonts(view, design, this.parts.library),
      ...parts,
    });
  }

  /** The settings that an edition is designed by, in fonts that there are. */
  settingsOf(book: Book, id: EditionId): DressedSettings {
    return this.dressed(book, editionOf(book, id));
  }

  /** What the author should know of the fonts and marks of an edition. */
  told(book: Book, edition: Edition): readonly Finding[] {
    let told: readonly Finding[] = [];
    designOf(book, edition, (settings) => {
      told = this.dresser.told(settings, edition, book);
      return settings;
    });
    return told;
  }

  private dressed(book: Book, edition: Edition): DressedSettings {
    return designOf(book, edition, (settings) => this.dresser.dressed(settings, (id) => book.assets.get(id)));
  }
}

function editionOf(book: Book, id: EditionId): Edition {
  const edition = book.editions.find((each) => each.id === id);
  if (!edition) throw new RangeError(`there is no edition ${JSON.stringify(id)}`);
  return edition;
}
