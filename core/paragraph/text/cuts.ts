/**
 * Cutting words at lines' ends. In: a word; out: the places where it can be cut, what each part then measures, and the
 * glyphs of the parts. Words of nothing but letters, nearly all, are cut in the kernel (`kernel/assembly/cuts.ts`).
 */
import { PACKED } from '#page';
import { COMPOUND, DASH, DIVISION, HYPHENED, KIND, LAST, OTHER, TORN } from './cutKinds.ts';
import type { Fount } from './fount.ts';
import { hangAtEnd, hangAtStart } from './hang.ts';
import { type CutKind, cutsOf } from './opportunities.ts';
import type { RareWord } from './rareWord.ts';
import { type Segment, segmentsOf, widthOf } from './segments.ts';
import { WHOLE } from './traits.ts';
import { type CutMeasure, NONE, type WordCase } from './wordCase.ts';

/** A place at which a word can be cut, and how that looks (see `cutKinds.ts`). */
interface Place {
  readonly at: number;
  readonly kind: number;
}

/** Fewest letters of a word that is worth dividing. */
const SHORTEST = 4;
const NO_PLACES: readonly Place[] = [];
const ADDRESS = /:\/\/|^www\.|@/;
const JOINTS = /[-\u2010-\u2015/\u2026]/;
const OWN_HYPHEN = /[-\u2010]/;
const HYPHEN = 0x2d;
const KINDS: Readonly<Record<CutKind, number>> = { hyphen: HYPHENED, dash: DASH, other: OTHER };

/**
 * Finds the cuts of a word that is more than letters: the places where the text itself lets a line end, and if wanted those
 * where a hyphen may be added. Gives the first, `NONE` for a word without.
 */
export function findCuts(words: WordCase, id: number, divided: boolean): number {
  if (!divided) return keep(words, id, ownPlaces(words, id));
  const own = words.cutsIn(id, false);
  const divisions = divisionsOf(words, id);
  if (divisions.length === 0) return own;
  return keep(words, id, [...placesIn(words, own), ...divisions]);
}

/** The same with all places between clusters: where a word can be torn when nothing else helps. */
export function findTornCuts(words: WordCase, id: number, divided: boolean): number {
  const key = `${id} ${divided}`;
  const known = words.torn.get(key);
  if (known !== undefined) return known;
  const places = placesIn(words, words.cutsIn(id, divided));
  const taken = new Set(places.map(({ at }) => at));
  const tears = clusterStarts(words, id).filter((at) => !taken.has(at));
  const first = keep(words, id, [...places, ...tears.map((at) => ({ at, kind: TORN }))]);
  words.torn.set(key, first);
  return first;
}

/** The places of a list that is kept. */
function placesIn(words: WordCase, first: number): readonly Place[] {
  if (first === NONE) return NO_PLACES;
  const places: Place[] = [];
  for (let number = first; ; number++) {
    const { at, kind } = words.cut(number);
    places.push({ at, kind: kind & ~LAST });
    if (kind & LAST) return places;
  }
}

function ownPlaces(words: WordCase, id: number): readonly Place[] {
  if (words.traitsOf(id) & WHOLE) return NO_PLACES;
  return cutsOf(words.textOf(id)).map(({ at, kind }) => ({ at, kind: KINDS[kind] }));
}

/** Where a hyphen may be added. */
function divisionsOf(words: WordCase, id: number): readonly Place[] {
  const softHyphens = words.rareOf(id)?.softHyphens ?? [];
  if (softHyphens.length > 0) return softHyphens.map((at) => ({ at, kind: DIVISION }));
  const { hyphenator } = words.fount(id);
  if (!hyphenator || words.textLengthOf(id) < SHORTEST || words.isLeftward(id)) return NO_PLACES;
  const text = words.textOf(id);
  if (!JOINTS.test(text)) return divisionsFrom(hyphenator.breaks(text), 0, DIVISION);
  if (ADDRESS.test(text)) return NO_PLACES;
  const kind = OWN_HYPHEN.test(text) ? DIVISION | COMPOUND : DIVISION;
  const places: Place[] = [];
  let from = 0;
  for (const part of text.split(JOINTS)) {
    if (part.length >= SHORTEST) places.push(...divisionsFrom(hyphenator.breaks(part), from, kind));
    from += part.length + 1;
  }
  return places;
}

function divisionsFrom(offsets: readonly number[], from: number, kind: number): readonly Place[] {
  return offsets.length === 0 ? NO_PLACES : offsets.map((at) => ({ at: from + at, kind }));
}

/** Keeps a word's cuts in the order of its letters; gives the first. */
function keep(words: WordCase, id: number, places: readonly Place[]): number {
  if (places.length === 0) return NONE;
  const { calls } = words.kernel;
  const fount = words.fount(id);
  // Words that run to the left do not hang.
  const hangs = !words.isLeftward(id);
  let first = NONE;
  for (const { at, kind } of [...places].sort((one, other) => one.at - other.at)) {
    const divided = (kind & KIND) === DIVISION;
    const { width, end, start } = measureCut(words, id, at, divided);
    const hangEnd = hangs ? hangAtEnd(fount, divided ? HYPHEN : words.unitAt(id, at - 1)) : 0;
    const hangStart = hangs ? hangAtStart(fount, words.unitAt(id, at)) : 0;
    const cut = calls.addCut(at, kind, width, end, start, hangEnd, hangStart);
    if (first === NONE) first = cut;
  }
  calls.endCuts();
  words.renew();
  return first;
}

/** The widths at a cut: `measure` in `kernel/assembly/cuts.ts` says how they come about. */
export function measureCut(words: WordCase, id: number, at: number, divided: boolean): CutMeasure {
  const rare = words.rareOf(id);
  return rare ? measureRare(words, id, rare, { at, divided }) : words.measure(id, at, divided);
}

function measureRare(
  words: WordCase,
  id: number,
  { segments }: RareWord,
  { at, divided }: { readonly at: number; readonly divided: boolean },
): CutMeasure {
  const fount = words.fount(id);
  const width = widthInSegments(segments, at, fount.tracking);
  const spot = spotInSegments(segments, at);
  if (spot === INSIDE) {
    const end = partWidth(words, id, { from: 0, to: at, hyphen: divided }) - width;
    const rest = partWidth(words, id, { from: at, to: words.textLengthOf(id), hyphen: false });
    return { width, end, start: rest + fount.tracking - (words.widthOf(id) - width) };
  }
  const left = words.unitAt(id, at - 1);
  let end = spot === UNSAFE ? -fount.kerning(left, words.unitAt(id, at)) : 0;
  if (divided) end += hyphenWidth(fount) + fount.kerning(left, HYPHEN);
  return { width, end: end - fount.tracking, start: 0 };
}

/** What a place in a word is to its glyphs: inside a cluster, or between two that do or do not depend on each other. */
type Spot = 0 | 1 | 2;
const INSIDE: Spot = 0;
const SAFE: Spot = 1;
const UNSAFE: Spot = 2;

function spotInSegments(segments: readonly Segment[], at: number): Spot {
  for (const { shaped, from } of segments) {
    if (from === at) return SAFE;
    const glyph = shaped.clusters.indexOf(at - from);
    if (glyph >= 0) return shaped.unsafe?.[glyph] === 1 ? UNSAFE : SAFE;
  }
  return INSIDE;
}

/** A part of a word's text, and whether a hyphen is added to it. */
export interface WordPart {
  readonly from: number;
  readonly to: number;
  readonly hyphen: boolean;
}

/** Width of a part of a word shaped by itself, without the letterspace after its last letter. */
export function partWidth(words: WordCase, id: number, part: WordPart): number {
  const fount = words.fount(id);
  return widthOf(fount, partOf(words, id, part)) - fount.tracking;
}

/** The glyphs of a part of a word, shaped by itself. */
export function partOf(words: WordCase, id: number, { from, to, hyphen }: WordPart): readonly Segment[] {
  const text = words.textOf(id).slice(from, to) + (hyphen ? '-' : '');
  return segmentsOf(words.fount(id), text, words.isLeftward(id), null);
}

/** Natural width of the first characters, as part of the whole word. */
export function widthUpTo(words: WordCase, id: number, at: number): number {
  const rare = words.rareOf(id);
  if (rare) return widthInSegments(rare.segments, at, words.fount(id).tracking);
  return words.kernel.calls.widthUpTo(id, at);
}

function widthInSegments(segments: readonly Segment[], at: number, tracking: number): number {
  let width = 0;
  for (const { shaped, scale, from } of segments) {
    const { clusters, advances } = shaped;
    for (let i = 0; i < clusters.length; i++) {
      if (from + clusters[i]! >= at) continue;
      width += advances[i]! * scale;
      if (clusters[i + 1] !== clusters[i]) width += tracking;
    }
  }
  return width;
}

/** Offsets at which clusters begin, but for the word's own start, in rising order. */
function clusterStarts(words: WordCase, id: number): readonly number[] {
  const starts = new Set<number>();
  const rare = words.rareOf(id);
  if (rare) {
    for (const { shaped, from } of rare.segments) for (const cluster of shaped.clusters) starts.add(from + cluster);
  } else {
    const end = words.endGlyph(id);
    for (let glyph = words.firstGlyph(id); glyph < end; glyph++) starts.add(words.glyphs[glyph * PACKED]! >>> 16);
  }
  starts.delete(0);
  return [...starts].sort((a, b) => a - b);
}

function hyphenWidth({ face, setting, scale, tracking }: Fount): number {
  return face.shape('-', setting).width * scale + tracking;
}
