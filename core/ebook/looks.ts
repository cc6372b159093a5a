/** Looks of the design as CSS declarations. In: settings in ems; out: declarations for one rule. */
import type { Align, BreakMark, EbookLook, LetterStyle, Ornament, PictureMark } from '#design';
import { imageEnding } from './pictures.ts';

/** Which side a line begins on, for style sheets that may not know `start` and `end`. */
export interface Sides {
  readonly start: 'left' | 'right';
  readonly end: 'left' | 'right';
}

export function sidesOf(rightToLeft: boolean): Sides {
  return rightToLeft ? { start: 'right', end: 'left' } : { start: 'left', end: 'right' };
}

export function alignment(align: Align, sides: Sides): string {
  return align === 'center' ? 'center' : sides[align];
}

/** Type size, slant, weight, letters and spacing of a display line. `size` stands apart: see `fontSize`. */
export function lookRules(look: EbookLook, numeric: string): string {
  return [
    `font-size: ${em(look.size)};`,
    look.italic ? 'font-style: italic;' : '',
    look.bold ? 'font-weight: bold;' : '',
    look.letterspace === 0 ? '' : `letter-spacing: ${em(look.letterspace)};`,
    letterRules(look.letters, numeric),
  ]
    .filter((rule) => rule !== '')
    .join(' ');
}

/**
 * Capitals and small capitals as look, never as text. `font-variant` for old readers takes figures and capitals in one,
 * so the figures are named again after it.
 */
export function letterRules(letters: LetterStyle, numeric: string): string {
  switch (letters) {
    case 'asTyped':
      return '';
    case 'capitals':
      return 'text-transform: uppercase; font-variant-numeric: lining-nums;';
    case 'smallCapitals':
      return `font-variant: small-caps;${numeric === '' ? '' : ` ${numeric}`}`;
    case 'allSmall':
      return `font-variant: small-caps; font-variant-caps: all-small-caps;${numeric === '' ? '' : ` ${numeric}`}`;
  }
}

const NUMERIC: ReadonlyMap<string, string> = new Map([
  ['onum', 'oldstyle-nums'],
  ['lnum', 'lining-nums'],
  ['pnum', 'proportional-nums'],
  ['tnum', 'tabular-nums'],
]);

/** The figures that running text asks for, as one declaration, or ''. */
export function numericRule(features: readonly string[]): string {
  const names = features.flatMap((feature) => NUMERIC.get(feature) ?? []);
  return names.length === 0 ? '' : `font-variant-numeric: ${names.join(' ')};`;
}

/** Features that have no property of their own. */
export function otherFeatures(features: readonly string[]): string {
  const rest = features.filter((feature) => /^[a-z0-9]{4}$/.test(feature) && !NUMERIC.has(feature));
  return rest.length === 0 ? '' : `font-feature-settings: ${rest.map((feature) => `"${feature}"`).join(', ')};`;
}

/** An ornament as the background of an empty box of its own size. */
export function ornamentRules(ornament: Ornament): string {
  const height = (ornament.width * ornament.viewBox.height) / ornament.viewBox.width;
  return (
    `width: ${em(ornament.width)}; height: ${em(height)}; ` +
    `background: url("${ornamentPath(ornament)}") no-repeat center; background-size: 100% 100%;`
  );
}

/** Ems of text that every screen has room for. */
const NARROW_SCREEN = 8;

/** What stands between scenes, as the background of the separator: it has no words, and needs none read out. */
export function markRules(mark: BreakMark, leading: number): string {
  if (mark.kind === 'drawn') {
    const fits = mark.ornament.width <= NARROW_SCREEN ? '' : ' max-width: 100%; background-size: contain;';
    return `${ornamentRules(mark.ornament)}${fits}`;
  }
  const height = mark.height * leading;
  return (
    `width: ${em(height * mark.aspect)}; max-width: 100%; height: ${em(height)}; ` +
    `background: url("${picturePath(mark)}") no-repeat center; background-size: contain;`
  );
}

/** From the package document. */
export function picturePath({ mediaType }: PictureMark): string {
  return `images/scene-break.${imageEnding(mediaType) ?? 'png'}`;
}

/** From the package document. */
export function ornamentPath(ornament: Ornament): string {
  return `images/ornament-${ornament.id.replace(/[^A-Za-z0-9]/g, '')}.svg`;
}

/**
 * An ornament's file. A middle grey reads on paper white (4.5 to 1) and on black (4.6 to 1) alike, for a background
 * picture cannot take the colour of the text.
 */
export function ornamentSvg(ornament: Ornament): string {
  const { width, height } = ornament.viewBox;
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">
<path fill="#767676" d="${ornament.path}"/>
</svg>
`;
}

/** A length in ems with three decimals at most. */
export function em(value: number): string {
  const rounded = Math.round(value * 1000) / 1000;
  return rounded === 0 ? '0' : `${rounded}em`;
}
