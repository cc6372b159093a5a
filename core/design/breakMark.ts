/**
 * What stands between two scenes. In: a design's settings, where it may be a drawn ornament, a character of a font or a
 * picture of the author's own; out: what is shown, once somebody who has fonts and pictures has looked them up.
 */
import { type AssetId, failure, type Outcome, success } from '#base';
import type { Json } from '#book';
import { type Ornament, type OrnamentId, ornament } from './ornaments.ts';

/** A mark of the author's choice, which takes the place of the drawn ornament wherever it can be had. */
export type OwnMark =
  /** One character of a font; `size` as a multiple of the text size. */
  | { readonly kind: 'glyph'; readonly family: string; readonly character: string; readonly size: number }
  /** A picture of the book; `height` in lines of the text. `colour`: whether it has any. */
  | { readonly kind: 'picture'; readonly asset: AssetId; readonly height: number; readonly colour: boolean };

/** A picture that stands between scenes. */
export interface PictureMark {
  readonly kind: 'picture';
  readonly asset: AssetId;
  readonly mediaType: string;
  /** Width divided by height. */
  readonly aspect: number;
  /** In lines of the text. */
  readonly height: number;
}

/** A mark that can be shown as it is. */
export type BreakMark = { readonly kind: 'drawn'; readonly ornament: Ornament } | PictureMark;

export interface SceneBreakSetting {
  readonly mark: 'ornament' | 'space';
  /** The ornament drawn for this project; it stands in where `own` can't be shown. */
  readonly ornament: OrnamentId;
  readonly lines: number;
  readonly own: OwnMark | null;
}

/** How large a mark of one's own may be: a character in text sizes, a picture in lines. */
export const OWN_MARK_SIZES = { glyph: { least: 0.5, most: 4 }, picture: { least: 0.5, most: 8 } } as const;

/** The drawn ornament as a mark. */
export function drawnMark(id: OrnamentId): BreakMark {
  return { kind: 'drawn', ornament: ornament(id) };
}

/** Lines of the grid that a mark takes. */
export function linesOfMark(mark: BreakMark): number {
  return mark.kind === 'picture' ? Math.max(1, Math.ceil(mark.height - 1e-6)) : 1;
}

/** A mark as it is kept with a design. */
export function readOwnMark(json: Json): Outcome<OwnMark | null> {
  if (json === null) return success(null);
  const fields = new Map(typeof json === 'object' && !Array.isArray(json) ? Object.entries(json) : []);
  const [kind, asset, height, colour] = ['kind', 'asset', 'height', 'colour'].map((name) => fields.get(name));
  const [family, character, size] = ['family', 'character', 'size'].map((name) => fields.get(name));
  if (kind === 'glyph' && typeof family === 'string' && isCharacter(character) && isWithin(size, 'glyph')) {
    return success({ kind, family, character, size });
  }
  if (kind === 'picture' && typeof asset === 'string' && isWithin(height, 'picture') && typeof colour === 'boolean') {
    return success({ kind, asset, height, colour });
  }
  return failure('not a mark for scene breaks');
}

function isCharacter(value: Json | undefined): value is string {
  return typeof value === 'string' && [...value].length === 1;
}

function isWithin(value: Json | undefined, kind: OwnMark['kind']): value is number {
  const { least, most } = OWN_MARK_SIZES[kind];
  return typeof value === 'number' && value >= least && value <= most;
}
