/** The kinds of clean-up, and how a rule puts on record what it did. */

/** What the clean-up counts and may be told to leave undone. */
export type TidyKind =
  | 'double-space'
  | 'tab'
  | 'outer-space'
  | 'invisible'
  | 'soft-return'
  | 'capitals'
  | 'quote'
  | 'apostrophe'
  | 'dash'
  | 'ellipsis'
  | 'copyright-sign'
  | 'emphasis'
  | 'french-space';

/** Each clean-up may be switched off by `false`; `apostrophe` goes with `quote`, tabs and outer spaces always go. */
export type TidyOptions = Readonly<Partial<Record<TidyKind, boolean>>>;

/** Where the rules of clean-up learn what they may do and report what they did. */
export interface Tally {
  /** BCP 47. */
  readonly language: string;
  on(kind: TidyKind): boolean;
  count(kind: TidyKind, times: number): void;
}
