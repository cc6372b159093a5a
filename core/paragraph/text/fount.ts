/**
 * A fount: one face at one size, given as a share of the text size, with its features and language. In: a text style; out:
 * how it shapes, how wide its space is, and what hyphens its words take.
 */
import type { FontFace, FontLibrary, Hyphenator, ShapeSetting } from '#type';
import type { TextStyle } from '../types.ts';
import { jointsOf, mayTie } from './joints.ts';

/** Letters and marks that faces with kerned spaces are known to kern. */
const PROBES = ['A', 'T', 'V', 'W', 'Y', 'f', 'y', '.', ',', '\u2019', '\u201c'];

const NO_JOINTS: readonly number[] = [];

/** The languages of `joints.ts`. */
const LIGATURES_STOP = /^de\b/i;

/** Languages that write compounds as one word, or endings after endings. */
const LONG_WORDS = /^(?:de|gsw|bar|nds|lb|nl|af|sv|da|nb|nn|no|is|fi|et|hu|tr)\b/i;

/** German and its kin. */
const NOUNS_HAVE_CAPITALS = /^(?:de|gsw|bar|nds|lb)\b/i;

export class Fount {
  readonly face: FontFace;
  readonly setting: ShapeSetting;
  readonly rightToLeft: ShapeSetting;
  /** Text sizes to a font unit: all widths are shares of the text size. */
  readonly scale: number;
  /** Extra space after each letter. */
  readonly tracking: number;
  /** Width of a word space with what letterspacing adds. */
  readonly spaceWidth: number;
  readonly spaceGlyph: number;
  readonly hyphenator: Hyphenator | null;
  readonly kernsSpaces: boolean;
  /** Divides words to find where they are joined, in languages whose ligatures stop there. */
  private readonly joiner: Hyphenator | null;
  /** Whether a capital inside a sentence tells a name: not where all nouns have one. */
  readonly capitalsAreNames: boolean;
  /** Whether its language has long words. */
  readonly hasLongWords: boolean;
  private readonly pairs = new Map<number, number>();

  constructor(
    /** Its place among the founts of its rack. */
    readonly number: number,
    readonly style: TextStyle,
    readonly fallbacks: readonly FontFace[],
    hyphenator: (language: string) => Hyphenator | null,
  ) {
    this.face = faceOf(style);
    const features = featuresOf(style);
    this.setting = { features, language: style.language, direction: 'ltr' };
    this.rightToLeft = { features, language: style.language, direction: 'rtl' };
    this.scale = style.size / this.face.unitsPerEm;
    this.tracking = style.letterspace * style.size;
    const space = this.face.shape(' ', this.setting);
    this.spaceGlyph = space.glyphs[0] ?? 0;
    this.spaceWidth = Math.max(space.width * this.scale, (style.wordSpace ?? 0) * style.size) + this.tracking;
    this.hyphenator = style.hyphenate ? hyphenator(style.language) : null;
    this.joiner = LIGATURES_STOP.test(style.language) && style.letterspace === 0 ? hyphenator(style.language) : null;
    this.capitalsAreNames = !NOUNS_HAVE_CAPITALS.test(style.language);
    this.hasLongWords = LONG_WORDS.test(style.language);
    this.kernsSpaces = PROBES.some(
      (probe) =>
        this.face.spaceKerning(probe, 'a', this.setting) !== 0 ||
        this.face.spaceKerning('a', probe, this.setting) !== 0,
    );
  }

  /** Places in a word that no ligature reaches across. */
  jointsIn(text: string): readonly number[] {
    return this.joiner && mayTie(text) ? jointsOf(text, this.joiner.breaks(text)) : NO_JOINTS;
  }

  /** Whether words of this fount may have such places at all. */
  get hasJoints(): boolean {
    return this.joiner !== null;
  }

  /** Width that kerning adds between two UTF-16 units. */
  kerning(left: number, right: number): number {
    const key = left * 0x10000 + right;
    const known = this.pairs.get(key);
    if (known !== undefined) return known;
    const width = (text: string) => this.face.shape(text, this.setting).width;
    const [first, second] = [String.fromCharCode(left), String.fromCharCode(right)];
    const kerning = (width(first + second) - width(first) - width(second)) * this.scale;
    this.pairs.set(key, kerning);
    return kerning;
  }
}

/** All founts of a setter, by style. */
export class FountRack {
  readonly founts: Fount[] = [];
  private readonly byIdentity = new WeakMap<TextStyle, Fount>();
  private readonly byKey = new Map<string, Fount>();

  constructor(
    private readonly library: FontLibrary,
    private readonly hyphenator: (language: string) => Hyphenator | null,
  ) {}

  of(style: TextStyle): Fount {
    const known = this.byIdentity.get(style);
    if (known) return known;
    const key = keyOf(style);
    let fount = this.byKey.get(key);
    if (!fount) {
      fount = new Fount(this.founts.length, style, this.library.fallbacks, this.hyphenator);
      this.founts.push(fount);
      this.byKey.set(key, fount);
    }
    this.byIdentity.set(style, fount);
    return fount;
  }
}

function faceOf({ family, bold, italic }: TextStyle): FontFace {
  if (bold) return italic ? family.boldItalic : family.bold;
  return italic ? family.italic : family.regular;
}

/**
 * Letters set apart must not be tied together. German small capitals take no local forms: EB Garamond's German f, made
 * not to touch its neighbours, has no small capital.
 */
function featuresOf({ features, letterspace, language }: TextStyle): string {
  const all = new Set(features);
  if (letterspace !== 0) all.add('-clig').add('-liga');
  if (all.has('smcp') && /^de\b/i.test(language)) all.add('-locl');
  return [...all].sort().join(',');
}

function keyOf(style: TextStyle): string {
  const { family, italic, bold, size, features, letterspace, rise, language, grey, strike, hyphenate, letterCase } =
    style;
  return [
    family.name,
    italic,
    bold,
    size,
    features,
    letterspace,
    style.wordSpace ?? 0,
    rise,
    language,
    grey,
    strike,
    hyphenate,
    letterCase,
  ].join('|');
}
