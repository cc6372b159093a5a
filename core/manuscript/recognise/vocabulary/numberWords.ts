/** Numbers as words. In: how a language forms them; out: a map from each form, without spaces and hyphens, to its value. */

/** The highest number looked for as a word. */
const HIGHEST = 150;

/** Forms of cardinals and ordinals, folded and run together, to their values. */
export function numberWords(
  cardinals: (value: number) => readonly string[],
  ordinals: (value: number) => readonly string[],
): ReadonlyMap<string, number> {
  const forms = new Map<string, number>();
  for (let value = 1; value <= HIGHEST; value++) {
    for (const form of [...cardinals(value), ...ordinals(value)]) {
      if (form !== '' && !forms.has(form)) forms.set(form, value);
    }
  }
  return forms;
}
