/** What the command reports of a book, its files and its findings: the shapes of `--json`, and their terminal form. */
import { createHash } from 'node:crypto';
import type { EditionId, Finding } from '#base';
import { authorsOf, type Book, type Muted } from '#book';

export interface BookSummary {
  readonly title: string;
  readonly author: string;
  readonly language: string;
  readonly words: number;
}

export interface FileSummary {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface EditionSummary {
  readonly id: EditionId;
  readonly kind: 'print' | 'ebook';
  /** Pages of a print edition; null for an ebook, which has none of its own. */
  readonly pages: number | null;
  readonly seconds: number;
  readonly files: readonly FileSummary[];
}

export interface FindingSummary {
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
  readonly edition: string | null;
  readonly page: string | null;
  readonly section: string | null;
}

export function bookSummary(book: Book, words: number): BookSummary {
  return {
    title: book.metadata.title,
    author: authorsOf(book.metadata).join(', '),
    language: book.metadata.language,
    words,
  };
}

export function fileSummary(path: string, bytes: Uint8Array): FileSummary {
  return { path, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') };
}

export function findingSummary(finding: Finding): FindingSummary {
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    edition: finding.edition ?? null,
    page: finding.page ?? null,
    section: finding.section ?? null,
  };
}

export interface MutedSummary extends FindingSummary {
  readonly reason: string;
}

/** A finding that the author lets stay, with the reason. */
export function mutedSummary({ finding, reason }: Muted<Finding>): MutedSummary {
  return { ...findingSummary(finding), reason };
}

/** How many findings were left out of the list, as the line that says so; none where none was. */
export function mutedLine(count: number): readonly string[] {
  if (count === 0) return [];
  return [
    `${count} more ${count === 1 ? 'is' : 'are'} muted; the book keeps the ${count === 1 ? 'reason' : 'reasons'}.`,
  ];
}

const SEVERITIES = ['error', 'warning', 'note'] as const;
/** Findings of one rule beyond this many are counted, not listed. */
const LISTED_PER_RULE = 5;

/** Findings as lines for a terminal, gravest first. */
export function findingLines(findings: readonly FindingSummary[]): string[] {
  const lines: string[] = [];
  for (const severity of SEVERITIES) {
    for (const group of groupByRule(findings, severity).values()) {
      for (const finding of group.slice(0, LISTED_PER_RULE)) lines.push(`  ${severity}: ${finding.message}`);
      if (group.length > LISTED_PER_RULE) {
        lines.push(`  ${severity}: ${group.length - LISTED_PER_RULE} more like it (${group[0]?.rule})`);
      }
    }
  }
  return lines;
}

function groupByRule(findings: readonly FindingSummary[], severity: string): Map<string, FindingSummary[]> {
  const groups = new Map<string, FindingSummary[]>();
  for (const finding of findings) {
    if (finding.severity !== severity) continue;
    const group = groups.get(finding.rule);
    if (group) group.push(finding);
    else groups.set(finding.rule, [finding]);
  }
  return groups;
}
