/**
 * Emphasis typed as marks, as on a typewriter: _never_, *never*, **never**. In: rich text; out: the same without the marks,
 * in italics or bold. Marks inside words, of notes and of blanks to fill in stay.
 */
import { type Rich, RichBuilder, slice } from '../collect/rich.ts';
import type { Tally } from './kinds.ts';

/** A mark opens before something that is no space and closes after it; neither touches a letter or its like outside. */
const MARKED =
  /(?<![\p{L}\p{N}_])_(?![\s_])([^_\n]{1,600}?)(?<!\s)_(?![\p{L}\p{N}_])|(?<![\p{L}\p{N}*])(\*{1,2})(?=[\p{L}"'\u201c\u2018\u00ab])([^*\n]{1,300}?)(?<=[\p{L}\p{N}.,;:!?\u2026"'\u201d\u2019\u00bb])\2(?![\p{L}\p{N}*])/gu;

export function withEmphasis(rich: Rich, tally: Tally): Rich {
  if (!rich.text.includes('_') && !rich.text.includes('*')) return rich;
  const found = [...rich.text.matchAll(MARKED)];
  if (found.length === 0) return rich;
  const builder = new RichBuilder();
  let from = 0;
  for (const match of found) {
    const width = match[2]?.length ?? 1;
    const end = match.index + match[0].length;
    copy(slice(rich, from, match.index), builder);
    copy(slice(rich, match.index + width, end - width), builder, width === 2 ? { bold: true } : { italic: true });
    from = end;
  }
  copy(slice(rich, from, rich.text.length), builder);
  tally.count('emphasis', found.length);
  return builder.finish();
}

function copy(part: Rich, builder: RichBuilder, also: { readonly italic?: true; readonly bold?: true } = {}): void {
  builder.append({ ...part, looks: part.looks.map((look) => ({ ...look, ...also })) });
}
