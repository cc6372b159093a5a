/** The cover of an ebook: the author's picture, or one made of title and author. */
import type { EditionId } from '#base';
import { authorsOf, type Book, namesInARow } from '#book';
import { COVER_SIZE, coverAlt, coverSvg, type EbookCover } from '#ebook';
import { coverOutline } from '#engine';
import type { FontLibrary } from '#type';
import { paintCover } from './cover-painter.ts';

/** EPUB's image types for a cover (EPUB 3.3, "core media types"). */
const COVER_TYPES: ReadonlySet<string> = new Set(['image/jpeg', 'image/png', 'image/gif', 'image/webp']);

/** The family that generated covers are set in. */
const FAMILY = 'EB Garamond';

/** The cover of an ebook edition, with its alternative text. */
export async function coverOf(book: Book, id: EditionId, library: FontLibrary): Promise<EbookCover> {
  const author = namesInARow(authorsOf(book.metadata), book.metadata.language);
  const alt = coverAlt(book.metadata);
  const edition = book.editions.find((each) => each.id === id);
  const asset = edition?.kind === 'ebook' && edition.cover !== null ? book.assets.get(edition.cover) : undefined;
  if (asset && COVER_TYPES.has(asset.mediaType)) {
    const { width, height } = asset.pixels ?? COVER_SIZE;
    return { bytes: asset.bytes, mediaType: asset.mediaType, width, height, alt };
  }
  const { title, subtitle, language } = book.metadata;
  const svg = coverSvg({
    title,
    subtitle,
    author,
    outline: coverOutline(library.family(FAMILY), library.fallbacks, language),
  });
  return { bytes: await paintCover(svg), mediaType: 'image/png', ...COVER_SIZE, alt };
}
