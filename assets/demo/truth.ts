/** What an import of the demo manuscript must find: the shape of truth.json, which the demo's script writes. */

export interface DemoSection {
  /** A section kind of the book's schema. */
  readonly kind: string;
  /** The heading as it stands in the manuscript, or null where there is none. */
  readonly heading: string | null;
  /** What is left of the heading beside its number, or null. */
  readonly title: string | null;
  /** Matches of `[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*` in the body, without heading and notes. */
  readonly words: number;
  readonly sceneBreaks: number;
  readonly notes: number;
  /** Italic or underlined spans in the body, without those in notes. */
  readonly emphases: number;
  readonly images: number;
}

export interface DemoTruth {
  readonly title: string;
  readonly author: string;
  readonly sections: readonly DemoSection[];
}
