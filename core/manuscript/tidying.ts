/**
 * The clean-ups that an author may switch off. In: their names, as the report of an import calls them; out: how to
 * recognise a manuscript without them.
 */
import type { RecogniseOptions } from './recognise/recognise.ts';
import type { TidyKind } from './recognise/tidy/kinds.ts';

const END_MARKER = 'end-marker';

const SWITCHES: readonly TidyKind[] = [
  'double-space',
  'capitals',
  'quote',
  'dash',
  'ellipsis',
  'copyright-sign',
  'emphasis',
  'french-space',
];

/** The switch that leaves a kind of notice undone; null where there is none. Apostrophes go with quotation marks. */
export function switchOf(notice: string): string | null {
  if (notice === 'apostrophe') return 'quote';
  return notice === END_MARKER || SWITCHES.some((each) => each === notice) ? notice : null;
}

/** How to recognise a manuscript with some clean-ups left undone; names that are no switches mean nothing. */
export function optionsWithout(switches: readonly string[]): RecogniseOptions {
  const off = SWITCHES.filter((each) => switches.includes(each));
  return {
    tidy: Object.fromEntries(off.map((each) => [each, false])),
    keepEndMarker: switches.includes(END_MARKER),
  };
}
