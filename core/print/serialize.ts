/**
 * Objects to bytes. In: all objects, and which of them the trailer names; out: the file: header, objects in the order of
 * their numbers, cross references, trailer. The two file identifiers come from the content, so that the same book gives
 * the same bytes.
 */
import { type FileObject, type Ref, Syntax, syntaxOf } from './objects.ts';

/** PDF 1.6: what PDF/X-4 builds on, and old enough for every printer. The second line marks the file as binary (7.5.2). */
const HEADER = '%PDF-1.6\n%\u0081\u0081\u0081\u0081\n';
/** Bytes around each object and for its cross reference, and for the trailer; more than they need. */
const ROOM_PER_OBJECT = 80;
const ROOM_FOR_ENDS = 1024;

/** Writes the file. */
export function serialize(objects: readonly FileObject[], root: Ref, information: Ref): Uint8Array {
  const bytes = new Uint8Array(roomFor(objects));
  let references = '';
  let at = put(HEADER, bytes, 0);
  objects.forEach((object, index) => {
    references += `${String(at).padStart(10, '0')} 00000 n \n`;
    at = putObject(object, index + 1, bytes, at);
  });
  const start = at;
  const size = objects.length + 1;
  at = put(`xref\n0 ${size}\n0000000000 65535 f \n${references}`, bytes, at);
  const id = new Syntax(`<${fingerprint(bytes.subarray(0, start))}>`);
  const trailer = syntaxOf({ Size: size, Root: root, Info: information, ID: [id, id] });
  at = put(`trailer\n${trailer}\nstartxref\n${start}\n%%EOF`, bytes, at);
  return bytes.subarray(0, at);
}

function putObject({ syntax, stream }: FileObject, number: number, bytes: Uint8Array, from: number): number {
  let at = put(`${number} 0 obj\n${syntax}`, bytes, from);
  if (stream) {
    at = put('\nstream\n', bytes, at);
    bytes.set(stream, at);
    at = put('\nendstream', bytes, at + stream.length);
  }
  return put('\nendobj\n', bytes, at);
}

/** Room for all objects with their numbers and cross references, and for the trailer. */
function roomFor(objects: readonly FileObject[]): number {
  let size = ROOM_FOR_ENDS;
  for (const { syntax, stream } of objects) size += syntax.length + (stream?.length ?? 0) + ROOM_PER_OBJECT;
  return size;
}

/** One byte a character. */
function put(text: string, bytes: Uint8Array, at: number): number {
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
