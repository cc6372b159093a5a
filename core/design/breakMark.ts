/**
 * What stands between two scenes. In: a design's settings, where it may be a drawn ornament, a character of a font or a
 * picture of the author's own; out: what is shown, once somebody who has fonts and pictures has looked them up.
 */
import { type AssetId, failure, type Outcome, type Size, success } from '#base';
import type { Json } from '#book';
import { type Ornament, type OrnamentId, ornament } from './ornaments.ts';

/** A mark of the author's choice, which takes the place of the drawn ornament wherever it can be had. */
export type OwnMark =
  /** One character of a font; `size` as a multiple of the text size. */
  | { readonly kind: 'glyph'; readonly family: string; readonly character: string; readonly size: number }
  /** A picture of the book; `height` in lines of the text. `colour`: whether it has any. */
  | { readonly kind: 'picture'; readonly asset: AssetId; readonly height: number; readonly colour: boolean }
  /** A drawing of filled shapes, as outlines: see `Ornament.path`. `height` in lines of the text. */
  | {
      readonly kind: 'drawing';
      readonly name: string;
      readonly path: string;
      readonly viewBox: Size;
      readonly height: number;
    };

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

/** How large a mark of one's own may be: a character in text sizes, pictures and drawings in lines. */
export const OWN_MARK_SIZES = {
  glyph: { least: 0.5, most: 4 },
  picture: { least: 0.5, most: 8 },
  drawing: { least: 0.5, most: 8 },
} as const;

/** Characters of a drawing's outlines: it is part of the design, which travels with each step of a drag. */
export const LONGEST_DRAWING = 40_000;

/** The drawn ornament as a mark. */
export function drawnMark(id: OrnamentId): BreakMark {
  return { kind: 'drawn', ornament: ornament(id) };
}

/** How far a drawing may reach into the white around its lines, in lines. */
const REACH = 0.1;

/** Lines of the grid that a mark takes. `leading` in ems of the text size. */
export function linesOfMark(mark: BreakMark, leading: number): number {
  return Math.max(
    1,
    Math.ceil(mark.kind === 'picture' ? mark.height - 1e-6 : heightOf(mark.ornament) / leading - REACH),
  );
}

/** In ems of the text size. */
function heightOf({ width, viewBox }: Ornament): number {
  return (width * viewBox.height) / viewBox.width;
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
  const path = fields.get('path');
  const name = fields.get('name');
  const viewBox = sizeOf(fields.get('viewBox'));
  if (kind === 'drawing' && typeof name === 'string' && isOutline(path) && viewBox && isWithin(height, 'drawing')) {
    return success({ kind, name, path, viewBox, height });
  }
  return failure('not a mark for scene breaks');
}

const NUMBER = '-?\\d{1,6}(?:\\.\\d{1,3})?';
const OUTLINE = new RegExp(`^M${NUMBER} ${NUMBER}(?:[ML]${NUMBER} ${NUMBER}|C${NUMBER}(?: ${NUMBER}){5}|Z)*$`);

/** Path data of moves, lines, cubic curves and closings in absolute coordinates, and nothing else. */
export function isOutline(path: Json | undefined): path is string {
  return typeof path === 'string' && path.length <= LONGEST_DRAWING && OUTLINE.test(path);
}

function sizeOf(json: Json | undefined): Size | null {
  const fields = new Map(typeof json === 'object' && json !== null && !Array.isArray(json) ? Object.entries(json) : []);
  const [width, height] = ['width', 'height'].map((name) => fields.get(name));
  const isLength = (value: Json | undefined): value is number =>
    typeof value === 'number' && value > 0 && value <= 1_000_000;
  return isLength(width) && isLength(height) ? { width, height } : null;
}

function isCharacter(value: Json | undefined): value is string {
  return typeof value === 'string' && [...value].length === 1;
}

function isWithin(value: Json | undefined, kind: OwnMark['kind']): value is number {
  const { least, most } = OWN_MARK_SIZES[kind];
  return typeof value === 'number' && value >= least && value <= most;
}
