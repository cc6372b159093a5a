/**
 * Pictures. In: the text's figures and, for print, pages with pictures as placed; out: findings about resolution,
 * missing files and missing alternative text.
 */
import type { Node } from 'prosemirror-model';
import { type AssetId, type BlockId, type Finding, POINTS_PER_INCH, type SectionId } from '#base';
import type { Asset, Book, Change, EditionView } from '#book';
import type { ImageItem, Page } from '#page';

/** What printers want of photographs and drawings in grey, in pixels to the inch, and the least they take (FACTS P-32). */
export const WANTED_PPI = 300;
export const LEAST_PPI = 200;

/** Rules `images/...` that need no pages. */
export function checkFigures(book: Book): readonly Finding<Change>[] {
  return figuresOf(book.text).flatMap(({ node, section }) => [
    ...missingPicture(book, node, section),
    ...missingAlternative(node, section),
  ]);
}

/** Rules `images/...` about pictures as they stand on pages. */
export function checkPlacedImages(view: EditionView, pages: readonly Page[]): readonly Finding<Change>[] {
  const marks = new Set<AssetId>();
  return pages.flatMap((page) =>
    page.items.flatMap((item) => {
      const asset = item.kind === 'image' ? view.asset(item.asset) : undefined;
      if (item.kind !== 'image' || !asset || marks.has(item.asset)) return [];
      // A mark between scenes is the same picture at each of them: it is told of once.
      if (item.furniture) marks.add(item.asset);
      return resolutionOf(item, asset, page);
    }),
  );
}

/** Pixels to the inch as placed, the lower of across and down. Null where the picture has no pixels to count. */
export function effectivePpi(item: Pick<ImageItem, 'width' | 'height'>, asset: Pick<Asset, 'pixels'>): number | null {
  if (!asset.pixels) return null;
  const across = (asset.pixels.width * POINTS_PER_INCH) / item.width;
  const down = (asset.pixels.height * POINTS_PER_INCH) / item.height;
  return Math.min(across, down);
}

/** Sums of points are not exact: a picture is not blamed for the last bit. */
const SLACK = 1e-6;

function resolutionOf(item: ImageItem, asset: Asset, page: Page): readonly Finding<Change>[] {
  const ppi = effectivePpi(item, asset);
  if (ppi === null || ppi >= WANTED_PPI - SLACK) return [];
  const found = Math.floor(ppi + SLACK);
  return [
    {
      rule: 'images/resolution',
      severity: ppi < LEAST_PPI - SLACK ? 'error' : 'warning',
      message: `The picture ${item.furniture ? 'for scene breaks, ' : ''}“${asset.name}”${item.furniture ? ',' : ''} prints at ${found} pixels to the inch; printers want ${WANTED_PPI}.`,
      at: item.at,
      page: page.folio.label,
      ...(page.section === null ? {} : { section: page.section }),
    },
  ];
}

interface PlacedFigure {
  readonly node: Node;
  readonly section: SectionId;
}

function figuresOf(text: Node): readonly PlacedFigure[] {
  const figures: PlacedFigure[] = [];
  for (const section of text.children) {
    section.descendants((node) => {
      if (node.type.name === 'figure') figures.push({ node, section: section.attrs['id'] as SectionId });
      return !node.isTextblock;
    });
  }
  return figures;
}

function missingPicture(book: Book, figure: Node, section: SectionId): readonly Finding<Change>[] {
  if (book.assets.has(figure.attrs['asset'] as string)) return [];
  return [{ rule: 'images/missing', severity: 'error', message: 'A picture is missing here.', ...at(figure), section }];
}

/** EPUB Accessibility 1.1 asks for a text alternative wherever a picture says something (WCAG 2.2, 1.1.1). */
function missingAlternative(figure: Node, section: SectionId): readonly Finding<Change>[] {
  if (figure.attrs['decorative'] || String(figure.attrs['alt']).trim() !== '') return [];
  return [
    {
      rule: 'images/alternative',
      severity: 'warning',
      message: 'This picture has no description for readers who do not see it; describe it or mark it as decoration.',
      ...at(figure),
      section,
    },
  ];
}

function at(block: Node): { readonly at: { readonly block: BlockId; readonly offset: number } } {
  return { at: { block: block.attrs['id'] as BlockId, offset: 0 } };
}
