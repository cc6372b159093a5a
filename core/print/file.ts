/**
 * A PDF file as it grows (ISO 32000-1, 7.5). In: objects, in any order; out: the bytes: header, objects as they came, cross
 * references, trailer. The two file identifiers come from the content, so that the same book gives the same bytes.
 */
import { type Dictionary, Ref, Syntax, type Value, writeValue } from './objects.ts';
import { ByteSink } from './sink.ts';

/** PDF 1.6: what PDF/X-4 builds on, and old enough for every printer. The second line marks the file as binary (7.5.2). */
const HEADER = '%PDF-1.6\n%\u0081\u0081\u0081\u0081\n';
/** A novel takes two megabytes. */
const FIRST_CAPACITY = 1 << 21;
/** Where an object that was reserved will stand. */
const TO_COME = -1;

export class PdfFile {
  private readonly sink = new ByteSink(FIRST_CAPACITY);
  /** Where each object begins; number 1 is the first. */
  private readonly starts: number[] = [];

  constructor() {
    this.sink.text(HEADER);
  }

  /** A number for an object that is still to come. */
  reserve(): Ref {
    this.starts.push(TO_COME);
    return new Ref(this.starts.length);
  }

  /** The object of a number that was reserved. */
  assign(ref: Ref, value: Value): void {
    this.begin(ref);
    writeValue(value, this.sink);
    this.sink.text('\nendobj\n');
  }

  add(value: Value): Ref {
    const ref = this.reserve();
    this.assign(ref, value);
    return ref;
  }

  /** A stream; its length is added to the dictionary. */
  addStream(dictionary: Dictionary, bytes: Uint8Array): Ref {
    const ref = this.reserve();
    this.begin(ref);
    writeValue({ ...dictionary, Length: bytes.length }, this.sink);
    this.sink.text('\nstream\n');
    this.sink.append(bytes);
    this.sink.text('\nendstream\nendobj\n');
    return ref;
  }

  /** Ends the file and gives its bytes; the trailer names the two objects. */
  finish(root: Ref, information: Ref): Uint8Array {
    const { sink } = this;
    const id = new Syntax(`<${fingerprint(sink.view())}>`);
    const start = sink.size;
    const size = this.starts.length + 1;
    sink.text(`xref\n0 ${size}\n0000000000 65535 f \n`);
    this.starts.forEach((at, index) => {
      if (at === TO_COME) throw new RangeError(`object ${index + 1} was reserved and never given`);
      sink.text(`${String(at).padStart(10, '0')} 00000 n \n`);
    });
    sink.text('trailer\n');
    writeValue({ Size: size, Root: root, Info: information, ID: [id, id] }, sink);
    sink.text(`\nstartxref\n${start}\n%%EOF`);
    return sink.copy();
  }

  private begin(ref: Ref): void {
    this.starts[ref.number - 1] = this.sink.size;
    this.sink.whole(ref.number);
    this.sink.text(' 0 obj\n');
  }
}

/**
 * 32 hexadecimal digits that stand for the content: four running products (as in the FNV hash) over interleaved words. An
 * identifier has to differ between files, not to withstand forgery, and this reads megabytes in a few milliseconds.
 */
function fingerprint(bytes: Uint8Array): string {
  const prime = 0x01000193;
  let a = 0x811c9dc5;
  let b = 0x9e3779b9;
  let c = 0x85ebca6b;
  let d = bytes.length | 0;
  // Read byte by byte, so that the order of bytes in the machine's words does not matter.
  const word = (at: number) => bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24);
  for (let at = 0; at + 15 < bytes.length; at += 16) {
    a = Math.imul(a ^ word(at) ^ (d >>> 15), prime);
    b = Math.imul(b ^ word(at + 4) ^ (a >>> 15), prime);
    c = Math.imul(c ^ word(at + 8) ^ (b >>> 15), prime);
    d = Math.imul(d ^ word(at + 12) ^ (c >>> 15), prime);
  }
  return [a, b, c, d].map((part) => (part >>> 0).toString(16).toUpperCase().padStart(8, '0')).join('');
}
