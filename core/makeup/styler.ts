/**
 * From a design's look and the marks of the text to the style of a span. In: looks and marks; out: `TextStyle` values,
 * the same object for the same look and marks. Looks that differ in size, leading or alignment alone give the same styles,
 * in every design.
 */
import type { Mark } from 'prosemirror-model';
import { featuresFor, type Look } from '#design';
import type { TextStyle } from '#paragraph';
import type { FontFace, FontLibrary } from '#type';

/** Superior figures and letters where the face has none of its own: size and rise as shares of the text around them. */
const SUPERIOR_SIZE = 0.64;
const SUPERIOR_RISE = 0.34;
const INFERIOR_RISE = -0.14;

/** Height of small capitals made from capitals, for a face without real ones. */
const FALSE_SMALL_CAPITALS = 0.8;

/** Space between small capitals inside running text, in ems (FACTS T-22: 5 to 10 per cent). */
const SMALL_CAPITALS_SPACE = 0.04;

interface Inked {
  italic: boolean;
  bold: boolean;
  smallCapitals: boolean;
  position: 'base' | 'superior' | 'inferior';
  strike: boolean;
  language: string;
}

/** What looks that differ in size, leading or alignment alone have in common, and the styles made of it. */
export interface TextLook {
  readonly look: Look;
  readonly styles: Map<string, TextStyle>;
}

export class Styler {
  private readonly known = new WeakMap<Look, TextLook>();
  private readonly byKey = new Map<string, TextLook>();

  constructor(
    private readonly library: FontLibrary,
    /** BCP 47, the book's language. */
    readonly language: string,
  ) {}

  /** What a look has in common with others: the same object for all of them. */
  textLook(look: Look): TextLook {
    const known = this.known.get(look);
    if (known) return known;
    const { family, italic, bold, letterspace, wordSpace, letters, features, hyphenate } = look;
    const key = JSON.stringify([family, italic, bold, letterspace, wordSpace ?? 0, letters, features, hyphenate]);
    const found = this.byKey.get(key) ?? { look, styles: new Map<string, TextStyle>() };
    this.byKey.set(key, found);
    this.known.set(look, found);
    return found;
  }

  /** The style of unmarked text. */
  plain(look: Look): TextStyle {
    return this.style(look, NO_MARKS);
  }

  /** The style of text under marks. */
  style(look: Look, marks: readonly Mark[]): TextStyle {
    const key = marks.length === 0 ? '' : marks.map(markKey).join(' ');
    return this.remembered(look, key, () => this.resolve(look, this.inked(look, marks)));
  }

  /** The style of a note's reference: superior figures, the face's own where it has them. */
  noteMark(look: Look): TextStyle {
    return this.remembered(look, '#note', () => {
      const style = this.resolve(look, { ...this.inked(look, NO_MARKS), position: 'base' });
      const face = faceOf(style);
      if (face.hasFeature('sups'))
        return { ...style, features: sorted([...without(style, 'onum', 'pnum', 'smcp'), 'sups']) };
      return raised({ ...style, features: without(style, 'onum', 'pnum') }, SUPERIOR_RISE);
    });
  }

  private remembered(look: Look, key: string, make: () => TextStyle): TextStyle {
    const { styles } = this.textLook(look);
    const style = styles.get(key) ?? make();
    styles.set(key, style);
    return style;
  }

  private inked(look: Look, marks: readonly Mark[]): Inked {
    const inked: Inked = {
      italic: look.italic,
      bold: look.bold,
      smallCapitals: false,
      position: 'base',
      strike: false,
      language: this.language,
    };
    for (const mark of marks) applyMark(inked, mark, look);
    return inked;
  }

  private resolve(look: Look, inked: Inked): TextStyle {
    const letters = inked.smallCapitals && look.letters === 'asTyped' ? 'smallCapitals' : look.letters;
    const style: TextStyle = {
      family: this.library.family(look.family),
      italic: inked.italic,
      bold: inked.bold,
      size: 1,
      features: letters === look.letters ? look.features : featuresFor(look.features, letters),
      letterspace: letters === look.letters ? look.letterspace : SMALL_CAPITALS_SPACE,
      wordSpace: look.wordSpace ?? 0,
      rise: 0,
      language: inked.language,
      grey: 0,
      strike: inked.strike,
      hyphenate: look.hyphenate,
      letterCase: letters === 'capitals' ? 'upper' : 'asTyped',
    };
    return positioned(withRealSmallCapitals(style, letters), inked.position);
  }
}

const NO_MARKS: readonly Mark[] = [];

function applyMark(inked: Inked, mark: Mark, look: Look): void {
  switch (mark.type.name) {
    case 'emphasis':
      inked.italic = !look.italic;
      return;
    case 'strong':
      inked.bold = true;
      return;
    case 'smallCaps':
      inked.smallCapitals = true;
      return;
    case 'superscript':
      inked.position = 'superior';
      return;
    case 'subscript':
      inked.position = 'inferior';
      return;
    case 'strikethrough':
      inked.strike = true;
      return;
    case 'language':
      inked.language = String(mark.attrs['tag']);
      return;
    case 'link':
      return;
    default:
      throw new RangeError(`unknown mark ${mark.type.name}`);
  }
}

function markKey(mark: Mark): string {
  return mark.type.name === 'language' ? `language:${String(mark.attrs['tag'])}` : mark.type.name;
}

function positioned(style: TextStyle, position: Inked['position']): TextStyle {
  if (position === 'base') return style;
  return raised(style, position === 'superior' ? SUPERIOR_RISE : INFERIOR_RISE);
}

function raised(style: TextStyle, rise: number): TextStyle {
  return { ...style, size: style.size * SUPERIOR_SIZE, rise: style.size * rise };
}

function withRealSmallCapitals(style: TextStyle, letters: Look['letters']): TextStyle {
  if (letters !== 'smallCapitals' && letters !== 'allSmall') return style;
  const face = faceOf(style);
  if (face.hasFeature('smcp')) return style;
  return {
    ...style,
    features: without(style, 'smcp', 'c2sc', 'onum', 'pnum'),
    letterCase: 'upper',
    size: style.size * FALSE_SMALL_CAPITALS,
  };
}

/** The face that a style is set in. */
export function faceOf(style: TextStyle): FontFace {
  const { family, bold, italic } = style;
  if (bold) return italic ? family.boldItalic : family.bold;
  return italic ? family.italic : family.regular;
}

function without(style: TextStyle, ...features: readonly string[]): readonly string[] {
  return style.features.filter((each) => !features.includes(each));
}

function sorted(features: readonly string[]): readonly string[] {
  return [...features].sort();
}
