/** Scene breaks as authors type them. In: a line; out: whether it is nothing but a mark between scenes. */
import type { Line } from '../collect/lines.ts';
import { LEAF } from '../collect/rich.ts';

/** No letters or digits, and no marks that could be speech ("?", "!", quotes). */
const SYMBOLS = /^[^\p{L}\p{N}?!\u00a1\u00bf"'\u2018-\u201f\u00ab\u00bb\u2039\u203a,;:]+$/u;
const ONLY_DOTS = /^[.\u2026\s]+$/;
const ONLY_DASH = /^[\u2013\u2014\u2015-]$/;
/** Letters used as ornament: "oOo", "-o0o-", "x x x", "xXx". */
const LETTERS =
  /^[\s~*\u2013\u2014\u2022.=_-]*(?:o[o0\s~-]{1,5}o|o+0+o+|x(?:\s*x){2,4}|xXx|oOo)[\s~*\u2013\u2014\u2022.=_-]*$/i;

/** Longer rows are drawn rules, still breaks. */
const LONGEST = 80;

export function isOrnament(line: Line): boolean {
  const text = line.plain;
  if (text === '' || text.length > LONGEST || line.images > 0 || line.rich.text.includes(LEAF)) return false;
  if (/scene ?break|separator|ornament/i.test(line.source.style ?? '') && line.words <= 5 && !/\p{L}{2}/u.test(text))
    return true;
  if (/\p{L}|\p{N}/u.test(text)) return line.centred && LETTERS.test(text);
  if (!SYMBOLS.test(text)) return false;
  if (ONLY_DOTS.test(text)) return line.centred || text.length > 6;
  return !ONLY_DASH.test(text) || line.centred || line.gap > 0;
}
