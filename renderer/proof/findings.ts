/** Findings as the author reads them. In: findings and what was muted; out: groups by severity, and one name for each. */
import type { Finding, Severity } from '#base';

export const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

/** A name that stays while the finding does: its rule and the place that it is about. */
export function findingKey({ rule, edition, at, section, message }: Finding): string {
  return JSON.stringify([rule, edition ?? null, at?.block ?? section ?? message]);
}

export function isMuted(finding: Finding, muted: ReadonlyMap<string, string>): boolean {
  return muted.size > 0 && muted.has(findingKey(finding));
}

export interface FindingGroups<Each extends Finding> {
  readonly open: readonly { readonly severity: Severity; readonly findings: readonly Each[] }[];
  readonly muted: readonly Each[];
}

/** The findings of each severity, the gravest first; those that were muted apart. */
export function groupFindings<Each extends Finding>(
  findings: readonly Each[],
  muted: ReadonlyMap<string, string>,
): FindingGroups<Each> {
  const open = SEVERITIES.map((severity) => ({
    severity,
    findings: findings.filter((each) => each.severity === severity && !isMuted(each, muted)),
  }));
  return {
    open: open.filter(({ findings: some }) => some.length > 0),
    muted: findings.filter((each) => isMuted(each, muted)),
  };
}
