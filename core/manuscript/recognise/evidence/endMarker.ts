/** "THE END", "FIN", "ENDE": the author's sign that the manuscript is complete. */
import type { Line } from '../collect/lines.ts';
import { phraseOf } from './reading.ts';

export function isEndMarker(line: Line, ends: readonly string[]): boolean {
  if (line.words > 4 || line.level !== null) return false;
  const phrase = phraseOf(line.plain);
  return (
    (ends.includes(phrase) || phrase === 'the end' || phrase === 'finis') &&
    (line.centred || line.capitals || line.gap > 0)
  );
}
