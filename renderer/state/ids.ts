/** New ids for sections, blocks and editions. In: what the id is for; out: one that no other thing has. */

const LENGTH = 12;

/** Sixty bits of chance: no two in a book's life are alike. */
export function newId(prefix: string): string {
  const numbers = crypto.getRandomValues(new Uint8Array(LENGTH));
  return `${prefix}-${Array.from(numbers, (each) => (each % 32).toString(32)).join('')}`;
}
