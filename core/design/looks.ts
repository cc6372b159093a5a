/** From a display setting (in multiples of the text size) to a look in points. */
import type { Points } from '#base';
import type { Align, DisplaySetting, LetterStyle } from './settings.ts';

/** The look of a line or stretch of type, in points. */
export interface Look {
  readonly family: string;
  readonly size: Points;
  /** Distance of its baselines. */
  readonly leading: Points;
  readonly italic: boolean;
  readonly bold: boolean;
  /** In ems of `size`. */
  readonly letterspace: number;
  /** Least word space in ems of `size`; the face's own where absent or wider. */
  readonly wordSpace?: number;
  readonly letters: LetterStyle;
  /** OpenType features, sorted: those of the text, with what the letters ask for. */
  readonly features: readonly string[];
  readonly align: 'justify' | Align;
  readonly hyphenate: boolean;
}

/** What a look stands on: the text's own look. */
export interface LookBase {
  readonly family: string;
  readonly size: Points;
  readonly leading: Points;
  readonly features: readonly string[];
}

/** Least leading of display lines, as a multiple of their size: below it, descenders meet ascenders. */
const TIGHTEST_DISPLAY = 1.05;

/** A display look whose lines keep to the text's grid: its leading is a whole number of the text's lines. */
export function displayLook(base: LookBase, setting: DisplaySetting, align: Align): Look {
  const size = base.size * setting.size;
  return {
    family: base.family,
    size,
    leading: base.leading * Math.max(1, Math.ceil((size * TIGHTEST_DISPLAY) / base.leading - 0.02)),
    italic: setting.italic,
    bold: setting.bold,
    letterspace: setting.letterspace,
    letters: setting.letters,
    features: featuresFor(base.features, setting.letters),
    align,
    hyphenate: false,
  };
}

/** The features of running text plus those of a letter style; capitals take lining figures. */
export function featuresFor(features: readonly string[], letters: LetterStyle): readonly string[] {
  const set = new Set(features);
  if (letters === 'smallCapitals' || letters === 'allSmall') set.add('smcp');
  if (letters === 'allSmall') set.add('c2sc');
  if (letters === 'capitals') {
    set.delete('onum');
    set.delete('pnum');
    set.add('lnum').add('case');
  }
  return [...set].sort();
}
