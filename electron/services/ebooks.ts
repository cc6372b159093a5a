/** Makes ebook files in memory. In: an engine and a book; out: EPUB bytes. The cover is painted ahead of the text. */
import type { EditionId } from '#base';
import type { Book } from '#book';
import type { EbookCover, PageStart } from '#ebook';
import type { Engine } from '#engine';
import { BUNDLED_FONTS } from './bundled.ts';
import { fontLicence } from './bundled-files.ts';
import { coverOf } from './cover.ts';
import { zipEntries } from './zip.ts';

export class EbookMaker {
  private readonly covers = new Map<EditionId, Promise<EbookCover>>();

  /** @param date what the files carry as their last change, seconds since 1970-01-01T00:00:00Z. */
  constructor(
    private readonly engine: Engine,
    private readonly book: Book,
    private readonly date: number,
  ) {}

  /** Begins with the cover, which needs no page of the print edition. A failure is reported by `make`. */
  prepare(id: EditionId): void {
    this.cover(id).catch(() => undefined);
  }

  /** The file of an ebook edition, carrying the folios of the print edition whose pages begin at `pageStarts`. */
  async make(id: EditionId, pageStarts: readonly PageStart[]): Promise<Uint8Array> {
    const entries = this.engine.ebook(this.book, id, {
      cover: await this.cover(id),
      pageStarts,
      printIsbn: this.book.editions.find((edition) => edition.kind === 'print')?.isbn ?? null,
      modified: this.date,
      fontLicences: licencesOf(this.engine.settingsOf(this.book, id).text.family),
    });
    return await zipEntries(entries);
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

/** The licence of the family that an ebook embeds; none where it is one of the author's own. */
function licencesOf(family: string): readonly { readonly fileName: string; readonly text: string }[] {
  const font = BUNDLED_FONTS.find((each) => each.family === family);
  return font ? [{ fileName: font.licenceFile, text: fontLicence(font.licenceFile) }] : [];
}
