/** Sets paragraphs: styled text in, broken lines out, which can place themselves on a page. */
import type { ParagraphSetter, SetterParts } from './types.ts';

/** A setter over loaded fonts and hyphenators. */
export function createSetter(parts: SetterParts): ParagraphSetter {
  throw new RangeError(`no setter over ${parts.library.fallbacks.length} fallbacks yet`);
}
