/** Looks made from others: the same object for the same look each time, since caches know looks by identity. */
import type { Look } from '#design';

/** A way to make looks that remembers what it made. */
export function derived(make: (look: Look) => Look): (look: Look) => Look {
  const known = new WeakMap<Look, Look>();
  return (look) => {
    const made = known.get(look) ?? make(look);
    known.set(look, made);
    return made;
  };
}

/** The same look without hyphens. */
export const raggedLook = derived((look) => (look.hyphenate ? { ...look, hyphenate: false } : look));

/** The same look in italics. */
export const italicLook = derived((look) => (look.italic ? look : { ...look, italic: true }));

/** The same look with figures that are all as wide. */
export const tabularLook = derived((look) => ({
  ...look,
  features: [...new Set([...look.features.filter((each) => each !== 'pnum'), 'tnum'])].sort(),
}));
