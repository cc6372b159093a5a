/**
 * Font objects (ISO 32000-1, 9.7). In: a face and the glyphs that were set with what they read as; out: a composite font
 * whose codes are the face's own glyph ids, with the subset embedded and a map back to text.
 */
import { sha256Hex } from '#base';
import { type FontFace, fontTable } from '#type';
import type { FaceText } from './faceText.ts';
import type { PdfFile } from './file.ts';
import { type Dictionary, literal, type Ref, textString, unitHex } from './objects.ts';

type Deflate = (bytes: Uint8Array) => Uint8Array;

/** Why a face may not be embedded, null where it may (OpenType OS/2 `fsType`). */
export function embeddingProblem(face: FontFace): string | null {
  if (face.embedding !== 'restricted') return null;
  return `The licence of ${face.family} forbids embedding it, so no book can be printed with it.`;
}

/** A face as it goes into the file: its program holds the glyphs that were set, or all of them. */
export interface CutFont {
  readonly text: FaceText;
  readonly program: Uint8Array;
}

/** A face with the glyphs that were set, where its licence lets it be cut. */
export function cutFont(text: FaceText): CutFont {
  const { face } = text;
  return { text, program: face.maySubset ? face.subset(text.glyphs()) : face.bytes };
}

/** Writes a font and gives its reference. */
export function embedFont(file: PdfFile, { text, program }: CutFont, deflate: Deflate): Ref {
  const { face } = text;
  const glyphs = text.glyphs();
  const name = face.maySubset ? `${subsetTag(face, glyphs)}+${face.postScriptName}` : face.postScriptName;
  const descendant = file.add({
    Type: 'Font',
    Subtype: face.cff ? 'CIDFontType0' : 'CIDFontType2',
    BaseFont: name,
    CIDSystemInfo: { Registry: literal('Adobe'), Ordering: literal('Identity'), Supplement: 0 },
    FontDescriptor: descriptor(file, face, { name, program, deflate }),
    DW: 0,
    W: widths(text, glyphs),
    ...(face.cff ? {} : { CIDToGIDMap: 'Identity' }),
  });
  return file.add({
    Type: 'Font',
    Subtype: 'Type0',
    BaseFont: face.cff ? `${name}-Identity-H` : name,
    Encoding: 'Identity-H',
    DescendantFonts: [descendant],
    ToUnicode: compressed(file, toUnicode(text, glyphs), deflate),
  });
}

interface Embedded {
  readonly name: string;
  readonly program: Uint8Array;
  readonly deflate: Deflate;
}

function descriptor(file: PdfFile, face: FontFace, { name, program, deflate }: Embedded): Ref {
  const thousandths = (value: number) => Math.round((value * 1000) / face.unitsPerEm);
  const flate = (bytes: Uint8Array, entries: Dictionary) =>
    file.addStream({ Filter: 'FlateDecode', ...entries }, deflate(bytes));
  return file.add({
    Type: 'FontDescriptor',
    FontName: name,
    FontFamily: textString(face.family),
    FontWeight: face.weight,
    Flags: flags(face),
    FontBBox: face.boundingBox.map(thousandths),
    ItalicAngle: face.italicAngle,
    Ascent: thousandths(face.ascender),
    Descent: thousandths(face.descender),
    CapHeight: thousandths(face.capHeight),
    XHeight: thousandths(face.xHeight),
    StemV: stem(face.weight),
    ...(face.cff
      ? { FontFile3: flate(cffTable(program), { Subtype: 'CIDFontType0C' }) }
      : { FontFile2: flate(program, { Length1: program.length }) }),
  });
}

/** Symbolic (codes are glyph ids, no standard set of letters), italic where it leans (table 123). */
function flags(face: FontFace): number {
  return 4 | (face.italic || face.italicAngle !== 0 ? 64 : 0);
}

/** Width of upright stems from the weight: no table holds it (common practice, no source). */
function stem(weight: number): number {
  return Math.round(50 + (weight / 65) ** 2);
}

/** The bare outlines of an OTF file. */
function cffTable(program: Uint8Array): Uint8Array {
  const outlines = fontTable(program, 'CFF ');
  if (!outlines) throw new RangeError('the subset of a CFF font has no CFF table');
  return outlines;
}

/** Six capitals that stand for the set of glyphs (9.6.4). */
function subsetTag(face: FontFace, glyphs: readonly number[]): string {
  const codes = new Uint8Array(glyphs.length * 2 + face.id.length);
  glyphs.forEach((glyph, i) => {
    codes[i * 2] = glyph >> 8;
    codes[i * 2 + 1] = glyph & 255;
  });
  for (let i = 0; i < face.id.length; i++) codes[glyphs.length * 2 + i] = face.id.charCodeAt(i);
  const hash = sha256Hex(codes);
  let tag = '';
  for (let i = 0; i < 6; i++) tag += String.fromCharCode(65 + (Number.parseInt(hash.slice(i * 4, i * 4 + 4), 16) % 26));
  return tag;
}

/** Runs of neighbouring glyphs with their widths: `[1 [552 480] 7 [600]]`. */
function widths(text: FaceText, glyphs: readonly number[]): (number | number[])[] {
  const list: (number | number[])[] = [];
  let run: number[] = [];
  let next = -1;
  for (const glyph of glyphs) {
    if (glyph !== next) {
      run = [];
      list.push(glyph, run);
    }
    run.push(text.widthOf(glyph));
    next = glyph + 1;
  }
  return list;
}

const CMAP_HEAD = `/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
`;
const CMAP_TAIL = `endcmap
CMapName currentdict /CMap defineresource pop
end
end
`;
/** Most lines in a block of a map (9.10.3 by way of the CMap format). */
const BLOCK = 100;

function toUnicode(text: FaceText, glyphs: readonly number[]): string {
  const lines: string[] = [];
  for (const glyph of glyphs) {
    const reading = text.textOf(glyph);
    if (reading !== '')
      lines.push(
        `<${unitHex(glyph)}> <${Array.from({ length: reading.length }, (_, i) => unitHex(reading.charCodeAt(i))).join('')}>`,
      );
  }
  let map = CMAP_HEAD;
  for (let i = 0; i < lines.length; i += BLOCK) {
    const block = lines.slice(i, i + BLOCK);
    map += `${block.length} beginbfchar\n${block.join('\n')}\nendbfchar\n`;
  }
  return map + CMAP_TAIL;
}

function compressed(file: PdfFile, ascii: string, deflate: Deflate): Ref {
  const bytes = Uint8Array.from({ length: ascii.length }, (_, i) => ascii.charCodeAt(i));
  return file.addStream({ Filter: 'FlateDecode' }, deflate(bytes));
}
