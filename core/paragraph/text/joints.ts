/**
 * Where German words are not tied by ligatures: at the joints of compounds (Schiff-fahrt, Auf-lage) and before endings
 * (höf-lich); after the rules of the German spelling dictionaries, from memory. In: a word and the places at which it may
 * be divided, since every joint is one of them; out: the joints that an f stands before. What the places can't tell, a few
 * stems do: Auf-findung has a joint where Of-fizier has none.
 */

/** Stems in f before which another f begins a word of its own; none of them is the beginning of a simple word in -ff-. */
const STEMS = /(?:auf|tief|brief|dorf|kopf|kauf|lauf|golf|wolf|fünf|zwölf)$/i;

/** Whether a word has letters that a ligature could tie at a joint. */
export function mayTie(text: string): boolean {
  for (let at = text.indexOf('f'); at >= 0; at = text.indexOf('f', at + 1)) {
    const next = text.charAt(at + 1);
    if (next === 'f' || next === 'l' || next === 'i') return true;
  }
  return false;
}

/** The joints among the places, in rising order. */
export function jointsOf(text: string, places: readonly number[]): readonly number[] {
  return places.filter((place) => {
    if (text.charAt(place - 1) !== 'f') return false;
    const next = text.charAt(place);
    if (next === 'l' || next === 'i') return true;
    return next === 'f' && (text.charAt(place - 2) === 'f' || STEMS.test(text.slice(0, place)));
  });
}
