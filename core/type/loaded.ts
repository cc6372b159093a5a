/**
 * A face at work. In: a font file's tables and the two HarfBuzz modules; out: shaping with a cache, metrics, outlines,
 * subsets. The font enters the shaper when it is first needed, so that fallback faces cost nothing in most books.
 */

import type { CompiledSetting, ShaperFont } from './buffer.ts';
import type { Embedding, FontFace, Shaped, ShapedWords, ShapeSetting, WordStretches, WordsUnderWay } from './face.ts';
import { type Shaper, settingKey } from './shaper.ts';
import type { ShapingAside } from './shapingAside.ts';
import type { Subsetter } from './subsetter.ts';
import type { FontTables } from './tables.ts';

/** Entries that one setting's cache may hold: some six novels' worth of distinct words. */
const CACHE_LIMIT = 200_000;

/** The caches of one setting. */
interface SettingCache {
  readonly setting: CompiledSetting;
  readonly words: Map<string, Shaped>;
  readonly spaces: Map<number, number>;
}

export interface FaceParts {
  readonly id: string;
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly tables: FontTables;
  readonly shaper: Shaper;
  readonly subsetter: Subsetter;
  readonly aside: ShapingAside | null;
}

export class LoadedFace implements FontFace {
  readonly id: string;
  readonly family: string;
  readonly italic: boolean;
  readonly weight: number;
  readonly postScriptName: string;
  readonly unitsPerEm: number;
  readonly ascender: number;
  readonly descender: number;
  readonly capHeight: number;
  readonly xHeight: number;
  readonly boundingBox: readonly [number, number, number, number];
  readonly italicAngle: number;
  readonly embedding: Embedding;
  readonly maySubset: boolean;
  readonly licence: string | null;
  readonly licenceAddress: string | null;
  readonly cff: boolean;
  readonly bytes: Uint8Array;

  private readonly tables: FontTables;
  private readonly shaper: Shaper;
  private readonly subsetter: Subsetter;
  private readonly aside: ShapingAside | null;
  private font: ShaperFont | null = null;
  private readonly caches = new Map<string, SettingCache>();
  private lastSetting: ShapeSetting | null = null;
  private lastCache: SettingCache | null = null;
  /** Nominal glyphs by pages of 256 characters, -1 where not yet asked for. */
  private readonly nominal: (Int32Array | undefined)[] = [];

  constructor(parts: FaceParts) {
    const { tables } = parts;
    this.id = parts.id;
    this.family = parts.family;
    this.italic = parts.italic;
    this.weight = parts.weight;
    this.postScriptName = tables.postScriptName;
    this.unitsPerEm = tables.unitsPerEm;
    this.ascender = tables.ascender;
    this.descender = tables.descender;
    this.capHeight = tables.capHeight;
    this.xHeight = tables.xHeight;
    this.boundingBox = tables.boundingBox;
    this.italicAngle = tables.italicAngle;
    this.embedding = tables.embedding;
    this.maySubset = tables.maySubset;
    this.licence = tables.licence;
    this.licenceAddress = tables.licenceAddress;
    this.cff = tables.cff;
    this.bytes = tables.bytes;
    this.tables = tables;
    this.shaper = parts.shaper;
    this.subsetter = parts.subsetter;
    this.aside = parts.aside;
  }

  has(codePoint: number): boolean {
    if (this.glyphOf(codePoint) !== 0 || isSetWithoutGlyph(codePoint)) return true;
    return codePoint >= 0xc0 && this.hasParts(String.fromCodePoint(codePoint).normalize('NFD'));
  }

  glyphOf(codePoint: number): number {
    const page = this.nominal[codePoint >> 8] ?? this.openPage(codePoint >> 8);
    const known = page[codePoint & 255]!;
    if (known >= 0) return known;
    const glyph = this.shaper.nominalGlyph(this.opened(), codePoint);
    page[codePoint & 255] = glyph;
    return glyph;
  }

  advanceOf(glyph: number): number {
    return this.tables.advances[glyph] ?? 0;
  }

  hasFeature(tag: string): boolean {
    return this.tables.features.has(tag);
  }

  shape(text: string, setting: ShapeSetting): Shaped {
    const cache = this.cacheOf(setting);
    const { words } = cache;
    const known = words.get(text);
    if (known) return known;
    const shaped = this.shaper.shape(this.opened(), text, cache.setting);
    if (words.size >= CACHE_LIMIT) words.clear();
    words.set(text, shaped);
    return shaped;
  }

  shapeWords(words: WordStretches, setting: ShapeSetting): ShapedWords {
    return this.shaper.shapeWords(this.opened(), words, this.cacheOf(setting).setting);
  }

  beginWords(words: WordStretches, setting: ShapeSetting): WordsUnderWay | null {
    const begun = this.aside?.begin(this, words, setting);
    if (!begun) return null;
    return { take: () => begun.wait() ?? this.shapeWords(begun.words, setting) };
  }

  spaceKerning(left: string, right: string, setting: ShapeSetting): number {
    const last = lastCodePoint(left);
    const first = right.codePointAt(0) ?? 0;
    const { spaces, setting: compiled } = this.cacheOf(setting);
    const key = last * 0x110000 + first;
    const known = spaces.get(key);
    if (known !== undefined) return known;
    const texts = [last, first].map((code) => (code ? String.fromCodePoint(code) : ''));
    const kerning = this.measureSpace(texts[0]!, texts[1]!, compiled);
    spaces.set(key, kerning);
    return kerning;
  }

  outline(glyph: number): string {
    return this.shaper.outline(this.opened(), glyph);
  }

  inkOf(glyph: number): readonly [number, number, number, number] | null {
    return this.shaper.ink(this.opened(), glyph);
  }

  subset(glyphs: Iterable<number>): Uint8Array {
    return this.subsetter.forPrint(this.bytes, glyphs);
  }

  subsetForText(codePoints: Iterable<number>): Uint8Array {
    return this.subsetter.forEbook(this.bytes, codePoints);
  }

  /** The shaper puts a letter together from base and accents where the face has no glyph for the whole. */
  private hasParts(parts: string): boolean {
    const points = [...parts];
    return points.length > 1 && points.every((part) => this.glyphOf(part.codePointAt(0)!) !== 0);
  }

  private measureSpace(left: string, right: string, setting: CompiledSetting): number {
    const width = (text: string) => (text === '' ? 0 : this.shaper.shape(this.opened(), text, setting).width);
    return width(`${left} ${right}`) - width(left) - width(' ') - width(right);
  }

  /** Callers hold on to their setting objects, so the last one's identity answers most calls. */
  private cacheOf(setting: ShapeSetting): SettingCache {
    if (setting === this.lastSetting && this.lastCache) return this.lastCache;
    const key = settingKey(setting);
    let cache = this.caches.get(key);
    if (!cache) {
      cache = { setting: this.shaper.compile(setting), words: new Map(), spaces: new Map() };
      this.caches.set(key, cache);
    }
    this.lastSetting = setting;
    this.lastCache = cache;
    return cache;
  }

  private openPage(index: number): Int32Array {
    const page = new Int32Array(256).fill(-1);
    this.nominal[index] = page;
    return page;
  }

  private opened(): ShaperFont {
    this.font ??= this.shaper.addFont(this.bytes);
    return this.font;
  }
}

/**
 * Characters that HarfBuzz sets in any face: what shows nothing (soft hyphen, joiners, direction and variation marks), the
 * spaces of fixed width, and the hyphens that U+002D stands in for.
 */
function isSetWithoutGlyph(codePoint: number): boolean {
  if (codePoint === 0xad || codePoint === 0xa0 || codePoint === 0xfeff) return true;
  if (codePoint >= 0xfe00 && codePoint <= 0xfe0f) return true;
  if (codePoint < 0x2000 || codePoint > 0x206f) return false;
  return (
    codePoint <= 0x200f || codePoint === 0x2011 || codePoint === 0x202f || codePoint >= 0x205f || isEmbedding(codePoint)
  );
}

function isEmbedding(codePoint: number): boolean {
  return codePoint >= 0x202a && codePoint <= 0x202e;
}

function lastCodePoint(text: string): number {
  if (text === '') return 0;
  const last = text.charCodeAt(text.length - 1);
  if (last < 0xdc00 || last > 0xdfff || text.length === 1) return last;
  return text.codePointAt(text.length - 2)!;
}
