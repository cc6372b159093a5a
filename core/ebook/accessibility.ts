/**
 * What the package says of the book's accessibility. In: what was really written; out: metadata that is true of it.
 *
 * Required and advised properties: EPUB Accessibility 1.1, "package metadata". No conformance is claimed: only a person
 * who has looked at the book can do that (FACTS A-08).
 */
import type { EbookWords } from './words.ts';

export interface WrittenContent {
  /** Whether some section has a heading. */
  readonly headings: boolean;
  readonly pageBreaks: boolean;
  readonly informativePictures: boolean;
  /** Whether each picture, the cover included, has a text alternative. */
  readonly allDescribed: boolean;
  readonly words: EbookWords;
}

/** Pairs of property and value, in the order in which they are written. */
export function accessibilityMetadata(content: WrittenContent): readonly (readonly [string, string])[] {
  const { summary } = content.words;
  const features = [
    'tableOfContents',
    'readingOrder',
    ...(content.headings ? ['structuralNavigation'] : []),
    'displayTransformability',
    'ARIA',
    ...(content.allDescribed ? ['alternativeText'] : []),
    ...(content.pageBreaks ? ['pageBreakMarkers', 'pageNavigation'] : []),
  ];
  const sentences = [
    summary.base,
    ...(content.informativePictures ? [content.allDescribed ? summary.described : summary.undescribed] : []),
    ...(content.pageBreaks ? [summary.pages] : []),
  ];
  return [
    // The cover is a picture, so there is something to see in every ebook.
    ['schema:accessMode', 'textual'],
    ['schema:accessMode', 'visual'],
    // Text alone will do only where no picture is left without words.
    ...(content.allDescribed ? ([['schema:accessModeSufficient', 'textual']] as const) : []),
    ['schema:accessModeSufficient', 'textual,visual'],
    ...features.map((feature) => ['schema:accessibilityFeature', feature] as const),
    ['schema:accessibilityHazard', 'none'],
    ['schema:accessibilitySummary', sentences.join(' ')],
  ];
}
