/**
 * Cutting words at lines' ends. In: a word; out: the places where it can be cut, what each part then measures, and the
 * glyphs of the parts.
 */
import { PACKED } from '#page';
import {
  COMPOUND,
  CUT_END,
  CUT_START,
  CUT_STRIDE,
  CUT_WIDTH,
  DASH,
  DIVISION,
  HYPHENED,
  KIND,
  LAST,
  OTHER,
  TORN,
} from './cutColumns.ts';
import type { Fount } from './fount.ts';
import { type CutKind, cutsOf } from './opportunities.ts';
import { type Segment, segmentsOf, widthOf } from './segments.ts';
import { WHOLE } from './traits.ts';
import { NONE, UNKNOWN, type WordCase } from './wordCase.ts';

/** A place at which a word can be cut, and how that looks (see `cutColumns.ts`). */
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
 * The first of a word's cuts in `WordCase.cuts`, `NONE` for a word without: the places where the text itself lets a line
 * end, and if wanted those where a hyphen may be added. Worked out when first asked for.
 */
export function cutsIn(words: WordCase, id: number, divide: boolean): number {
  const known = (divide ? words.divided : words.whole)[id]!;
  if (known !== UNKNOWN) return known;
  return divide ? findDivided(words, id) : findWhole(words, id);
}

/** The same with all places between clusters: where a word can be torn when nothing else helps. */
export function tornCutsIn(words: WordCase, id: number, divide: boolean): number {
  const key = `${id} ${divide}`;
  const known = words.cuts.torn.get(key);
  if (known !== undefined) return known;
  const places = placesIn(words, cutsIn(words, id, divide));
  const taken = new Set(places.map(({ at }) => at));
  const tears = clusterStarts(words, id).filter((at) => !taken.has(at));
  const first = keep(words, id, [...places, ...tears.map((at) => ({ at, kind: TORN }))]);
  words.cuts.torn.set(key, first);
  return first;
}

function findWhole(words: WordCase, id: number): number {
  const first = keep(words, id, ownPlaces(words, id));
  words.whole[id] = first;
  return first;
}

function findDivided(words: WordCase, id: number): number {
  const first = hasNoOwnCuts(words, id) ? divisionsAlone(words, id) : ownCutsAndDivisions(words, id);
  words.divided[id] = first;
  return first;
}

/** Nearly all words: nothing but letters, and marks that hold at their ends. */
function hasNoOwnCuts(words: WordCase, id: number): boolean {
  return (words.traits[id]! & WHOLE) !== 0 && words.rareOf(id) === null;
}

function divisionsAlone(words: WordCase, id: number): number {
  const { hyphenator } = words.fount(id);
  if (!hyphenator || words.lengthOf(id) < SHORTEST || words.isLeftward(id)) return NONE;
  const count = words.divide(id, hyphenator);
  if (count === 0) return NONE;
  const first = words.cuts.count;
  for (let i = 0; i < count; i++) add(words, id, hyphenator.places[i]!, DIVISION);
  words.cuts.end();
  return first;
}

function ownCutsAndDivisions(words: WordCase, id: number): number {
  const own = cutsIn(words, id, false);
  const divisions = divisionsOf(words, id);
  if (divisions.length === 0) return own;
  return keep(words, id, [...placesIn(words, own), ...divisions]);
}

/** The places of a list that is kept. */
function placesIn({ cuts }: WordCase, first: number): readonly Place[] {
  if (first === NONE) return NO_PLACES;
  const places: Place[] = [];
  for (let cut = first; ; cut++) {
    const kind = cuts.kinds[cut]!;
    places.push({ at: cuts.places[cut]!, kind: kind & ~LAST });
    if (kind & LAST) return places;
  }
}

function ownPlaces(words: WordCase, id: number): readonly Place[] {
  if (words.traits[id]! & WHOLE) return NO_PLACES;
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
  const first = words.cuts.count;
  for (const { at, kind } of [...places].sort((one, other) => one.at - other.at)) add(words, id, at, kind);
  words.cuts.end();
  return first;
}

/** Adds a cut to the word's list, measured. */
function add(words: WordCase, id: number, at: number, kind: number): void {
  const { cuts } = words;
  const { width, end, start } = measureCut(words, id, at, (kind & KIND) === DIVISION);
  const cut = cuts.add(at, kind) * CUT_STRIDE;
  cuts.lengths[cut + CUT_WIDTH] = width;
  cuts.lengths[cut + CUT_END] = end;
  cuts.lengths[cut + CUT_START] = start;
}

export interface CutMeasure {
  /** Width of the word up to the cut, as part of the whole. */
  readonly width: number;
  /** What cutting adds to the first part, and to the rest. */
  readonly end: number;
  readonly start: number;
}

/**
 * The widths at a cut. Kerning across it is undone by the pair's own value, and a cut inside a ligature is measured by
 * shaping both parts; what else the neighbours might change shows only when the line is placed, which shapes the parts.
 */
export function measureCut(words: WordCase, id: number, at: number, divided: boolean): CutMeasure {
  const fount = words.fount(id);
  const width = widthUpTo(words, id, at);
  const spot = spotAt(words, id, at);
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

function spotAt(words: WordCase, id: number, at: number): Spot {
  const rare = words.rareOf(id);
  if (rare) return spotInSegments(rare.segments, at);
  const { glyphs, firstGlyphs, unsafe } = words;
  for (let glyph = firstGlyphs[id]!; glyph < firstGlyphs[id + 1]!; glyph++) {
    if (glyphs[glyph * PACKED]! >>> 16 === at) return unsafe[glyph] === 1 ? UNSAFE : SAFE;
  }
  return INSIDE;
}

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
  const fount = words.fount(id);
  if (rare) return widthInSegments(rare.segments, at, fount.tracking);
  const { glyphs, firstGlyphs } = words;
  let width = 0;
  for (let packed = firstGlyphs[id]! * PACKED; packed < firstGlyphs[id + 1]! * PACKED; packed += PACKED) {
    if (glyphs[packed]! >>> 16 < at) width += glyphs[packed + 1]!;
  }
  return width * fount.scale;
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
    const { glyphs, firstGlyphs } = words;
    for (let glyph = firstGlyphs[id]!; glyph < firstGlyphs[id + 1]!; glyph++)
      starts.add(glyphs[glyph * PACKED]! >>> 16);
  }
  starts.delete(0);
  return [...starts].sort((a, b) => a - b);
}

function hyphenWidth({ face, setting, scale, tracking }: Fount): number {
  return face.shape('-', setting).width * scale + tracking;
}
