/**
 * A PDF of fixed-width lines, made by nothing of this project's: what reads PDFs can be held to pages that are known. A page
 * is drawn as a row of letters, one for each of its lines:
 *
 *   f  first line of a paragraph, indented     |  first line without indent
 *   .  full line                               -  full line that ends in a hyphen
 *   e  last line, short                        s  paragraph of one line
 *   n  line of a note, in smaller type         *  ornament, drawn
 *   H  heading in the size of the text         c  entry of a table of contents
 *                                              C  another, further to the left
 */
import { writeFileSync } from 'node:fs';

export interface PlainPage {
  readonly lines: string;
  /** Running head. */
  readonly head?: string;
}

const WIDTH = 300;
const HEIGHT = 520;
const LEFT = 30;
const TOP = 60;
const SIZE = 10;
const LEADING = 14;
const LINE = 'lorem ipsum dolores amaret, consectetura';
const INDENT = 12;

/** Writes pages; each has its number at the foot. */
export function writePlainPdf(path: string, pages: readonly PlainPage[]): void {
  const streams = pages.map(contentOf);
  const kids = streams.map((_, page) => `${4 + 2 * page} 0 R`).join(' ');
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    `<< /Type /Pages /Count ${pages.length} /Kids [${kids}] /MediaBox [0 0 ${WIDTH} ${HEIGHT}] >>`,
    '<< /Type /Font /Subtype /Type1 /BaseFont /Courier >>',
    ...streams.flatMap((stream, page) => [
      `<< /Type /Page /Parent 2 0 R /Resources << /Font << /F 3 0 R >> >> /Contents ${5 + 2 * page} 0 R >>`,
      `<< /Length ${stream.length} >>\nstream\n${stream}\nendstream`,
    ]),
  ];
  let file = '%PDF-1.4\n';
  const places = objects.map((object, index) => {
    const at = file.length;
    file += `${index + 1} 0 obj\n${object}\nendobj\n`;
    return `${String(at).padStart(10, '0')} 00000 n \n`;
  });
  const table = `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${places.join('')}`;
  const trailer = `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${file.length}\n%%EOF\n`;
  writeFileSync(path, file + table + trailer, 'latin1');
}

function contentOf({ lines, head }: PlainPage, page: number): string {
  const ops = Array.from(lines, (kind, line) => drawn(kind, TOP + line * LEADING));
  if (head) ops.push(text(head, LEFT, 40));
  ops.push(text(String(page + 1), WIDTH / 2, 500));
  return ops.join('\n');
}

/** The operators of a line on a baseline. */
function drawn(kind: string, y: number): string {
  switch (kind) {
    case 'f':
      return text(LINE.slice(2), LEFT + INDENT, y);
    case '|':
    case '.':
      return text(LINE, LEFT, y);
    case '-':
      return text(`${LINE.slice(0, -1)}-`, LEFT, y);
    case 'e':
      return text(LINE.slice(0, 17), LEFT, y);
    case 's':
      return text(LINE.slice(0, 26), LEFT + INDENT, y);
    case 'n':
      return text(LINE, LEFT, y, 8);
    case 'H':
      return text('QUATRE', 130, y);
    case 'c':
      return text(`Merry Christmas${' '.repeat(21)}125`, LEFT + 6, y);
    case 'C':
      return text(`Merry Christmas${' '.repeat(22)}125`, LEFT, y);
    case '*':
      return `${WIDTH / 2 - 8} ${HEIGHT - y + 1} 16 4 re f`;
    default:
      return '';
  }
}

function text(string: string, x: number, y: number, size = SIZE): string {
  return `BT /F ${size} Tf ${x} ${HEIGHT - y} Td (${string}) Tj ET`;
}
