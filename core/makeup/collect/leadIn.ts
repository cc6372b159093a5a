/**
 * What leads a section's first paragraph in. In: the paragraph, its shape, the length of its first phrase; out: how many of its
 * characters stand in small capitals. Where it is the whole first line, that line has to be found: small capitals are wider
 * than the letters they replace, and where the line ends depends on how many there are.
 */
import type { Node } from 'prosemirror-model';
import type { Look } from '#design';
import type { ParagraphShape } from '#paragraph';
import type { LeadIn } from '../spans.ts';
import type { Collector } from './collector.ts';

export interface LeadInRequest {
  readonly node: Node;
  readonly look: Look;
  readonly shape: ParagraphShape;
  /** Characters of the first phrase; 0 where the paragraph takes no lead-in. */
  readonly length: number;
}

/** The lead-in of a paragraph, null for none. One too short for a drop cap leads in by its first phrase. */
export function leadInFor(collector: Collector, request: LeadInRequest): LeadIn | null {
  const { kind, look } = collector.design.leadIn;
  if (request.length === 0 || kind === 'none') return null;
  const length = kind === 'firstLine' ? firstLine(collector, request) : request.length;
  return { look, length };
}

/** Breaks that are tried: where the line's end swings between two places, the nearer one is taken. */
const MOST_TRIES = 4;

function firstLine(collector: Collector, { node, look, shape, length }: LeadInRequest): number {
  const { shop, design } = collector;
  const endWith = (small: number): number => {
    const leadIn = { look: design.leadIn.look, length: small };
    const text = shop.spans.of({ node, look, numberOf: collector.numberOf, leadIn });
    return shop.break(text, shape).lines[0]?.to ?? small;
  };
  let small = endWith(length);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const end = endWith(small);
    if (end === small) return small;
    small = tries === MOST_TRIES - 1 ? Math.min(small, end) : end;
  }
  return small;
}
