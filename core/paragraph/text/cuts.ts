/**
 * Cutting words at lines' ends. In: a word; out: the places where it can be cut, what each part then measures, and the
 * glyphs of the parts.
 */
import type { Fount } from './fount.ts';
import { cutsOf } from './opportunities.ts';
import { type Segment, segmentsOf, widthOf } from './segments.ts';
import type { Cut, Word } from './word.ts';

const NO_CUTS: readonly Cut[] = [];
const ADDRESS = /:\/\/|^www\.|@/;
const JOINTS = /[-\u2010-\u2015/\u2026]/;
const OWN_HYPHEN = /[-\u2010]/;

/** The places where the text itself lets a line end, worked out when first asked for. */
export function ownCutsOf(word: Word): readonly Cut[] {
  word.cuts ??= findOwnCuts(word);
  return word.cuts;
}

function findOwnCuts(word: Word): readonly Cut[] {
  const places = cutsOf(word.text);
  return places.length === 0 ? NO_CUTS : places.map(({ at, kind }) => cutAt(word, at, kind, false));
}

/** The places where a word may be divided with a hyphen, worked out when first asked for. */
export function divisionsOf(word: Word): readonly Cut[] {
  word.divisions ??= findDivisions(word);
  return word.divisions;
}

function findDivisions(word: Word): readonly Cut[] {
  const { fount, text, softHyphens } = word;
  if (softHyphens.length > 0) return softHyphens.map((at) => cutAt(word, at, 'divided', false));
  const { hyphenator } = fount;
  if (!hyphenator || text.length < 4 || word.leftward) return NO_CUTS;
  if (!JOINTS.test(text)) return divisionsFrom(word, hyphenator.breaks(text), 0, false);
  if (ADDRESS.test(text)) return NO_CUTS;
  const cuts: Cut[] = [];
  const compound = OWN_HYPHEN.test(text);
  let from = 0;
  for (const part of text.split(JOINTS)) {
    if (part.length > 3) cuts.push(...divisionsFrom(word, hyphenator.breaks(part), from, compound));
    from += part.length + 1;
  }
  return cuts;
}

function divisionsFrom(word: Word, places: readonly number[], from: number, compound: boolean): readonly Cut[] {
  if (places.length === 0) return NO_CUTS;
  return places.map((place) => cutAt(word, from + place, 'divided', compound));
}

/**
 * The widths at a cut. Kerning across it is undone by the pair's own value, and a cut inside a ligature is measured by
 * shaping both parts; what else the neighbours might change shows only when the line is placed, which shapes the parts.
 */
function cutAt(word: Word, at: number, kind: Cut['kind'], compound: boolean): Cut {
  const { fount, text } = word;
  const width = widthUpTo(word, at);
  const spot = spotAt(word, at);
  if (spot === INSIDE) {
    const end = partWidth(word, 0, at, kind === 'divided') - width;
    const start = partWidth(word, at, text.length, false) + fount.tracking - (word.width - width);
    return { at, kind, width, end, start, compound };
  }
  const left = text.charCodeAt(at - 1);
  let end = spot === UNSAFE ? -fount.kerning(left, text.charCodeAt(at)) : 0;
  if (kind === 'divided') end += hyphenWidth(fount) + fount.kerning(left, HYPHEN);
  return { at, kind, width, end: end - fount.tracking, start: 0, compound };
}

/** What a place in a word is to its glyphs: inside a cluster, or between two that do or do not depend on each other. */
type Spot = 0 | 1 | 2;
const INSIDE: Spot = 0;
const SAFE: Spot = 1;
const UNSAFE: Spot = 2;
const HYPHEN = 0x2d;

function spotAt(word: Word, at: number): Spot {
  for (const { shaped, from } of word.segments) {
    if (from === at) return SAFE;
    const glyph = shaped.clusters.indexOf(at - from);
    if (glyph >= 0) return shaped.unsafe?.[glyph] === 1 ? UNSAFE : SAFE;
  }
  return INSIDE;
}

/** Width of a part of a word shaped by itself, without the letterspace after its last letter. */
export function partWidth(word: Word, from: number, to: number, hyphen: boolean): number {
  const segments = partOf(word, from, to, hyphen);
  return widthOf(word.fount, segments) - word.fount.tracking;
}

/** The glyphs of a part of a word, shaped by itself. */
export function partOf(word: Word, from: number, to: number, hyphen: boolean): readonly Segment[] {
  if (from === 0 && to === word.text.length && !hyphen) return word.segments;
  return segmentsOf(word.fount, word.text.slice(from, to) + (hyphen ? '-' : ''), word.leftward, null);
}

/** Natural width of the first characters, as part of the whole word. */
export function widthUpTo(word: Word, at: number): number {
  let width = 0;
  for (const { shaped, scale, from } of word.segments) {
    const { clusters, advances } = shaped;
    for (let i = 0; i < clusters.length; i++) {
      if (from + clusters[i]! >= at) continue;
      width += advances[i]! * scale;
      if (clusters[i + 1] !== clusters[i]) width += word.fount.tracking;
    }
  }
  return width;
}

/** Places at which a word can be torn when nothing else helps: between its clusters. */
export function tearsOf(word: Word): readonly Cut[] {
  const places = new Set<number>();
  for (const { shaped, from } of word.segments) for (const cluster of shaped.clusters) places.add(from + cluster);
  places.delete(0);
  return [...places].sort((a, b) => a - b).map((at) => cutAt(word, at, 'torn', false));
}

function hyphenWidth({ face, setting, scale, tracking }: Fount): number {
  return face.shape('-', setting).width * scale + tracking;
}
