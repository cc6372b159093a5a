/** What a file is that is no zip container, or a container of something else. In: bytes; out: one sentence. */
import { strFromU8 } from 'fflate';

const DOCX_HINT = 'Open it in a word processor and save it as .docx.';

function starts(bytes: Uint8Array, ...expected: readonly number[]): boolean {
  return expected.every((byte, index) => bytes[index] === byte);
}

export function isZip(bytes: Uint8Array): boolean {
  return starts(bytes, 0x50, 0x4b, 3, 4) || starts(bytes, 0x50, 0x4b, 5, 6);
}

/** Why a file that is no zip container can't be read as DOCX. `file` is how the sentence calls it. */
export function explainForeign(bytes: Uint8Array, file: string): string {
  if (bytes.length === 0) return `${file} is empty.`;
  if (starts(bytes, 0xd0, 0xcf, 0x11, 0xe0)) {
    return (
      `${file} is either locked with a password or in the older .doc format: ` +
      'open it in a word processor and save it as .docx without a password.'
    );
  }
  const kind = kindOf(bytes);
  return kind ? `${file} is not a .docx file but ${kind}. ${DOCX_HINT}` : `${file} is not a .docx file.`;
}

function kindOf(bytes: Uint8Array): string | null {
  if (starts(bytes, 0x25, 0x50, 0x44, 0x46)) return 'a PDF';
  if (starts(bytes, 0x1f, 0x8b)) return 'a gzip archive';
  if (starts(bytes, 0x89, 0x50, 0x4e, 0x47) || starts(bytes, 0xff, 0xd8, 0xff)) return 'a picture';
  if (bytes.subarray(0, 4096).includes(0)) return null;
  const head = strFromU8(bytes.subarray(0, 4096))
    .replace(/^\uFEFF/, '')
    .trimStart();
  if (head.startsWith('{\\rtf')) return 'rich text (RTF)';
  if (/^(<!doctype html|<html|<head|<body)/i.test(head)) return 'a web page (HTML)';
  if (/^<\?xml/.test(head)) return /<html/i.test(head) ? 'a web page (HTML)' : 'an XML file';
  return 'plain text';
}

/** Why a zip container without a word-processing document can't be read. */
export function explainContainer(names: Iterable<string>, mimetype: string | null, file: string): string {
  const all = [...names];
  const within = (folder: string) => all.some((name) => name.startsWith(folder));
  const not = (kind: string) => `${file} is not a .docx file but ${kind}.`;
  if (mimetype?.startsWith('application/vnd.oasis.opendocument.text')) {
    return `${not('an OpenDocument text (ODT)')} ${DOCX_HINT}`;
  }
  if (mimetype?.startsWith('application/vnd.oasis.opendocument')) return not('another kind of OpenDocument file');
  if (mimetype?.startsWith('application/epub')) return not('an EPUB');
  if (within('xl/')) return not('a spreadsheet');
  if (within('ppt/')) return not('a presentation');
  if (within('word/')) return `${file} is damaged: its main text, word/document.xml, is missing.`;
  return `${file} is a zip archive without a word-processing document in it.`;
}
