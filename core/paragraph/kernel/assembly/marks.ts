/** The letters and marks of nearly all words. */

export function isLetter(unit: i32): bool {
  const small = unit | 0x20;
  return small >= 0x61 && small <= 0x7a;
}

/** An opening quotation mark. */
export function isOpening(unit: i32): bool {
  return unit === 0x201c || unit === 0x2018;
}

/** A closing one. */
export function isQuote(unit: i32): bool {
  return unit === 0x201d || unit === 0x2019;
}

/** Marks at which a sentence ends. */
export function isStop(unit: i32): bool {
  return unit === 0x2e || unit === 0x3f || unit === 0x21 || unit === 0x3a;
}

/** Those, quotation marks, and other stops: what may follow a word's last letter. */
export function isClosing(unit: i32): bool {
  return isQuote(unit) || isStop(unit) || unit === 0x2c || unit === 0x3b;
}
