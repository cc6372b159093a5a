/** Spell-check in the language of the book. In: a BCP 47 tag; out: the nearest that the system's checker has. */

/** The checker's languages that fit a book's: the very one, else those of the same language; none where it has none. */
export function checkedLanguages(language: string, available: readonly string[]): string[] {
  const wanted = language.toLowerCase();
  const exact = available.find((each) => each.toLowerCase() === wanted);
  if (exact !== undefined) return [exact];
  const [primary] = wanted.split('-');
  const near = available.find((each) => each.toLowerCase() === primary || each.toLowerCase().startsWith(`${primary}-`));
  return near === undefined ? [] : [near];
}

/** The language that a reply or request of a call makes the window's; null where it says nothing of it. */
export function languageIn(value: unknown): string | null {
  return textAt(value, ['value', 'book', 'metadata', 'language']);
}

/** The language that changes set, null if they set none. */
export function languageSet(changes: unknown): string | null {
  if (!Array.isArray(changes)) return null;
  let language: string | null = null;
  for (const change of changes as readonly Record<string, unknown>[]) {
    if (change['kind'] === 'setMetadata') language = textAt(change, ['set', 'language']) ?? language;
    if (change['kind'] === 'group') language = languageSet(change['changes']) ?? language;
  }
  return language;
}

function textAt(value: unknown, keys: readonly string[]): string | null {
  let at: unknown = value;
  for (const key of keys) {
    if (typeof at !== 'object' || at === null) return null;
    at = (at as Record<string, unknown>)[key];
  }
  return typeof at === 'string' ? at : null;
}
