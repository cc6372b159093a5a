/**
 * A design with what there is to set it in. In: settings, which may name fonts and pictures that this computer or this book
 * does not have; out: settings that can be laid out, and what to tell the author of it.
 */
import type { Finding } from '#base';
import type { Asset, Book, Edition, PrintEdition } from '#book';
import {
  type BreakMark,
  builtInDesigns,
  type DesignSettings,
  type DressedSettings,
  type OwnMark,
  paperOf,
} from '#design';
import type { FontLibrary } from '#type';
import { missingCuts } from './cuts.ts';
import { faceOfMark, glyphOrnament } from './glyphMark.ts';

type AssetOf = (id: string) => Asset | undefined;

interface Dressed {
  readonly settings: DressedSettings;
  readonly told: readonly Finding[];
  /** What it was made from besides the settings. */
  readonly picture: Asset | undefined;
}

export class Dresser {
  private readonly known = new WeakMap<DesignSettings, Dressed>();

  constructor(private readonly library: FontLibrary) {}

  /** The same settings where nothing is missing; the same object for the same ones. */
  dressed(settings: DesignSettings, assetOf: AssetOf): DressedSettings {
    return this.dress(settings, assetOf).settings;
  }

  /** What the author should know of an edition that is set by these settings. */
  told(settings: DesignSettings, edition: Edition, book: Book): readonly Finding[] {
    const assetOf: AssetOf = (id) => book.assets.get(id);
    const { settings: worn, told } = this.dress(settings, assetOf);
    if (edition.kind === 'ebook') return [...told, ...this.terms(worn)];
    return [...told, ...missingCuts(worn, this.library, book.text), ...colourOf(worn, edition, assetOf)];
  }

  private dress(settings: DesignSettings, assetOf: AssetOf): Dressed {
    const { own } = settings.sceneBreak;
    const picture = own?.kind === 'picture' ? assetOf(own.asset) : undefined;
    const known = this.known.get(settings);
    if (known && known.picture === picture) return known;
    const text = this.familyFor(settings.text.family, settings);
    const display = this.familyFor(settings.display.family, settings);
    const mark = own && this.markOf(own, settings, picture);
    const told = [...this.missingFamilies(settings), ...(own && !mark ? [missingMark(own)] : [])];
    const changed = text !== settings.text.family || display !== settings.display.family || mark;
    const worn = changed
      ? {
          ...settings,
          text: { ...settings.text, family: text },
          display: { family: display },
          ...(mark ? { breakMark: mark } : {}),
        }
      : settings;
    const dressed = { settings: worn, told, picture };
    this.known.set(settings, dressed);
    return dressed;
  }

  /** The family itself, or of those that travel with the program the one whose letters are nearest in width. */
  private familyFor(family: string, { text }: DesignSettings): string {
    if (this.library.about(family)) return family;
    const there = builtInDesigns.filter((each) => this.library.about(each.text.family));
    const far = (each: DesignSettings): number => Math.abs(each.text.character - text.character);
    const [nearest] = there.sort((one, other) => far(one) - far(other));
    return nearest?.text.family ?? family;
  }

  private missingFamilies(settings: DesignSettings): readonly Finding[] {
    const { text, display } = settings;
    const missing = [...new Set([text.family, display.family])].filter((family) => !this.library.about(family));
    return missing.map((family) => ({
      rule: 'fonts/missing',
      severity: 'error',
      message: `The font “${family}” is not on this computer, or may not be embedded: ${this.familyFor(family, settings)} stands in for it.`,
    }));
  }

  private markOf(own: OwnMark, settings: DesignSettings, picture: Asset | undefined): BreakMark | null {
    if (own.kind === 'picture') return pictureMark(own, picture);
    if (own.kind === 'drawing') return drawingMark(own, settings);
    const face = faceOfMark(this.library, own.family, own.character);
    const ornament = face && glyphOrnament(face, own.character, own.size);
    return ornament && { kind: 'drawn', ornament };
  }

  /** An ebook hands its fonts on to every reader, which print does not: that takes a licence for it. */
  private terms({ text, display }: DesignSettings): readonly Finding[] {
    return [...new Set([text.family, display.family])].flatMap((family) => {
      const about = this.library.about(family);
      if (!about?.installed) return [];
      const terms = termsOf(about.licence, about.licenceAddress);
      return [
        {
          rule: 'fonts/licence',
          severity: about.embedding === 'preview' ? 'warning' : 'note',
          message: `The ebook carries the font “${family}” of this computer: your licence for it has to permit embedding in ebooks.${terms}`,
        },
      ];
    });
  }
}

/** Of a long licence only the beginning is quoted. */
const QUOTED = 100;

function termsOf(licence: string | null, address: string | null): string {
  const quoted =
    licence && (licence.length > QUOTED ? `${licence.slice(0, QUOTED).replace(/\s+\S*$/, '')} …` : licence);
  if (quoted) return ` The font says: “${quoted}”`;
  return address ? ` Its terms: ${address}` : ' The font itself names no terms.';
}

function pictureMark(own: Extract<OwnMark, { kind: 'picture' }>, picture: Asset | undefined): BreakMark | null {
  if (!picture?.pixels) return null;
  const { mediaType, pixels } = picture;
  return { kind: 'picture', asset: own.asset, mediaType, aspect: pixels.width / pixels.height, height: own.height };
}

/** A drawing is an ornament like those of the program, at the height that is wanted. */
function drawingMark(own: Extract<OwnMark, { kind: 'drawing' }>, { text }: DesignSettings): BreakMark {
  const { name, path, viewBox, height } = own;
  const width = (height * text.leading * viewBox.width) / (viewBox.height * text.size);
  return { kind: 'drawn', ornament: { id: 'drawing', name, path, viewBox, width } };
}

function missingMark(own: OwnMark): Finding {
  const what =
    own.kind === 'glyph'
      ? `The font “${own.family}” with ${own.character} for scene breaks is not on this computer`
      : 'The picture for scene breaks is not in the book';
  return {
    rule: 'fonts/break-mark',
    severity: 'warning',
    message: `${what}: the design’s drawn ornament stands in for it.`,
  };
}

const IN_COLOUR = 'colour';

/** A paper for colour is what tells that the inside is printed in it. */
function colourOf(
  { sceneBreak, breakMark }: DressedSettings,
  edition: PrintEdition,
  assetOf: AssetOf,
): readonly Finding[] {
  const { own } = sceneBreak;
  if (paperOf(edition).id === IN_COLOUR) return [];
  if (own?.kind !== 'picture' || !own.colour || breakMark?.kind !== 'picture') return [];
  return [
    {
      rule: 'images/break-colour',
      severity: 'warning',
      message: `The picture for scene breaks, “${assetOf(own.asset)?.name ?? ''}”, has colour: ${edition.name} prints it in grey unless its inside is printed in colour.`,
    },
  ];
}
