/**
 * What the author should know: a finding is a value with a place, never an exception and never a log line.
 */
import type { Anchor } from './anchor.ts';
import type { EditionId, SectionId } from './ids.ts';

/** `error`: the file would be rejected or the book harmed; `warning`: look at it; `note`: good to know. */
export type Severity = 'error' | 'warning' | 'note';

export interface Finding<Fix = unknown> {
  /** Stable rule id, `family/rule`, such as `type/missing-glyph`. */
  readonly rule: string;
  readonly severity: Severity;
  /** One plain sentence that says what and where. */
  readonly message: string;
  readonly at?: Anchor;
  readonly edition?: EditionId;
  readonly section?: SectionId;
  /** The folio of the printed page, as printed. */
  readonly page?: string;
  /** A finished file and, inside it, its entry. */
  readonly file?: string;
  readonly entry?: string;
  /** What would mend it. */
  readonly fix?: Fix;
}
