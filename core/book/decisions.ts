/**
 * What was decided about places of a book and is kept with it: findings that may stay as they are, and what an import did.
 * In: findings and a book; out: which of them the author has muted. A muted finding is known by its rule, its place and what
 * it says; when the text under it changes it is heard again.
 */
import type { Node } from 'prosemirror-model';
import { type BlockId, digestOf, type Finding, type SectionId } from '#base';
import type { Book, ImportRemark, MutedFinding } from './book.ts';
import { fingerprint, headFingerprint } from './fingerprint.ts';
import { nodeById } from './ids.ts';

/** A finding with the reason for which it is muted. */
export interface Muted<Each extends Finding> {
  readonly finding: Each;
  readonly reason: string;
}

export interface Judged<Each extends Finding> {
  readonly open: readonly Each[];
  readonly muted: readonly Muted<Each>[];
}

/** The name by which a finding is known again. */
export function findingId({ rule, edition, at, section, message }: Finding): string {
  return digestOf(rule, edition ?? '', at?.block ?? section ?? '', String(at?.offset ?? 0), message);
}

/** What has to be kept of a finding so that it is muted. */
export function mutedAs(book: Book, finding: Finding, reason: string): MutedFinding {
  const { rule, message: says, edition = null } = finding;
  const at = placeOf(finding);
  return { id: findingId(finding), rule, says, edition, at, text: textUnder(book, finding), reason };
}

/** The findings parted into those that the author should hear of, and those that are muted. */
export function judged<Each extends Finding>(book: Book, findings: readonly Each[]): Judged<Each> {
  if (book.muted.length === 0) return { open: findings, muted: [] };
  const decided = new Map(book.muted.map((each) => [each.id, each]));
  const open: Each[] = [];
  const muted: Muted<Each>[] = [];
  for (const finding of findings) {
    const decision = decided.get(findingId(finding));
    if (decision && decision.text === textUnder(book, finding)) muted.push({ finding, reason: decision.reason });
    else open.push(finding);
  }
  return { open, muted };
}

function placeOf({ at, section }: Finding): BlockId | null {
  return at?.block ?? (section === undefined ? null : String(section));
}

/** What stands where a finding is. One that is about a section as a whole is not about each of its words. */
function textUnder({ text }: Book, finding: Finding): string {
  const place = placeOf(finding);
  const node = place === null ? null : nodeById(text, place, finding.section);
  if (!node) return '';
  return isSection(node) ? headFingerprint(node) : fingerprint(node);
}

function isSection(node: Node): boolean {
  return node.type.name === 'section';
}

/** The remarks that stand beside the blocks of a section, or the section itself. */
export function remarksIn(book: Book, section: SectionId): readonly ImportRemark[] {
  return book.remarks.filter(({ block }) => nodeById(book.text, block, section) !== null);
}
