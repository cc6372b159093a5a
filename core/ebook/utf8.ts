/** Strings as UTF-8 (RFC 3629). In: a string without lone surrogates; out: its bytes. */

/** The bytes of a text; a lone surrogate becomes U+FFFD. */
export function utf8(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let end = 0;
  for (let at = 0; at < text.length; at++) {
    let code = text.charCodeAt(at);
    if (code < 0x80) {
      bytes[end++] = code;
      continue;
    }
    if (code >= 0xd800 && code <= 0xdfff) {
      const whole = text.codePointAt(at) ?? 0xfffd;
      if (whole > 0xffff) {
        bytes[end++] = 0xf0 | (whole >> 18);
        bytes[end++] = 0x80 | ((whole >> 12) & 0x3f);
        bytes[end++] = 0x80 | ((whole >> 6) & 0x3f);
        bytes[end++] = 0x80 | (whole & 0x3f);
        at++;
        continue;
      }
      code = 0xfffd;
    }
    if (code < 0x800) {
      bytes[end++] = 0xc0 | (code >> 6);
    } else {
      bytes[end++] = 0xe0 | (code >> 12);
      bytes[end++] = 0x80 | ((code >> 6) & 0x3f);
    }
    bytes[end++] = 0x80 | (code & 0x3f);
  }
  return bytes.slice(0, end);
}
