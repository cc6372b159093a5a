/**
 * A book made up. In: its plan, with all that decides how planned pages look; out: what the author should know, the places
 * that other files refer to, and the pages, each of them set when it is first asked for: whoever looks at a spread does not
 * wait for the rest of the book.
 */
import type { Finding, PageIndex, SectionId } from '#base';
import type { EditionView } from '#book';
import type { PrintDesign } from '#design';
import type { Page } from '#page';
import type { PlannedPage } from './arrange.ts';
import { keepLists } from './collect/paragraph.ts';
import { finishPage } from './finalize.ts';
import { findingsOf } from './findings.ts';
import type { Flow } from './flow.ts';
import { Furniture } from './furniture.ts';
import { NotePages } from './notePages.ts';
import { type OutlineEntry, outlineOf } from './outline.ts';
import type { Workshop } from './workshop.ts';

/** The first character of the text on a page. */
export interface PageBeginning {
  readonly label: string;
  readonly block: string;
  readonly offset: number;
}

export interface MadeUp {
  /** How many pages there are. */
  readonly count: number;
  /** A page by its place, the same object each time. A RangeError for one that is not there. */
  readonly page: (index: PageIndex) => Page;
  /** All pages. */
  readonly pages: readonly Page[];
  readonly findings: readonly Finding[];
  /** One entry a page that is not blank, in the order of the pages. */
  readonly pageStarts: readonly PageBeginning[];
  readonly outline: readonly OutlineEntry[];
  /** False where contents pages and page count did not come to rest (a finding says so). */
  readonly settled: boolean;
  /** The page on which a section begins, null for one that has none. */
  readonly pageOf: (section: SectionId) => PageIndex | null;
  /** The design as resolved for the final page count. */
  readonly design: PrintDesign;
}

export interface MadeParts {
  readonly plan: readonly PlannedPage[];
  readonly flows: ReadonlyMap<SectionId, Flow>;
  readonly view: EditionView;
  readonly design: PrintDesign;
  readonly shop: Workshop;
  readonly settled: boolean;
  /** What there is to tell besides. */
  readonly told: readonly Finding[];
}

/** What a made-up book was made of. */
interface Making {
  readonly plan: readonly PlannedPage[];
  readonly notes: NotePages;
}

const makings = new WeakMap<MadeUp, Making>();

/** How a book was made up. */
export function makingOf(made: MadeUp): Making {
  const making = makings.get(made);
  if (!making) throw new RangeError(`no book that was made up: ${made.count} pages`);
  return making;
}

/** The made-up book of a plan. */
export function madeOf({ plan, flows, view, design, shop, settled, told }: MadeParts): MadeUp {
  const notes = new NotePages(view, plan);
  const furniture = new Furniture(view, design, shop, notes);
  const first = new Map<SectionId, PageIndex>();
  for (const page of plan) if (page.content?.first) first.set(page.section.id, page.index);
  const set: Page[] = [];
  const page = (index: PageIndex): Page => {
    const planned = plan[index];
    if (!planned) throw new RangeError(`no page ${index} among ${plan.length}`);
    set[index] ??= finishPage(planned, design, furniture);
    return set[index];
  };
  let all: readonly Page[] | null = null;
  const made: MadeUp = {
    count: plan.length,
    page,
    get pages() {
      all ??= plan.map(({ index }) => page(index));
      return all;
    },
    findings: [...findingsOf({ plan, flows, view, rests: settled }), ...told],
    pageStarts: plan.flatMap(beginningOf),
    outline: outlineOf(view, plan, design),
    settled,
    pageOf: (section) => first.get(section) ?? null,
    design,
  };
  makings.set(made, { plan, notes });
  return made;
}

/**
 * Work for spare time: what the next layout to another measure will want. Each step keeps where the lines of one paragraph
 * may end; those for which that was done take none.
 */
export function keepListsOf(made: MadeUp): Generator<void, void> {
  return keepListsIn(makingOf(made).plan);
}

/** Flows whose lists have been kept. */
const kept = new WeakSet<Flow>();

/** The same for the pages of a plan. */
export function* keepListsIn(plan: readonly PlannedPage[]): Generator<void, void> {
  for (const { content } of plan) {
    if (!content?.first || kept.has(content.flow)) continue;
    for (const item of content.flow.items) if (keepLists(item)) yield;
    kept.add(content.flow);
  }
}

/** The first character on the page; a page of none (a title page that the edition makes) begins with its section. */
function beginningOf(page: PlannedPage): readonly PageBeginning[] {
  if (!page.content) return [];
  const { start } = page.content;
  return [{ label: page.folio.label, block: start?.block ?? String(page.section.id), offset: start?.offset ?? 0 }];
}
