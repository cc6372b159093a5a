/** Findings as the author reads them. In: findings; out: groups by severity, the gravest first. */
import type { Finding, Severity } from '#base';

export const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

export interface FindingGroup<Each extends Finding> {
  readonly severity: Severity;
  readonly findings: readonly Each[];
}

/** The findings of each severity, the gravest first; severities without any are left out. */
export function groupFindings<Each extends Finding>(findings: readonly Each[]): readonly FindingGroup<Each>[] {
  const groups = SEVERITIES.map((severity) => ({
    severity,
    findings: findings.filter((each) => each.severity === severity),
  }));
  return groups.filter(({ findings: some }) => some.length > 0);
}
