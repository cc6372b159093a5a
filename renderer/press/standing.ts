/** What stands between an edition and the press. In: metadata, an edition, its findings; out: lines, the gravest first. */
import type { Finding, Severity } from '#base';
import { authorsOf, type Edition, type Metadata } from '#book';
import { texts } from '../ui/index.ts';

export interface Standing {
  readonly severity: Severity;
  readonly text: string;
  /** Whether it is a count of findings that can be looked at. */
  readonly found: boolean;
}

const words = texts.press.docket;

export function standingOf(metadata: Metadata, edition: Edition, findings: readonly Finding[]): readonly Standing[] {
  const own = findings.filter((each) => each.edition === undefined || each.edition === edition.id);
  const errors = own.filter((each) => each.severity === 'error').length;
  const warnings = own.filter((each) => each.severity === 'warning').length;
  const lines: (Standing | null)[] = [
    metadata.title.trim() === '' ? { severity: 'error', text: words.noTitle, found: false } : null,
    authorsOf(metadata).length === 0 ? { severity: 'warning', text: words.noAuthor, found: false } : null,
    errors > 0 ? { severity: 'error', text: words.errors(errors), found: true } : null,
    warnings > 0 ? { severity: 'warning', text: words.warnings(warnings), found: true } : null,
    edition.isbn === null ? { severity: 'note', text: words.noIsbnYet, found: false } : null,
  ];
  return lines.filter((each) => each !== null);
}
