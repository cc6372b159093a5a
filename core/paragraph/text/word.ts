/**
 * A word: text without spaces in one style, shaped. In: a fount and the characters; out: glyphs by face, the width, and
 * the places where the word may be cut at a line's end.
 */
import type { FontFace, Shaped } from '#type';
import type { Fount } from './fount.ts';
import { type CutKind, cutsOf } from './opportunities.ts';

/** A stretch of a word in one face. */
export interface Segment {
  readonly face: FontFace;
  /** Points to a font unit of this face. */
  readonly scale: number;
  readonly shaped: Shaped;
  /** Offset of the stretch in the word's text. */
  readonly from: number;
}

/** A place at which a word can be cut. */
export interface Cut {
  /** Offset in the word's text. */
  readonly at: number;
  /** `divided`: a hyphen is added; `torn`: an emergency; the others are breaks that the text itself offers. */
  readonly kind: CutKind | 'divided' | 'torn';
  /** Width of the word up to here, as part of the whole. */
  readonly width: number;
  /** What cutting here adds to the first part, and to the rest. */
  readonly end: number;
  readonly start: number;
  /** True where the division stands inside a compound that has a hyphen of its own. */
  readonly compound: boolean;
}

export interface Word {
  readonly kind: 'word';
  readonly fount: Fount;
  /** The characters as shaped: soft hyphens left out, letters mapped to the style's case. */
  readonly text: string;
  /** Length in the source text. */
  readonly length: number;
  /** For each offset in `text` the offset in the source, and the length at the end; null where they are the same. */
  readonly sources: readonly number[] | null;
  readonly segments: readonly Segment[];
  /** With letterspacing, also after the last letter. */
  readonly width: number;
  readonly cuts: readonly Cut[];
  /** Places of hyphens; null until asked for. */
  divisions: readonly Cut[] | null;
  readonly softHyphens: readonly number[];
  /** Equal for words that read the same, whatever marks stand around them; 0 for none. */
  readonly name: number;
  readonly capital: boolean;
  readonly missing: readonly { readonly codePoint: number; readonly at: number }[] | null;
}

const SOFT_HYPHEN = '\u00ad';
const NO_CUTS: readonly Cut[] = [];
const NO_PLACES: readonly number[] = [];
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/;
const ADDRESS = /:\/\/|^www\.|@/;
const JOINTS = /[-\u2010-\u2015/\u2026]/;
const OWN_HYPHEN = /[-\u2010]/;

export function makeWord(fount: Fount, token: string): Word {
  const { text, sources, softHyphens } = mapped(fount, token);
  const missing: { codePoint: number; at: number }[] = [];
  const segments = segmentsOf(fount, text, missing);
  const word: Word = {
    kind: 'word',
    fount,
    text,
    length: token.length,
    sources,
    segments,
    width: widthOf(fount, segments),
    cuts: NO_CUTS,
    divisions: null,
    softHyphens,
    name: nameOf(text),
    capital: isCapital(text),
    missing: missing.length > 0 ? missing : null,
  };
  const cuts = cutsOf(text);
  if (cuts.length === 0) return word;
  return { ...word, cuts: cuts.map(({ at, kind }) => cutAt(word, at, kind, false)) };
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
  if (!hyphenator || text.length < 4 || RIGHT_TO_LEFT.test(text)) return NO_CUTS;
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
  if (!isClusterStart(word, at)) {
    const end = partWidth(word, 0, at, kind === 'divided') - width;
    const start = partWidth(word, at, text.length, false) + fount.tracking - (word.width - width);
    return { at, kind, width, end, start, compound };
  }
  const left = text[at - 1]!;
  let end = isUnsafe(word, at) ? -fount.kerning(left, text[at]!) : 0;
  if (kind === 'divided') end += fount.word('-').width + fount.kerning(left, '-');
  return { at, kind, width, end: end - fount.tracking, start: 0, compound };
}

/** Width of a part of a word shaped by itself, without the letterspace after its last letter. */
export function partWidth(word: Word, from: number, to: number, hyphen: boolean): number {
  const segments = partOf(word, from, to, hyphen);
  return widthOf(word.fount, segments) - word.fount.tracking;
}

/** The glyphs of a part of a word, shaped by itself. */
export function partOf(word: Word, from: number, to: number, hyphen: boolean): readonly Segment[] {
  if (from === 0 && to === word.text.length && !hyphen) return word.segments;
  return segmentsOf(word.fount, word.text.slice(from, to) + (hyphen ? '-' : ''), null);
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

function isClusterStart(word: Word, at: number): boolean {
  return word.segments.some(({ shaped, from }) => from === at || shaped.clusters.includes(at - from));
}

function isUnsafe(word: Word, at: number): boolean {
  return word.segments.some(
    ({ shaped, from }) => shaped.unsafe !== null && shaped.unsafe[shaped.clusters.indexOf(at - from)] === 1,
  );
}

/** Places at which a word can be torn when nothing else helps: between its clusters. */
export function tearsOf(word: Word): readonly Cut[] {
  const places = new Set<number>();
  for (const { shaped, from } of word.segments) for (const cluster of shaped.clusters) places.add(from + cluster);
  places.delete(0);
  return [...places].sort((a, b) => a - b).map((at) => cutAt(word, at, 'torn', false));
}

/** The source offset of an offset in a word's text. */
export function sourceOf(word: Word, at: number): number {
  return word.sources ? word.sources[at]! : at;
}

/** Width of segments with letterspacing after each cluster. */
export function widthOf(fount: Fount, segments: readonly Segment[]): number {
  let width = 0;
  for (const { shaped, scale } of segments) {
    width += shaped.width * scale;
    if (fount.tracking !== 0) width += fount.tracking * clusterCount(shaped);
  }
  return width;
}

function clusterCount({ clusters }: Shaped): number {
  let count = 0;
  for (let i = 0; i < clusters.length; i++) if (clusters[i] !== clusters[i + 1]) count++;
  return count;
}

/** The token as it is shaped: soft hyphens taken out, case mapped. */
function mapped(fount: Fount, token: string): Pick<Word, 'text' | 'sources' | 'softHyphens'> {
  const { letterCase } = fount.style;
  const cased = letterCase === 'asTyped' ? token : caseOf(token, letterCase);
  if (cased.length === token.length && !token.includes(SOFT_HYPHEN)) {
    return { text: cased, sources: null, softHyphens: NO_PLACES };
  }
  let text = '';
  const sources: number[] = [];
  const softHyphens: number[] = [];
  let at = 0;
  for (const character of token) {
    if (character === SOFT_HYPHEN) {
      if (text.length > 0 && at + 1 < token.length) softHyphens.push(text.length);
    } else {
      const letters = letterCase === 'asTyped' ? character : caseOf(character, letterCase);
      for (let i = 0; i < letters.length; i++) sources.push(at);
      text += letters;
    }
    at += character.length;
  }
  sources.push(token.length);
  return { text, sources, softHyphens };
}

function caseOf(text: string, letterCase: 'upper' | 'lower'): string {
  return letterCase === 'upper' ? text.toUpperCase() : text.toLowerCase();
}

/**
 * A number for the letters of a word (FNV-1a, 32 bits): equal for equal words, and all but never for different ones; a
 * mistake costs no more than a slightly worse line.
 */
function nameOf(text: string): number {
  let hash = 0x811c9dc5;
  let letters = 0;
  for (let i = 0; i < text.length; i++) {
    let unit = text.charCodeAt(i);
    if (unit >= 0x41 && unit <= 0x5a) unit += 0x20;
    if (unit < 0x30 || (unit > 0x39 && unit < 0x61) || (unit >= 0x2000 && unit < 0x2070)) continue;
    hash = Math.imul(hash ^ unit, 0x01000193);
    letters++;
  }
  return letters === 0 ? 0 : hash | 1;
}

function isCapital(text: string): boolean {
  const first = text.charCodeAt(0);
  if (first >= 0x61 && first <= 0x7a) return false;
  const letter = text.match(/\p{L}/u)?.[0];
  return letter !== undefined && letter !== letter.toLowerCase();
}

/** Shapes text, in other faces where the fount's own lacks characters. */
function segmentsOf(
  fount: Fount,
  text: string,
  missing: { codePoint: number; at: number }[] | null,
): readonly Segment[] {
  const setting = RIGHT_TO_LEFT.test(text) ? fount.rightToLeft : fount.setting;
  if (hasAll(fount.face, text)) {
    return [{ face: fount.face, scale: fount.scale, shaped: fount.face.shape(text, setting), from: 0 }];
  }
  return facesOf(fount, text, missing).map(({ face, from, to }) => ({
    face,
    scale: fount.style.size / face.unitsPerEm,
    shaped: face.shape(text.slice(from, to), setting),
    from,
  }));
}

function hasAll(face: FontFace, text: string): boolean {
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    const high = unit >= 0xd800 && unit < 0xdc00;
    if (!face.has(high ? text.codePointAt(i)! : unit)) return false;
    if (high) i++;
  }
  return true;
}

const CLUSTER = /\P{M}(?:\p{M}|\u200d)*/gu;

/** Parts a text by face: a base and its marks stay together. */
function facesOf(
  fount: Fount,
  text: string,
  missing: { codePoint: number; at: number }[] | null,
): { face: FontFace; from: number; to: number }[] {
  const stretches: { face: FontFace; from: number; to: number }[] = [];
  for (const { 0: cluster, index } of text.matchAll(CLUSTER)) {
    let face = [fount.face, ...fount.fallbacks].find((candidate) => hasAll(candidate, cluster));
    if (!face) {
      face = fount.face;
      for (const character of cluster) {
        const codePoint = character.codePointAt(0)!;
        if (!face.has(codePoint)) missing?.push({ codePoint, at: index });
      }
    }
    const last = stretches.at(-1);
    if (last && last.face === face) last.to = index + cluster.length;
    else stretches.push({ face, from: last ? index : 0, to: index + cluster.length });
  }
  return stretches.length > 0 ? stretches : [{ face: fount.face, from: 0, to: text.length }];
}
