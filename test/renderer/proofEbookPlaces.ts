/** Places in ebook documents for Chromium, bundled: anchors there and back. */
import type { Anchor } from '#base';
import { anchorOfCaret, placeOfAnchor } from '../../renderer/proof/ebookPlaces.ts';

export interface ThereAndBack {
  /** The anchor that the place leads back to; null where the document does not have the block. */
  readonly back: Anchor | null;
  /** The characters that follow the place in its own piece of text. */
  readonly after: string;
}

/** Finds each anchor in a document and reads the anchor of the place that was found. */
export function thereAndBack(xhtml: string, anchors: readonly Anchor[]): readonly ThereAndBack[] {
  const made = new DOMParser().parseFromString(xhtml, 'application/xhtml+xml');
  return anchors.map((anchor) => {
    const place = placeOfAnchor(made, anchor);
    const after = place?.offsetNode.nodeValue?.slice(place.offset) ?? '';
    return { back: place && anchorOfCaret(place), after };
  });
}

Object.assign(globalThis, { thereAndBack });
