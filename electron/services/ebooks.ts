/** Makes ebook files in memory. In: an engine and a book; out: EPUB bytes. The cover is painted ahead of the text. */
import type { EditionId } from '#base';
import type { Book } from '#book';
import type { DesignSettings } from '#design';
import type { EbookCover, EbookEntry, PageStart } from '#ebook';
import type { Engine } from '#engine';
import { BUNDLED_FONTS } from './bundled.ts';
import { fontLicence } from './bundled-files.ts';
import { coverOf } from './cover.ts';

export class EbookMaker {
  private readonly covers = new Map<EditionId, Promise<EbookCover>>();

  /** @param date what the files carry as their last change, seconds since 1970-01-01T00:00:00Z. */
  constructor(
    private readonly engine: Engine,
    private readonly book: Book,
    private readonly date: number,
  ) {}

  /** Begins with the cover, which needs no page of the print edition. A failure is reported by `entries`. */
  prepare(id: EditionId): void {
    this.cover(id).catch(() => undefined);
  }

  /** What an ebook edition holds, with the folios of the print edition whose pages begin at `pageStarts`. */
  async entries(id: EditionId, pageStarts: readonly PageStart[]): Promise<readonly EbookEntry[]> {
    return this.engine.ebook(this.book, id, {
      cover: await this.cover(id),
      pageStarts,
      printIsbn: this.book.editions.find((edition) => edition.kind === 'print')?.isbn ?? null,
      modified: this.date,
      fontLicences: licencesOf(this.engine.settingsOf(this.book, id)),
    });
  }

  private cover(id: EditionId): Promise<EbookCover> {
    let cover = this.covers.get(id);
    if (!cover) {
      cover = coverOf(this.book, id, this.engine.library);
      this.covers.set(id, cover);
    }
    return cover;
  }
}

/** The licences of the families that an ebook embeds; none for one of this computer, whose terms are its owner's affair. */
function licencesOf({
  text,
  display,
}: DesignSettings): readonly { readonly fileName: string; readonly text: string }[] {
  return [...new Set([text.family, display.family])].flatMap((family) => {
    const font = BUNDLED_FONTS.find((each) => each.family === family && !each.fallback);
    return font ? [{ fileName: font.licenceFile, text: fontLicence(font.licenceFile) }] : [];
  });
}
