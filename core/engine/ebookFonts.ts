/** The faces that an ebook embeds, cut down to what its text needs. */
import type { EditionView } from '#book';
import type { EbookFont } from '#ebook';
import type { FontFace, FontFamily } from '#type';

/** Characters that reading systems may set besides the text: figures of lists and notes, quotes, hyphens. */
const ALWAYS = ' 0123456789.,;:!?-\u2010\u2011\u2013\u2014\u2018\u2019\u201c\u201d\u2026';

/** The faces of the family that the edition uses. A face whose licence forbids embedding stays out (FACTS D-15). */
export function ebookFonts(view: EditionView, family: FontFamily): readonly EbookFont[] {
  const characters = new Set(ALWAYS);
  let bold = false;
  for (const section of view.sections) {
    section.node.descendants((node) => {
      if (node.isText) for (const character of node.text ?? '') characters.add(character);
      if (node.marks.some((mark) => mark.type.name === 'strong') || node.type.name === 'table') bold = true;
    });
  }
  addMetadata(view, characters);
  const codePoints = withBothCases(characters);
  const wanted = new Set([family.regular, family.italic, ...(bold ? [family.bold, family.boldItalic] : [])]);
  return [...wanted].filter((face) => face.embedding !== 'restricted').map((face) => fontOf(face, codePoints));
}

function addMetadata({ metadata, sections }: EditionView, into: Set<string>): void {
  const texts = [metadata.title, metadata.subtitle ?? '', ...metadata.contributors.map((each) => each.name)];
  for (const section of sections) texts.push(section.label ?? '', section.titleText);
  for (const text of texts) for (const character of text) into.add(character);
}

/** Letters in both cases, since headings and lead-ins may be set in capitals, and the whole Latin alphabet. */
function withBothCases(characters: ReadonlySet<string>): number[] {
  const codePoints = new Set<number>();
  const add = (text: string) => {
    for (const character of text) codePoints.add(character.codePointAt(0) ?? 0);
  };
  for (const character of characters) {
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
    bytes: face.subsetForText(codePoints),
    fileName: `${face.id}.${face.cff ? 'otf' : 'ttf'}`,
  };
}
