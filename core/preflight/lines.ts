/**
 * Bad ends. In: a view and its pages; out: findings about widows, orphans, stacked hyphens and divided words at the turn
 * of a page, each at the line concerned.
 */
import type { Finding } from '#base';
import type { Change, EditionView } from '#book';
import type { Page } from '#page';
import { type ProofLine, type ProofParagraph, proofParagraphs } from './proofLines.ts';

/** Hyphens in a row from which a stack is reported (FACTS T-08: the third is too many). */
const STACK = 3;

/** Lines that the last page of a section should have at least (FACTS T-14). */
const LEAST_LAST_PAGE = 4;

/** Rules `lines/...`. */
export function checkLines(view: EditionView, pages: readonly Page[]): readonly Finding<Change>[] {
  const paragraphs = proofParagraphs(view, pages);
  return [
    ...paragraphs.flatMap((each) => [...brokenBadly(each), ...stackedHyphens(each)]),
    ...dividedAtTurns(paragraphs, pages),
    ...shortLastPages(paragraphs, pages),
  ];
}

const ORPHAN = { rule: 'orphan', message: 'The first line of a paragraph stands alone at the foot of the page.' };
const WIDOW = { rule: 'widow', message: 'The last line of a paragraph stands alone at the top of the page.' };
const DIVIDED = { rule: 'divided-at-turn', message: 'A word is divided at the foot of a right-hand page.' };

/** Widow: the last line alone on top of a page. Orphan: the first line alone at a foot (FACTS T-13). */
function brokenBadly(paragraph: ProofParagraph): readonly Finding<Change>[] {
  const { lines } = paragraph;
  const findings: Finding<Change>[] = [];
  const [first, second] = [lines[0], lines[1]];
  const [last, beforeLast] = [lines[lines.length - 1], lines[lines.length - 2]];
  if (first && second && first.page !== second.page) {
    findings.push(at(first, paragraph, ORPHAN));
  }
  if (last && beforeLast && last.page !== beforeLast.page) {
    findings.push(at(last, paragraph, WIDOW));
  }
  return findings;
}

function stackedHyphens(paragraph: ProofParagraph): readonly Finding<Change>[] {
  const findings: Finding<Change>[] = [];
  let start = 0;
  for (let index = 0; index <= paragraph.lines.length; index++) {
    if (paragraph.lines[index]?.hyphen) continue;
    const count = index - start;
    const first = paragraph.lines[start];
    if (count >= STACK && first) {
      findings.push(at(first, paragraph, { rule: 'hyphens', message: `${count} lines in a row end in a hyphen.` }));
    }
    start = index + 1;
  }
  return findings;
}

/** No word is divided where the reader has to turn the page (FACTS T-09). */
function dividedAtTurns(paragraphs: readonly ProofParagraph[], pages: readonly Page[]): readonly Finding<Change>[] {
  const lastLines = new Map<Page, readonly [ProofLine, ProofParagraph]>();
  for (const paragraph of paragraphs) {
    for (const line of paragraph.lines) lastLines.set(line.page, [line, paragraph]);
  }
  return pages.flatMap((page) => {
    const [line, paragraph] = lastLines.get(page) ?? [];
    if (page.side !== 'recto' || !line?.divided || !paragraph) return [];
    return [at(line, paragraph, DIVIDED)];
  });
}

function shortLastPages(paragraphs: readonly ProofParagraph[], pages: readonly Page[]): readonly Finding<Change>[] {
  const counts = new Map<Page, number>();
  const firstOn = new Map<Page, readonly [ProofLine, ProofParagraph]>();
  for (const paragraph of paragraphs) {
    for (const line of paragraph.lines) {
      counts.set(line.page, (counts.get(line.page) ?? 0) + 1);
      if (!firstOn.has(line.page)) firstOn.set(line.page, [line, paragraph]);
    }
  }
  return pages.flatMap((page, index) => {
    const count = counts.get(page) ?? 0;
    const [line, paragraph] = firstOn.get(page) ?? [];
    if (!line || !paragraph || page.opener || count >= LEAST_LAST_PAGE || !endsSection(pages, index)) return [];
    const lines = count === 1 ? 'one line' : `${count} lines`;
    const message = `A section ends with ${lines} alone on its last page.`;
    return [at(line, paragraph, { rule: 'short-page', severity: 'note', message })];
  });
}

function endsSection(pages: readonly Page[], index: number): boolean {
  const next = pages[index + 1];
  return !next || next.blank || next.section !== pages[index]?.section;
}

interface Fault {
  readonly rule: string;
  readonly message: string;
  readonly severity?: Finding['severity'];
}

function at(line: ProofLine, paragraph: ProofParagraph, fault: Fault): Finding<Change> {
  return {
    rule: `lines/${fault.rule}`,
    severity: fault.severity ?? 'warning',
    message: fault.message,
    at: { block: line.block, offset: line.offset },
    section: paragraph.section,
    page: line.page.folio.label,
  };
}
