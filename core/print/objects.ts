/**
 * The objects of a PDF file (ISO 32000-1, 7.3). In: values as plain data; out: numbered objects in the file's syntax. A
 * string is a name; text and other ready syntax come as `Syntax`.
 */

/** An object of the file, by its number. */
export class Ref {
  constructor(readonly number: number) {}
}

/** Something that stands in the file as it is. ASCII. */
export class Syntax {
  constructor(readonly text: string) {}
}

export type Value = string | number | boolean | null | Ref | Syntax | readonly Value[] | Dictionary;

/** Entries that are undefined are left out. */
export interface Dictionary {
  readonly [key: string]: Value | undefined;
}

export interface FileObject {
  readonly syntax: string;
  /** The bytes of a stream, null for other objects. */
  readonly stream: Uint8Array | null;
}

/** Numbers objects from 1 and keeps them. */
export class ObjectStore {
  private readonly objects: (FileObject | null)[] = [];

  /** A number for an object that is still to come. */
  reserve(): Ref {
    this.objects.push(null);
    return new Ref(this.objects.length);
  }

  /** The object of a number that was reserved. */
  assign(ref: Ref, value: Value): void {
    this.objects[ref.number - 1] = { syntax: syntaxOf(value), stream: null };
  }

  add(value: Value): Ref {
    const ref = this.reserve();
    this.assign(ref, value);
    return ref;
  }

  /** A stream; its length is added to the dictionary. The bytes are kept, not copied. */
  addStream(dictionary: Dictionary, bytes: Uint8Array): Ref {
    this.objects.push({ syntax: syntaxOf({ ...dictionary, Length: bytes.length }), stream: bytes });
    return new Ref(this.objects.length);
  }

  /** All objects, in the order of their numbers. */
  list(): readonly FileObject[] {
    return this.objects.map((object, index) => {
      if (!object) throw new RangeError(`object ${index + 1} was reserved and never given`);
      return object;
    });
  }
}

/** A literal string of ASCII (7.3.4.2). */
export function literal(text: string): Syntax {
  return new Syntax(`(${text.replace(/[()\\]/g, '\\$&')})`);
}

/** A text string (7.9.2.2) in UTF-16, written in hexadecimal. */
export function textString(text: string): Syntax {
  let digits = 'FEFF';
  for (let i = 0; i < text.length; i++) digits += text.charCodeAt(i).toString(16).toUpperCase().padStart(4, '0');
  return new Syntax(`<${digits}>`);
}

/** A value in the file's syntax. */
export function syntaxOf(value: Value): string {
  if (typeof value === 'string') return nameOf(value);
  if (typeof value === 'number') return numberOf(value);
  if (value === null || typeof value === 'boolean') return String(value);
  if (value instanceof Ref) return `${value.number} 0 R`;
  if (value instanceof Syntax) return value.text;
  if (isList(value)) return `[ ${value.map((each) => `${syntaxOf(each)} `).join('')}]`;
  let entries = '';
  for (const key in value) {
    const entry = value[key];
    if (entry !== undefined) entries += `${nameOf(key)} ${syntaxOf(entry)}\n`;
  }
  return `<<\n${entries}>>`;
}

function isList(value: readonly Value[] | Dictionary): value is readonly Value[] {
  return Array.isArray(value);
}

/** A name (7.3.5): all but regular characters by their codes. */
function nameOf(name: string): string {
  return `/${name.replace(/[^!-~]|[#%()/<>[\]{}]/g, (sign) => `#${sign.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0')}`)}`;
}

/** The syntax knows no exponents (7.3.3). */
function numberOf(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(10) : text;
}
