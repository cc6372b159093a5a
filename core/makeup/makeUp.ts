/**
 * Make-up: a print edition's text becomes pages. In: the view of an edition, a design, fonts and a setter; out: finished
 * pages, what the author should know, and the places that other files refer to.
 */
import type { Node } from 'prosemirror-model';
import type { Finding, SectionId } from '#base';
import { type EditionView, type PrintEdition, sectionLabel, type ViewSection } from '#book';
import { type DesignSettings, type DressedSettings, type PrintDesign, resolveForPrint } from '#design';
import type { Page } from '#page';
import type { ParagraphSetter } from '#paragraph';
import type { FontLibrary } from '#type';
import { arrange, type PlannedPage, plannedPage } from './arrange.ts';
import { readAhead } from './collect/ahead.ts';
import type { Picture } from './collect/collector.ts';
import type { ContentsEntry } from './collect/contents.ts';
import type { NoteGroup } from './collect/notes.ts';
import { headingStyle, openerOf } from './collect/opener.ts';
import { collectSection } from './collect/section.ts';
import type { PageContent } from './fill/content.ts';
import { fillPages } from './fill/fill.ts';
import type { Filler } from './fill/filler.ts';
import { finishPage } from './finalize.ts';
import type { Flow } from './flow.ts';
import { Furniture } from './furniture.ts';
import { listingOf } from './listing.ts';
import { keepListsIn, type MadeUp, madeOf, makingOf } from './made.ts';
import { withNotes } from './order.ts';
import { type Known, knownFrom, type Settled, settle } from './settle.ts';
import { Workshop } from './workshop.ts';

export interface MakeUpRequest {
  readonly view: EditionView;
  readonly settings: DressedSettings;
  readonly library: FontLibrary;
  readonly setter: ParagraphSetter;
  /** Another way to fill pages. */
  readonly filler?: Filler;
  /** What there is to tell the author already. */
  readonly told?: readonly Finding[];
}

/** Makes up a print edition. */
export function makeUp(request: MakeUpRequest): MadeUp {
  const job = new Job(request);
  for (const section of job.sections) job.readAhead(section);
  return job.finish(settle((known) => job.pass(known)));
}

/**
 * The pages that an edition would have: makes it up, but for what stands on the pages.
 * @param again whether they will be counted at other measures as well: what these will want is kept.
 */
export function countPages(request: MakeUpRequest, again = false): number {
  const job = new Job(request);
  for (const section of job.sections) job.readAhead(section);
  const { plan } = settle((known) => job.pass(known));
  if (again) for (const _ of keepListsIn(plan));
  return plan.length;
}

/**
 * Makes one section's pages again after a change, where they stood before it: what a reader of that page sees at once.
 * Pages that did not change are the very same objects. Null where the section had no pages. The rest of the book, and this
 * section's place in it, follow from `makeUp`.
 */
export function makeUpSection(request: MakeUpRequest, previous: MadeUp, section: SectionId): readonly Page[] | null {
  return new Job(request).section(previous, section);
}

/** How far preparing has come, in sections. */
export interface Preparation {
  readonly done: number;
  readonly of: number;
}

/** Collects the sections one by one, `first` before the others, so that `makeUp` has little left to do. */
export function* prepareSections(request: MakeUpRequest, first: SectionId | null): Generator<Preparation, void> {
  const job = new Job(request);
  // A contents list waits for the folios that it names.
  const order = job.sections
    .filter(({ kind }) => kind !== 'contents')
    .sort((one, other) => Number(other.id === first) - Number(one.id === first));
  for (const section of request.library.shapesAside ? order : []) {
    job.readAhead(section);
    yield { done: 0, of: order.length };
  }
  for (const [at, section] of order.entries()) {
    job.prepare(section);
    yield { done: at + 1, of: order.length };
  }
}

class Job {
  private readonly edition: PrintEdition;
  private readonly view: EditionView;
  readonly sections: readonly ViewSection[];
  private readonly filler: Filler;
  private readonly designs: Map<number, PrintDesign>;
  private readonly shops = new Map<PrintDesign, Workshop>();
  /** The flows of the latest pass. */
  private readonly flows = new Map<SectionId, Flow>();

  constructor(private readonly request: MakeUpRequest) {
    const { edition } = request.view;
    if (edition.kind !== 'print') throw new RangeError(`edition ${edition.id} is not printed`);
    this.edition = edition;
    this.designs = designsOf(request.settings, edition);
    this.view = request.view;
    this.sections = edition.notes === 'book' ? withNotes(request.view) : request.view.sections;
    this.filler = request.filler ?? fillPages;
  }

  /** Collects, fills and arranges the whole book on the footing of a guess. */
  pass(known: Known): readonly PlannedPage[] {
    const design = this.design(known.pages);
    const shop = this.shop(design);
    return arrange(this.sections, design, (section, side) => {
      const flow = this.flow(shop, section, known);
      this.flows.set(section.id, flow);
      return this.fill(shop, section, flow, side);
    });
  }

  /** Reads the running text of a section. */
  readAhead(section: ViewSection): void {
    readAhead(this.shop(this.design(0)), section);
  }

  /** Collects a section as the first pass will ask for it. */
  prepare(section: ViewSection): void {
    this.flow(this.shop(this.design(0)), section, { pages: 0, folios: NO_FOLIOS });
  }

  section(previous: MadeUp, id: SectionId): readonly Page[] | null {
    const section = this.sections.find((each) => each.id === id);
    const { plan, notes } = makingOf(previous);
    const at = previous.pageOf(id);
    const first = at === null ? undefined : plan[at];
    if (!section || !first) return null;
    const design = this.design(previous.count);
    const shop = this.shop(design);
    const known = section.kind === 'contents' ? knownFrom(plan) : { pages: previous.count, folios: NO_FOLIOS };
    const flow = this.flow(shop, section, known);
    const furniture = new Furniture(this.view, design, shop, notes);
    return this.fill(shop, section, flow, first.side).map((content, index) => {
      const place = { index: first.index + index, section, content, value: first.folio.value + index };
      return finishPage(plannedPage({ ...place, style: first.folio.style }, design), design, furniture);
    });
  }

  /** Pages of a flow: those of before wherever they stayed as they were. */
  private fill(shop: Workshop, section: ViewSection, flow: Flow, side: Page['side']): readonly PageContent[] {
    if (this.filler !== fillPages) return this.filler({ flow, side });
    const known = shop.contents(flow, side);
    if (known) return known;
    const filled = this.filler({ flow, side });
    return shop.keepContents({ section: section.id, flow, side }, filled);
  }

  finish({ plan, known, rests }: Settled): MadeUp {
    const design = this.design(known.pages);
    const { told = [] } = this.request;
    return madeOf({ plan, flows: this.flows, view: this.view, design, shop: this.shop(design), settled: rests, told });
  }

  private design(pages: number): PrintDesign {
    const known = this.designs.get(pages) ?? resolveForPrint(this.request.settings, this.edition, { pages });
    this.designs.set(pages, known);
    if (this.designs.size > KEPT_DESIGNS) this.designs.delete(this.designs.keys().next().value ?? 0);
    return known;
  }

  private shop(design: PrintDesign): Workshop {
    const { library, setter } = this.request;
    const known =
      this.shops.get(design) ?? Workshop.for({ library, setter, design, language: this.view.metadata.language });
    this.shops.set(design, known);
    return known;
  }

  private flow(shop: Workshop, section: ViewSection, known: Known): Flow {
    const contents = section.kind === 'contents' ? listingOf(shop, this.sections, section, known.folios) : [];
    const gathered = section.kind === 'notes' && this.edition.notes === 'book' ? this.gathered(shop) : [];
    return shop.flow(section.node, this.flowKey(section, contents, gathered), () =>
      collectSection({
        shop,
        section,
        metadata: this.view.metadata,
        notes: this.edition.notes,
        contents,
        gathered,
        picture: (asset) => this.picture(asset),
      }),
    );
  }

  /** What a section's rows depend on besides its node, the design and the language. */
  private flowKey(section: ViewSection, contents: readonly ContentsEntry[], gathered: readonly NoteGroup[]): string {
    const { title, subtitle, publisher, contributors } = this.view.metadata;
    if (!section.generated && gathered.length === 0 && assetsIn(section.node).length === 0) {
      return `${section.number} ${section.needsLabel} ${this.edition.notes} ${section.label}`;
    }
    const own = section.generated ? [title, subtitle, publisher, contributors, contents] : [];
    const notes = gathered.map((group) => [group.name, group.notes.map((note) => note.node.toJSON() as unknown)]);
    const pictures = assetsIn(section.node).map((asset) => this.view.asset(asset) !== undefined);
    return JSON.stringify([
      section.number,
      section.label,
      section.needsLabel,
      this.edition.notes,
      own,
      notes,
      pictures,
    ]);
  }

  private gathered(shop: Workshop): readonly NoteGroup[] {
    const noted = this.view.sections.filter((section) => section.notes.length > 0);
    return noted.map((section) => {
      const style = headingStyle(openerOf(shop.design, section.kind), shop.language);
      return { name: sectionLabel(section, style), notes: section.notes };
    });
  }

  private picture(asset: string): Picture | null {
    const found = this.view.asset(asset);
    return found ? { pixels: found.pixels } : null;
  }
}

/** Page counts for which a design's resolved forms are kept. */
const KEPT_DESIGNS = 8;

const designs = new WeakMap<DesignSettings, WeakMap<PrintEdition, Map<number, PrintDesign>>>();

/** A design's resolved forms by page count: the same objects from run to run. */
function designsOf(settings: DesignSettings, edition: PrintEdition): Map<number, PrintDesign> {
  const editions = designs.get(settings) ?? new WeakMap<PrintEdition, Map<number, PrintDesign>>();
  designs.set(settings, editions);
  const found = editions.get(edition) ?? new Map<number, PrintDesign>();
  editions.set(edition, found);
  return found;
}

const NO_FOLIOS: ReadonlyMap<SectionId, string> = new Map();

const assets = new WeakMap<Node, readonly string[]>();

/** The pictures that a section shows. */
function assetsIn(section: Node): readonly string[] {
  let found = assets.get(section);
  if (!found) {
    const list: string[] = [];
    section.descendants((node) => {
      if (node.type.name === 'figure') list.push(String(node.attrs['asset']));
      return !node.isTextblock;
    });
    found = list;
    assets.set(section, found);
  }
  return found;
}
