/** What stands between an edition and the press. In: metadata, an edition, its findings; out: lines, the gravest first. */
import type { EditionId, Finding, Severity } from '#base';
import { authorsOf, type Book, type Edition, judged } from '#book';
import { texts } from '../ui/index.ts';
import type { EditionCheck, EditionChecks } from './editionChecks.ts';

export interface Standing {
  readonly severity: Severity;
  readonly text: string;
  /** Whether it is a count of findings that can be looked at. */
  readonly found: boolean;
}

const words = texts.press.docket;

/** The errors of some editions that nobody has muted, each once: what should be mended before they go to press. */
export function errorsOf(book: Book, editions: readonly EditionId[], checks: EditionChecks): readonly string[] {
  const found = editions.flatMap((id) => ownOf(book, id, checks.get(id)?.findings ?? []));
  return [...new Set(found.filter(({ severity }) => severity === 'error').map(({ message }) => message))];
}

function ownOf(book: Book, edition: EditionId, findings: readonly Finding[]): readonly Finding[] {
  return judged(book, findings).open.filter((each) => each.edition === undefined || each.edition === edition);
}

/** Of findings about the book, each edition has its share; of those about editions, its own; muted ones say nothing. */
export function standingOf(
  book: Book,
  edition: Edition,
  { findings, problem }: Pick<EditionCheck, 'findings' | 'problem'>,
): readonly Standing[] {
  const { metadata } = book;
  const own = ownOf(book, edition.id, findings ?? []);
  const counted = (['error', 'warning', 'note'] as const).map((severity): Standing | null => {
    const count = own.filter((each) => each.severity === severity).length;
    return count === 0 ? null : { severity, text: words.counted[severity](count), found: true };
  });
  const lines: (Standing | null)[] = [
    problem === null ? null : { severity: 'error', text: words.cannotBeSet(problem), found: false },
    metadata.title.trim() === '' ? { severity: 'error', text: words.noTitle, found: false } : null,
    authorsOf(metadata).length === 0 ? { severity: 'warning', text: words.noAuthor, found: false } : null,
    ...counted,
    edition.isbn === null ? { severity: 'note', text: words.noIsbnYet, found: false } : null,
  ];
  return lines.filter((each) => each !== null);
}
