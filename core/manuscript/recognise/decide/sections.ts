/**
 * The running order. In: ranked headings, unheaded pages and what was set aside; out: plans of sections, each with the
 * items it holds, so that every item belongs to exactly one section or is on record as left out.
 */
import type { SectionKind } from '#book';
import type { Item } from '../collect/lines.ts';
import type { Vocabulary } from '../vocabulary/vocabulary.ts';
import { kindOfPage, type PageGroup, pageGroups } from './pages.ts';
import type { Ranked } from './ranks.ts';
import type { Heading } from './titles.ts';

export interface Plan {
  readonly kind: SectionKind;
  readonly heading: Heading | null;
  /** Items of the section, its heading's left out; the end is exclusive. */
  readonly from: number;
  readonly to: number;
  /** Subheads inside the section, by item. */
  readonly inner: ReadonlyMap<number, Ranked>;
  readonly reasons: readonly string[];
  readonly confidence: number;
}

interface Draft {
  kind: SectionKind;
  heading: Heading | null;
  from: number;
  to: number;
  reasons: readonly string[];
  confidence: number;
}

export interface PlanInput {
  readonly items: readonly Item[];
  readonly ranked: readonly Ranked[];
  readonly aside: ReadonlySet<number>;
  readonly vocabulary: Vocabulary;
  readonly wordsBefore: Uint32Array;
}

const NARRATIVE: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'prologue',
  'part',
  'chapter',
  'interlude',
  'epilogue',
]);

export function planSections(input: PlanInput): readonly Plan[] {
  const sections = input.ranked.filter((each) => each.rank === 'section');
  const bodies = sections.filter((each) => NARRATIVE.has(each.kind));
  const firstBody = bodies[0]?.heading.candidate.at ?? Number.POSITIVE_INFINITY;
  const lastBody = bodies[bodies.length - 1]?.heading.candidate.at ?? 0;
  const drafts: Draft[] = [];
  const stretch = (ranked: Ranked | null, from: number, to: number): void => {
    const front = from <= firstBody && bodies.length > 0;
    const zone =
      ranked !== null && ranked.heading.candidate.at >= firstBody
        ? ranked.heading.candidate.at >= lastBody
          ? 'back'
          : 'body'
        : front
          ? 'front'
          : 'only';
    drafts.push(...draftsOf(ranked, from, to, zone, input));
  };
  stretch(null, 0, sections[0]?.heading.candidate.at ?? input.items.length);
  sections.forEach((ranked, at) => {
    const last = ranked.heading.items[ranked.heading.items.length - 1] ?? ranked.heading.candidate.at;
    stretch(ranked, last + 1, sections[at + 1]?.heading.candidate.at ?? input.items.length);
  });
  const inner = new Map(
    input.ranked.filter((each) => each.rank === 'inner').map((each) => [each.heading.candidate.at, each]),
  );
  return drafts.map((draft) => ({ ...draft, inner: within(inner, draft.from, draft.to) }));
}

type Zone = 'front' | 'body' | 'back' | 'only';

/** The section of one heading, and the unheaded pages after it that are sections of their own. */
function draftsOf(ranked: Ranked | null, from: number, to: number, zone: Zone, input: PlanInput): readonly Draft[] {
  const drafts: Draft[] = [];
  if (ranked !== null) drafts.push(headed(ranked, from));
  for (const group of pageGroups(input.items, from, to, input.wordsBefore)) {
    const rest = withoutAside(group, input.aside);
    if (rest === null) continue;
    const last = drafts[drafts.length - 1];
    const opening = group.from === from && ranked !== null;
    const page = opening || zone === 'body' ? null : kindOfPage(input.items, rest, input.vocabulary);
    const own = page !== null && (zone === 'front' || page.kind === 'copyright' || page.kind === 'alsoBy');
    if (own) {
      drafts.push({
        kind: page.kind,
        heading: null,
        from: rest.from,
        to: rest.to,
        reasons: [page.reason],
        confidence: page.confidence,
      });
    } else if (
      last === undefined ||
      (last.heading === null && ranked === null && last.kind !== 'other' && last.kind !== 'chapter')
    ) {
      drafts.push(unheaded(rest, zone));
    } else last.to = rest.to;
  }
  return drafts;
}

function headed(ranked: Ranked, from: number): Draft {
  const { reasons, confidence } = ranked.heading;
  return { kind: ranked.kind, heading: ranked.heading, from, to: from, reasons, confidence };
}

function unheaded(group: PageGroup, zone: Zone): Draft {
  const kind = zone === 'only' ? 'chapter' : 'other';
  const reasons = ['text without a heading'];
  return { kind, heading: null, from: group.from, to: group.to, reasons, confidence: 0.5 };
}

/** The part of a page that was not set aside; what was lies at its ends. */
function withoutAside(group: PageGroup, aside: ReadonlySet<number>): PageGroup | null {
  let { from, to } = group;
  while (from < to && aside.has(from)) from++;
  while (to > from && aside.has(to - 1)) to--;
  return from === to ? null : { ...group, from, to };
}

function within(inner: ReadonlyMap<number, Ranked>, from: number, to: number): ReadonlyMap<number, Ranked> {
  const found = new Map<number, Ranked>();
  for (const [at, ranked] of inner) if (at >= from && at < to) found.set(at, ranked);
  return found;
}
