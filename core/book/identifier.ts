/**
 * The name by which a book is known for ever. In: its first content; out: `urn:uuid:...`.
 *
 * The UUID is of version 8 (RFC 9562, 5.8: the maker defines the bits): the first 16 bytes of a SHA-256 over title,
 * authors, language and the first 65,536 characters of the text, with version and variant bits set as the RFC asks. The
 * same manuscript thus gets the same name on every machine, and no chance or clock is needed.
 */
import type { Node } from 'prosemirror-model';
import { sha256Hex } from '#base';
import { authorsOf, type Metadata } from './book.ts';
import { textOf } from './flat.ts';

const CHARACTERS_OF_TEXT = 65_536;

/** The identifier derived from a book's metadata and text. */
export function derivedIdentifier(metadata: Metadata, text: Node): string {
  const hex = sha256Hex(
    utf16([metadata.title, ...authorsOf(metadata), metadata.language, firstCharacters(text)].join('\u0000')),
  );
  const variant = ((Number.parseInt(hex.charAt(16), 16) & 0x3) | 0x8).toString(16);
  const fields = [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `8${hex.slice(13, 16)}`,
    variant + hex.slice(17, 20),
    hex.slice(20, 32),
  ];
  return `urn:uuid:${fields.join('-')}`;
}

function firstCharacters(text: Node): string {
  let characters = '';
  for (let index = 0; index < text.childCount && characters.length < CHARACTERS_OF_TEXT; index++) {
    characters += `${textOf(text.child(index))}\n`;
  }
  return characters.slice(0, CHARACTERS_OF_TEXT);
}

/** UTF-16 code units, high byte first: no encoder is at hand in core, and any fixed encoding will do. */
function utf16(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 2);
  for (let index = 0; index < text.length; index++) {
    const unit = text.charCodeAt(index);
    bytes[index * 2] = unit >> 8;
    bytes[index * 2 + 1] = unit & 0xff;
  }
  return bytes;
}
