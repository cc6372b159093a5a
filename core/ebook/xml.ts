/**
 * Text as XML 1.0. In: any string; out: characters that a parser gives back unchanged, save those that XML 1.0 does not
 * allow at all (section 2.2, production Char), which are dropped.
 */

// The C0 controls but tab, line feed and carriage return; surrogates that stand alone; U+FFFE and U+FFFF.
const FORBIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the very characters to be found
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;
// biome-ignore lint/suspicious/noControlCharactersInRegex: see above
const NEEDS_CARE = /[<>&"\u0000-\u001F\uD800-\uDFFF\uFFFE\uFFFF]/;

/** The string without the characters that XML 1.0 does not allow. */
export function legalCharacters(text: string): string {
  return NEEDS_CARE.test(text) ? text.replace(FORBIDDEN, '') : text;
}

/** Character data: what may stand between tags. A carriage return is escaped, for a parser would make it a line feed. */
export function escapeText(text: string): string {
  if (!NEEDS_CARE.test(text)) return text;
  return text
    .replace(FORBIDDEN, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('\r', '&#13;');
}

/** An attribute value, to stand between double quotes. */
export function escapeAttribute(text: string): string {
  if (!NEEDS_CARE.test(text)) return text;
  return escapeText(text).replaceAll('"', '&quot;').replaceAll('\t', '&#9;').replaceAll('\n', '&#10;');
}

/** ` name="value"` for each attribute that has a value, in the order given; null and undefined are left out. */
export function attributes(values: Readonly<Record<string, string | null | undefined>>): string {
  let out = '';
  for (const name in values) {
    const value = values[name];
    if (value !== null && value !== undefined) out += ` ${name}="${escapeAttribute(value)}"`;
  }
  return out;
}

export const XML_DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>\n';
