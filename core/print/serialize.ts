/**
 * Objects to bytes. In: a context with all objects; out: the file: header, objects in the order of their numbers, cross
 * references, trailer. The two file identifiers come from the content, so that the same book gives the same bytes.
 */
import {
  type PDFContext,
  PDFCrossRefSection,
  PDFHeader,
  PDFHexString,
  PDFName,
  type PDFObject,
  PDFRawStream,
  type PDFRef,
  PDFTrailer,
  PDFTrailerDict,
} from 'pdf-lib';

/** PDF 1.6: what PDF/X-4 builds on, and old enough for every printer. */
const MAJOR = 1;
const MINOR = 6;
const NEWLINE = 10;

/** Writes the file. */
export function serialize(context: PDFContext, root: PDFRef, information: PDFRef): Uint8Array {
  const objects = context.enumerateIndirectObjects();
  const header = PDFHeader.forVersion(MAJOR, MINOR);
  const bytes = new Uint8Array(roomFor(objects, header));
  const references = PDFCrossRefSection.create();
  let at = header.copyBytesInto(bytes, 0);
  bytes[at++] = NEWLINE;
  for (const [ref, object] of objects) {
    references.addEntry(ref, at);
    at = ascii(`${ref.objectNumber} ${ref.generationNumber} obj\n`, bytes, at);
    at = copyObject(object, bytes, at);
    at = ascii('\nendobj\n', bytes, at);
  }
  const start = at;
  at += references.copyBytesInto(bytes, at);
  const id = PDFHexString.of(fingerprint(bytes.subarray(0, start)));
  const trailer = context.obj({ Size: context.largestObjectNumber + 1, Root: root, Info: information });
  trailer.set(PDFName.of('ID'), context.obj([id, id]));
  at += PDFTrailerDict.of(trailer).copyBytesInto(bytes, at);
  bytes[at++] = NEWLINE;
  at += PDFTrailer.forLastCrossRefSectionOffset(start).copyBytesInto(bytes, at);
  return bytes.slice(0, at);
}

/** Streams are copied whole, which their own method does byte by byte. */
function copyObject(object: PDFObject, bytes: Uint8Array, at: number): number {
  if (!(object instanceof PDFRawStream)) return at + object.copyBytesInto(bytes, at);
  object.updateDict();
  const start = ascii('\nstream\n', bytes, at + object.dict.copyBytesInto(bytes, at));
  bytes.set(object.contents, start);
  return ascii('\nendstream', bytes, start + object.contents.length);
}

/** Room for all objects with their numbers and cross references, and for the trailer. */
function roomFor(objects: readonly [PDFRef, PDFObject][], header: PDFHeader): number {
  let size = header.sizeInBytes() + 1024;
  for (const [, object] of objects) size += object.sizeInBytes() + 64;
  return size;
}

function ascii(text: string, bytes: Uint8Array, at: number): number {
  for (let i = 0; i < text.length; i++) bytes[at + i] = text.charCodeAt(i);
  return at + text.length;
}

/**
 * 32 hexadecimal digits that stand for the content: four running products (as in the FNV hash) over interleaved bytes. An
 * identifier has to differ between files, not to withstand forgery, and this reads megabytes in a few milliseconds.
 */
function fingerprint(bytes: Uint8Array): string {
  const prime = 0x01000193;
  let a = 0x811c9dc5;
  let b = 0x9e3779b9;
  let c = 0x85ebca6b;
  let d = bytes.length | 0;
  for (let i = 0; i + 3 < bytes.length; i += 4) {
    a = Math.imul(a ^ bytes[i]!, prime);
    b = Math.imul(b ^ bytes[i + 1]! ^ (a >>> 24), prime);
    c = Math.imul(c ^ bytes[i + 2]! ^ (b >>> 24), prime);
    d = Math.imul(d ^ bytes[i + 3]! ^ (c >>> 24), prime);
  }
  return [a, b, c, d].map((part) => (part >>> 0).toString(16).toUpperCase().padStart(8, '0')).join('');
}
