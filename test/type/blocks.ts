/**
 * An OpenType font with CFF outlines, built by hand: its letters A to E are bars that grow taller. For what a library must
 * do with OTF files; no such file is among the test fonts.
 */

/** Glyphs: .notdef, space, A, B, C, D, E. The bar of the n-th letter is 100 n units high and 400 wide. */
const LETTERS = 5;
const GLYPHS = LETTERS + 2;
export const ADVANCE = 500;

export function blockFont(): Uint8Array {
  return sfnt({
    'CFF ': cff(),
    'OS/2': os2(),
    cmap: cmap(),
    head: head(),
    hhea: [
      ...u32(0x00010000),
      ...u16(800, -200, 0),
      ...u16(ADVANCE, 0, 0, ADVANCE, 1, 0, 0, 0, 0, 0, 0, 0),
      ...u16(GLYPHS),
    ],
    hmtx: Array.from({ length: GLYPHS }, () => u16(ADVANCE, 50)).flat(),
    maxp: [...u32(0x00005000), ...u16(GLYPHS)],
    name: name(),
    post: [...u32(0x00030000), ...new Array<number>(28).fill(0)],
  });
}

function u16(...values: readonly number[]): number[] {
  return values.flatMap((value) => [(value >> 8) & 255, value & 255]);
}

function u32(value: number): number[] {
  return [(value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
}

function ascii(text: string): number[] {
  return Array.from(text, (letter) => letter.charCodeAt(0));
}

function head(): number[] {
  return [
    ...[...u32(0x00010000), ...u32(0x00010000), ...u32(0), ...u32(0x5f0f3cf5), ...u16(3, 1000)],
    ...[...new Array<number>(16).fill(0), ...u16(50, 0, 450, 500, 0, 8, 2, 0, 0)],
  ];
}

/** Version 2: the first that holds x-height and cap height. */
function os2(): number[] {
  const start = [...u16(2, ADVANCE, 400, 5, 0), ...new Array<number>(58).fill(0)];
  return [...start, ...u16(800, -200, 0, 800, 200), ...new Array<number>(8).fill(0), ...u16(300, 500, 0, 32, 1)];
}

/** Format 4 with two segments: space, and A to E; then the last one that the format asks for. */
function cmap(): number[] {
  const last = 0x41 + LETTERS - 1;
  const table = [
    ...u16(4, 16 + 3 * 8, 0, 6, 4, 1, 2),
    ...u16(0x20, last, 0xffff, 0),
    ...u16(0x20, 0x41, 0xffff),
    ...u16(1 - 0x20, 2 - 0x41, 1),
    ...u16(0, 0, 0),
  ];
  return [...u16(0, 1, 3, 1), ...u32(12), ...table];
}

function name(): number[] {
  const text = ascii('Blocks').flatMap((letter) => [0, letter]);
  return [...u16(0, 1, 18, 3, 1, 0x409, 6, text.length, 0), ...text];
}

/** Compact Font Format (Adobe Technical Note 5176), names from the standard strings. */
function cff(): number[] {
  const start = [1, 0, 4, 4, ...index([ascii('Blocks')])];
  // Numbers of the top dictionary take five bytes each, so that its length is known before what it points to.
  const topLength = 4 * 5 + 3;
  const strings = u16(0);
  const subroutines = u16(0);
  const charset = [0, ...u16(1, ...Array.from({ length: LETTERS }, (_, i) => 34 + i))];
  const glyphs = index([[14], [14], ...Array.from({ length: LETTERS }, (_, i) => bar(100 * (i + 1)))]);
  const charsetAt =
    start.length + index([new Array<number>(topLength).fill(0)]).length + strings.length + subroutines.length;
  const glyphsAt = charsetAt + charset.length;
  const top = [...long(charsetAt), 15, ...long(glyphsAt), 17, ...long(0), ...long(glyphsAt + glyphs.length), 18];
  return [...start, ...index([top]), ...strings, ...subroutines, ...charset, ...glyphs];
}

/** A bar from 50 to 450, as high as told: move, then lines, then the end. */
function bar(height: number): number[] {
  return [...short(50), 22, ...short(400), 6, ...short(height), 7, ...short(-400), 6, 14];
}

function short(value: number): number[] {
  return [28, ...u16(value)];
}

function long(value: number): number[] {
  return [29, ...u32(value)];
}

function index(entries: readonly (readonly number[])[]): number[] {
  const offsets: number[] = [1];
  for (const entry of entries) offsets.push(offsets[offsets.length - 1]! + entry.length);
  return [...u16(entries.length), 2, ...u16(...offsets), ...entries.flat()];
}

function sfnt(tables: Readonly<Record<string, readonly number[]>>): Uint8Array {
  const tags = Object.keys(tables).sort();
  const directory: number[] = [...ascii('OTTO'), ...u16(tags.length, 128, 3, tags.length * 16 - 128)];
  const body: number[] = [];
  const start = 12 + tags.length * 16;
  for (const tag of tags) {
    const table = tables[tag]!;
    directory.push(...ascii(tag), ...u32(0), ...u32(start + body.length), ...u32(table.length));
    body.push(...table);
    while (body.length % 4 !== 0) body.push(0);
  }
  return Uint8Array.from([...directory, ...body]);
}
