/** A book from its parts. In: sections, and what is known of the book; out: a Book without editions (see `furnish`). */
import type { Node } from 'prosemirror-model';
import type { AssetId } from '#base';
import type { Asset, Book, ImportRemark, Metadata } from './book.ts';
import { schema } from './schema.ts';

const NOTHING_KNOWN: Metadata = {
  title: '',
  subtitle: null,
  contributors: [],
  language: 'en',
  publisher: null,
  place: null,
  year: null,
  rightsHolder: null,
  series: null,
  description: null,
  subjects: [],
  identifier: '',
  modified: null,
};

export interface BookParts {
  /** What is known; the rest is left empty. */
  readonly metadata?: Partial<Metadata>;
  /** `section` nodes in their order. */
  readonly sections: readonly Node[];
  readonly assets?: ReadonlyMap<AssetId, Asset>;
  readonly remarks?: readonly ImportRemark[];
}

/** A book of these parts, with neither editions nor designs. */
export function newBook(parts: BookParts): Book {
  return {
    metadata: { ...NOTHING_KNOWN, ...parts.metadata },
    editions: [],
    designs: [],
    assets: parts.assets ?? new Map(),
    muted: [],
    remarks: parts.remarks ?? [],
    text: schema.nodes.book.create(null, [...parts.sections]),
  };
}
