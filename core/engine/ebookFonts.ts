/** The faces that an ebook embeds, cut down to what its text needs. */
import type { EditionView } from '#book';
import type { EbookDesign } from '#design';
import type { EbookFont } from '#ebook';
import type { FontFace, FontFamily, FontLibrary } from '#type';

/** Characters that reading systems may set besides the text: figures of lists and notes, quotes, hyphens. */
const ALWAYS = ' 0123456789.,;:!?-\u2010\u2011\u2013\u2014\u2018\u2019\u201c\u201d\u2026';

/** The faces of text and titles that the edition uses. One whose licence forbids embedding stays out (FACTS D-15). */
export function ebookFonts(view: EditionView, design: EbookDesign, library: FontLibrary): readonly EbookFont[] {
  const characters = new CharacterSet();
  characters.add(ALWAYS);
  let bold = false;
  for (const section of view.sections) {
    section.node.descendants((node) => {
      if (node.isText) characters.add(node.text ?? '');
      if (node.marks.some((mark) => mark.type.name === 'strong') || node.type.name === 'table') bold = true;
    });
  }
  addMetadata(view, characters);
  const codePoints = withBothCases(characters);
  const wanted = new Set([
    ...textFaces(library.family(design.family), bold),
    ...titleFaces(library.family(design.displayFamily), design),
  ]);
  return [...wanted].filter((face) => face.embedding !== 'restricted').map((face) => fontOf(face, codePoints));
}

function textFaces(family: FontFamily, bold: boolean): readonly FontFace[] {
  return [family.regular, family.italic, ...(bold ? [family.bold, family.boldItalic] : [])];
}

/** Titles may be set in a family of their own, in the cuts that their looks ask for. */
function titleFaces(
  family: FontFamily,
  { opener, part, matter, subheads, titlePage }: EbookDesign,
): readonly FontFace[] {
  const openers = [opener, part, matter].flatMap(({ numberLook, loneNumberLook, titleLook, subtitleLook }) => [
    numberLook,
    loneNumberLook,
    titleLook,
    subtitleLook,
  ]);
  const { title, subtitle, author, publisher } = titlePage;
  return [...openers, ...subheads, title, subtitle, author, publisher].map(({ italic, bold }) => {
    if (italic) return bold ? family.boldItalic : family.italic;
    return bold ? family.bold : family.regular;
  });
}

/** The characters of texts, found without making a string of each. */
class CharacterSet {
  private readonly units = new Uint8Array(0x10000);
  /** Those outside the basic plane. */
  private readonly others = new Set<number>();

  add(text: string): void {
    const { units } = this;
    for (let at = 0; at < text.length; at++) {
      const unit = text.charCodeAt(at);
      units[unit] = 1;
      // A surrogate counts as a character of its own only where it stands alone.
      if (unit < 0xd800 || unit > 0xdfff) continue;
      const codePoint = text.codePointAt(at) ?? unit;
      this.others.add(codePoint);
      if (codePoint > 0xffff) at++;
    }
  }

  *characters(): Generator<string, void> {
    for (let unit = 0; unit < 0xd800; unit++) if (this.units[unit]) yield String.fromCharCode(unit);
    for (let unit = 0xe000; unit < 0x10000; unit++) if (this.units[unit]) yield String.fromCharCode(unit);
    for (const codePoint of this.others) yield String.fromCodePoint(codePoint);
  }
}

function addMetadata({ metadata, sections }: EditionView, into: CharacterSet): void {
  const texts = [metadata.title, metadata.subtitle ?? '', ...metadata.contributors.map((each) => each.name)];
  for (const section of sections) texts.push(section.label ?? '', section.titleText);
  for (const text of texts) into.add(text);
}

/** Letters in both cases, since headings and lead-ins may be set in capitals, and the whole Latin alphabet. */
function withBothCases(texts: CharacterSet): number[] {
  const codePoints = new Set<number>();
  const add = (text: string) => {
    for (const character of text) codePoints.add(character.codePointAt(0) ?? 0);
  };
  for (const character of texts.characters()) {
    add(character.toUpperCase());
    add(character.toLowerCase());
  }
  for (let code = 0x41; code <= 0x5a; code++) add(String.fromCharCode(code, code + 0x20));
  return [...codePoints].sort((one, other) => one - other);
}

function fontOf(face: FontFace, codePoints: readonly number[]): EbookFont {
  return {
    family: face.family,
    weight: face.weight,
    italic: face.italic,
    // OS/2 fsType bit 8: such a font may be embedded whole or not at all (FACTS D-15).
    bytes: face.maySubset ? face.subsetForText(codePoints) : face.bytes,
    fileName: `${face.id}.${face.cff ? 'otf' : 'ttf'}`,
  };
}
