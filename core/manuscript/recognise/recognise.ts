/**
 * From a manuscript as it came to a book. In: a raw manuscript; out: the book, holding what the manuscript holds, and a
 * report of every decision with its reason. Stages: collect, evidence, decide, build, with the tidying as text is made.
 */
import { type AssetId, IdSource, type SectionId } from '#base';
import { type Book, hasId, type Metadata, newBook } from '#book';
import type { RawBlock, RawManuscript } from '../raw.ts';
import type { Recognised, SectionEvidence } from '../report.ts';
import { idOf, Maker } from './build/maker.ts';
import { endMarkerSentence, sectionSentence } from './build/remarks.ts';
import { gapHabits } from './build/sceneBreaks.ts';
import { sectionNode } from './build/section.ts';
import { type Base, baseOf } from './collect/base.ts';
import { languageOf } from './collect/language.ts';
import { collectLines, type Item } from './collect/lines.ts';
import { frontMatterOf } from './decide/front.ts';
import { acceptHeadings } from './decide/headings.ts';
import { metadataOf } from './decide/metadata.ts';
import { numberingOf } from './decide/numbering.ts';
import { type Ranked, rankHeadings } from './decide/ranks.ts';
import { type Plan, planSections } from './decide/sections.ts';
import { subheadsByLook } from './decide/subheads.ts';
import { mergeTitles } from './decide/titles.ts';
import { candidatesOf } from './evidence/candidates.ts';
import { findContents } from './evidence/contents.ts';
import { isEndMarker } from './evidence/endMarker.ts';
import { noticesOf } from './notices.ts';
import { habitsOf } from './tidy/habits.ts';
import type { TidyOptions } from './tidy/kinds.ts';
import { Tidier } from './tidy/tidier.ts';
import { vocabularyFor } from './vocabulary/vocabulary.ts';

export interface RecogniseOptions {
  /** Clean-up to leave undone. */
  readonly tidy?: TidyOptions;
  /** Keep "THE END" as text; it is left out otherwise. */
  readonly keepEndMarker?: boolean;
}

/** Recognises the sections, their kinds and their text. Pure: the same manuscript gives the same book. */
export function recognise(raw: RawManuscript, options: RecogniseOptions = {}): Recognised {
  const { items, empties } = collectLines(raw.blocks);
  const language = languageOf(raw, items);
  const vocabulary = vocabularyFor(language.tag);
  const base = baseOf(items);
  const contents = findContents(items, vocabulary);
  const wordsBefore = countWordsBefore(items, contents.dropped);
  const around = { contents, vocabulary, wordsBefore };
  const candidates = candidatesOf(items, base, vocabulary);
  const accepted = acceptHeadings(candidates, around);
  const front = frontMatterOf({ raw, items, accepted, base, vocabulary, wordsBefore, contents });
  const headings = mergeTitles(front.accepted, items, base, contents);
  const ends = options.keepEndMarker === true ? new Set<number>() : endMarkers(items, vocabulary.words.ends);
  const aside = new Set([...contents.dropped, ...front.titlePage.used, ...ends]);
  const ranks = rankHeadings(headings, around);
  const from = ranks.find((each) => each.rank === 'section')?.heading.candidate.at ?? items.length;
  const taken = new Set([...aside, ...headings.flatMap((each) => each.items)]);
  const ranked = [...ranks, ...subheadsByLook(candidates, { items, taken, from, wordsBefore })];
  const plans = planSections({ items, ranked, aside, vocabulary, wordsBefore }).filter(
    (plan) => !isEmptyContents(plan),
  );

  const tidier = new Tidier(language.tag, habitsOf(items, language.tag), options.tidy ?? {});
  const maker = new Maker({
    base,
    tidier,
    language: language.tag.toLowerCase().split('-')[0] ?? 'en',
    markLanguages: language.trusted,
    assets: raw.assets,
    habits: gapHabits(items, base, new Set(ranked.flatMap((each) => each.heading.items))),
    separators: separatorsOf(items),
  });
  const { sections, evidence, placed } = buildSections(plans, { items, aside, base, maker, ends });
  const metadata: Partial<Metadata> = metadataOf(raw, front.titlePage, language.tag, loneTitle(ranks));
  const book: Book = withRemarks(newBook({ metadata, sections, assets: raw.assets }), maker);
  const markers = [...ends].map((at) => plainOf(items[at]));
  const notices = noticesOf({ raw, tidier, maker, contents, empties, markers, titlePage: front.titlePage });
  return { book, report: { sections: evidence, notices }, placed };
}

/** The title of a text under one heading: a story, a diary. */
function loneTitle(ranks: readonly Ranked[]): string | null {
  const [only, second] = ranks.filter((each) => each.rank === 'section');
  if (!only || second || only.heading.candidate.reading.form !== 'title') return null;
  return only.heading.candidate.line.plain.replace(/\s+/g, ' ').trim();
}

/** A contents heading whose list the reader left out already. */
function isEmptyContents(plan: Plan): boolean {
  return plan.kind === 'contents' && plan.from >= plan.to;
}

/** The book with what was decided at its places; a mark of a scene break at a section's end, for one, is in no book. */
function withRemarks(book: Book, { remarks }: Maker): Book {
  return { ...book, remarks: remarks.all.filter(({ block }) => hasId(book.text, block)) };
}

function plainOf(item: Item | undefined): string {
  return item?.kind === 'line' ? item.plain : '';
}

interface Building {
  readonly items: readonly Item[];
  readonly aside: ReadonlySet<number>;
  readonly base: Base;
  readonly maker: Maker;
  /** Marks of the manuscript's end, which are left out. */
  readonly ends: ReadonlySet<number>;
}

function buildSections(plans: readonly Plan[], building: Building) {
  const ids = new IdSource('s');
  const numbering = numberingOf(plans);
  const evidence: SectionEvidence[] = [];
  const placed = new Map<RawBlock, SectionId>();
  const sections = plans.flatMap((plan, at) => {
    const { items, aside, base, maker } = building;
    const id = ids.take();
    maker.remarks.add(id, 'section', sectionSentence(plan.kind, plan.reasons));
    const given = numbering[at] ?? { numbered: false, label: null, startNumber: null, restart: false };
    const node = sectionNode({ id, plan, numbering: given, items, aside, base }, maker);
    evidence.push({ section: id, reasons: plan.reasons, confidence: plan.confidence });
    for (const item of itemsOf(plan, items, aside)) placed.set(blockOf(item), id);
    return [node];
  });
  for (const at of building.ends) {
    const last = sections[plans.findLastIndex((plan) => plan.from <= at)]?.lastChild;
    if (last) building.maker.remarks.add(idOf(last), 'end-marker', endMarkerSentence(plainOf(building.items[at])));
  }
  return { sections, evidence, placed };
}

/** The items of a section with those of its heading, in their order. */
function itemsOf(plan: Plan, items: readonly Item[], aside: ReadonlySet<number>): readonly Item[] {
  const body = items.slice(plan.from, plan.to).filter((_, at) => !aside.has(plan.from + at));
  const heading = (plan.heading?.items ?? []).flatMap((at) => items[at] ?? []);
  return [...heading, ...body];
}

function blockOf(item: Item): RawBlock {
  if (item.kind === 'line') return item.source;
  return item.kind === 'table' ? item.table : item.frame;
}

/** Words of all items before each index, those of a contents list left out. */
function countWordsBefore(items: readonly Item[], dropped: ReadonlySet<number>): Uint32Array {
  const before = new Uint32Array(items.length + 1);
  items.forEach((item, at) => {
    before[at + 1] = (before[at] ?? 0) + (item.kind === 'line' && !dropped.has(at) ? item.words : 0);
  });
  return before;
}

function endMarkers(items: readonly Item[], ends: readonly string[]): ReadonlySet<number> {
  const found = new Set<number>();
  items.forEach((item, at) => {
    if (item.kind === 'line' && at > items.length / 2 && isEndMarker(item, ends)) found.add(at);
  });
  return found;
}

/** A picture used so often between paragraphs is an ornament. */
const SEPARATOR_USES = 3;

function separatorsOf(items: readonly Item[]): ReadonlySet<AssetId> {
  const uses = new Map<AssetId, number>();
  for (const item of items) {
    if (item.kind !== 'line' || item.images !== 1 || item.plain !== '') continue;
    for (const leaf of item.rich.leaves)
      if (leaf.kind === 'image') uses.set(leaf.asset, (uses.get(leaf.asset) ?? 0) + 1);
  }
  return new Set([...uses].filter(([, count]) => count >= SEPARATOR_USES).map(([asset]) => asset));
}
