/** Ebooks for tests. In: a book value; out: a request with the built-in design, real fonts and a small cover; entries by name. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { deflateSync } from 'node:zlib';
import { type Book, selectEdition } from '#book';
import { builtInDesigns, resolveForEbook } from '#design';
import { type EbookEntry, type EbookRequest, makeEbook } from '#ebook';

const require = createRequire(import.meta.url);

/** 2026-11-25T08:00:00Z. */
export const MODIFIED = 1_795_593_600;

export function font(cut: string): Uint8Array {
  return new Uint8Array(readFileSync(require.resolve(`@expo-google-fonts/eb-garamond/${cut}/EBGaramond_${cut}.ttf`)));
}

export function request(book: Book, more: Partial<EbookRequest> = {}): EbookRequest {
  const design = builtInDesigns[0];
  if (!design) throw new RangeError('no built-in design');
  return {
    view: selectEdition(book, 'ebook'),
    design: resolveForEbook(design),
    fonts: [
      { family: 'EB Garamond', weight: 400, italic: false, bytes: font('400Regular'), fileName: 'EBGaramond-400.ttf' },
      {
        family: 'EB Garamond',
        weight: 400,
        italic: true,
        bytes: font('400Regular_Italic'),
        fileName: 'EBGaramond-400-italic.ttf',
      },
    ],
    fontLicences: [{ fileName: 'EBGaramond-OFL.txt', text: 'The licence of the font.\n' }],
    cover: { bytes: png(16, 26), mediaType: 'image/png', width: 16, height: 26, alt: 'Cover of The Salt Ledger' },
    pageStarts: [],
    printIsbn: null,
    modified: MODIFIED,
    ...more,
  };
}

/** The entries of an ebook by path, as text. */
export function filesOf(entries: readonly EbookEntry[]): ReadonlyMap<string, string> {
  const decoder = new TextDecoder();
  return new Map(entries.map((entry) => [entry.path, decoder.decode(entry.bytes)]));
}

/** One file of the ebook of a book. */
export function fileOf(book: Book, path: string, more: Partial<EbookRequest> = {}): string {
  const files = filesOf(makeEbook(request(book, more)));
  const file = files.get(`EPUB/${path}`);
  if (file === undefined) throw new RangeError(`no ${path} among ${[...files.keys()].join(', ')}`);
  return file;
}

/** A grey PNG of that size. */
export function png(width: number, height: number): Uint8Array {
  const rows = new Uint8Array((width + 1) * height).fill(0x99);
  for (let row = 0; row < height; row++) rows[row * (width + 1)] = 0;
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header[8] = 8;
  const chunks = [chunk('IHDR', header), chunk('IDAT', deflateSync(rows)), chunk('IEND', new Uint8Array())];
  return new Uint8Array(Buffer.concat([Buffer.from('\u0089PNG\r\n\u001a\n', 'latin1'), ...chunks]));
}

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc32(body), body.length + 4);
  return out;
}

/** The CRC of ZIP and PNG, bit by bit. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}
