/** What make-up has to tell the author. In: the plan; out: findings with their places. */
import type { Finding, SectionId } from '#base';
import type { EditionView } from '#book';
import type { PlannedPage } from './arrange.ts';
import type { Flow } from './flow.ts';

export interface Told {
  readonly plan: readonly PlannedPage[];
  /** The sections as they were collected. A page that stayed as it was is one of an earlier flow. */
  readonly flows: ReadonlyMap<SectionId, Flow>;
  readonly view: EditionView;
  readonly rests: boolean;
}

/** All findings, in the order of the pages. */
export function findingsOf(made: Told): readonly Finding[] {
  const edition = made.view.edition.id;
  const findings = [...missingCharacters(made), ...overfullLines(made)];
  if (!made.rests) {
    findings.push({
      rule: 'makeup/unsettled',
      severity: 'warning',
      message: 'The contents page and the page count did not come to rest: check the page numbers it names.',
    });
  }
  return findings.map((finding) => ({ ...finding, edition }));
}

/** One finding a character, at its first place. */
function missingCharacters(told: Told): Finding[] {
  const known = new Set<number>();
  return flowsOf(told).flatMap(({ flow, page }) =>
    flow.missing
      .filter(({ codePoint }) => !known.has(codePoint) && known.add(codePoint))
      .map(({ codePoint, at }) => ({
        rule: 'type/missing-glyph',
        severity: 'error' as const,
        message: `No font has the character ${nameOf(codePoint)}: it would print as an empty box.`,
        at,
        section: page.section.id,
        page: page.folio.label,
      })),
  );
}

function nameOf(codePoint: number): string {
  const code = codePoint.toString(16).toUpperCase().padStart(4, '0');
  return `${String.fromCodePoint(codePoint)} (U+${code})`;
}

function overfullLines(told: Told): Finding[] {
  return flowsOf(told).flatMap(({ flow, page }) =>
    flow.overfull.map((at) => ({
      rule: 'type/overfull-line',
      severity: 'warning' as const,
      message: 'A line is too long for its measure and could not be broken.',
      at,
      section: page.section.id,
    })),
  );
}

/** Each flow with the page on which it begins. */
function flowsOf({ plan, flows }: Told): readonly { readonly flow: Flow; readonly page: PlannedPage }[] {
  return plan.flatMap((page) => {
    const flow = page.content?.first ? flows.get(page.section.id) : undefined;
    return flow ? [{ flow, page }] : [];
  });
}
