/** The characters of fonts that can stand between scenes. In: the fonts that are there; out: each with its drawing. */
import type { Ornament } from '#design';
import { glyphOrnament, ornamentalCharacters } from '#engine';
import type { FontFace, FontLibrary } from '#type';

export interface GlyphMark {
  readonly family: string;
  readonly character: string;
  /** Drawn at the size of the text. */
  readonly ornament: Ornament;
}

export interface MarksReply {
  readonly kind: 'marks';
  readonly marks: readonly GlyphMark[];
}

/** The marks of these families, then those of the faces that help out with single characters. */
export function marksOf(library: FontLibrary, families: readonly string[]): readonly GlyphMark[] {
  const text = families.filter((family) => library.about(family)).map((family) => library.family(family).regular);
  const helpers = library.fallbacks.filter((face) => !face.italic);
  return [...text.flatMap((face) => marksIn(face, true)), ...helpers.flatMap((face) => marksIn(face, false))];
}

function marksIn(face: FontFace, plain: boolean): readonly GlyphMark[] {
  return ornamentalCharacters(face, plain).flatMap((character) => {
    const ornament = glyphOrnament(face, character, 1);
    return ornament ? [{ family: face.family, character, ornament }] : [];
  });
}
