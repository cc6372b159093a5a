/**
 * The objects of a PDF file (ISO 32000-1, 7.3) as plain data. A string is a name; text and other ready syntax come as
 * `Syntax`. In: a value; out: its syntax in a sink.
 */
import type { ByteSink } from './sink.ts';

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

/** A literal string of ASCII (7.3.4.2). */
export function literal(text: string): Syntax {
  return new Syntax(`(${text.replace(/[()\\]/g, '\\$&')})`);
}

/** A text string (7.9.2.2) in UTF-16, written in hexadecimal. */
export function textString(text: string): Syntax {
  return new Syntax(`<${utf16Hex(text)}>`);
}

const DIGITS = '0123456789ABCDEF';

/** The digits of a text in UTF-16, big end first, with the mark that says so. */
export function utf16Hex(text: string): string {
  let digits = 'FEFF';
  for (let i = 0; i < text.length; i++) digits += unitHex(text.charCodeAt(i));
  return digits;
}

/** The four hexadecimal digits of a 16-bit unit. */
export function unitHex(unit: number): string {
  return DIGITS[unit >> 12]! + DIGITS[(unit >> 8) & 15]! + DIGITS[(unit >> 4) & 15]! + DIGITS[unit & 15]!;
}

/** Writes a value in the file's syntax. */
export function writeValue(value: Value, sink: ByteSink): void {
  if (typeof value === 'string') sink.text(nameOf(value));
  else if (typeof value === 'number') writeNumber(value, sink);
  else if (value === null || typeof value === 'boolean') sink.text(String(value));
  else if (value instanceof Ref) writeReference(value, sink);
  else if (value instanceof Syntax) sink.text(value.text);
  else if (isList(value)) writeList(value, sink);
  else writeDictionary(value, sink);
}

function writeReference(ref: Ref, sink: ByteSink): void {
  sink.whole(ref.number);
  sink.text(' 0 R');
}

function writeList(list: readonly Value[], sink: ByteSink): void {
  sink.text('[ ');
  for (const each of list) {
    writeValue(each, sink);
    sink.text(' ');
  }
  sink.text(']');
}

function writeDictionary(dictionary: Dictionary, sink: ByteSink): void {
  sink.text('<<\n');
  for (const key in dictionary) {
    const entry = dictionary[key];
    if (entry === undefined) continue;
    sink.text(nameOf(key));
    sink.text(' ');
    writeValue(entry, sink);
    sink.text('\n');
  }
  sink.text('>>');
}

function isList(value: readonly Value[] | Dictionary): value is readonly Value[] {
  return Array.isArray(value);
}

/** Names met before: a file has few, and each of them often. */
const names = new Map<string, string>();

/** A name (7.3.5): all but regular characters by their codes. */
function nameOf(name: string): string {
  const known = names.get(name);
  if (known !== undefined) return known;
  const written = `/${name.replace(/[^!-~]|[#%()/<>[\]{}]/g, (sign) => `#${sign.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0')}`)}`;
  names.set(name, written);
  return written;
}

/** The syntax knows no exponents (7.3.3). */
function writeNumber(value: number, sink: ByteSink): void {
  if (Number.isInteger(value) && value >= 0 && value < 2 ** 31) {
    sink.whole(value);
    return;
  }
  const text = String(value);
  sink.text(text.includes('e') ? value.toFixed(10) : text);
}
