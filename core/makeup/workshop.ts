/**
 * What collecting works with, and what it keeps from one run to the next. One workshop serves one setter, language and
 * design key: as long as these stay, an untouched paragraph keeps its styled text and an untouched section its rows.
 */
import type { Node } from 'prosemirror-model';
import type { BlockId, Points, SectionId } from '#base';
import type { Look, PrintDesign } from '#design';
import type { Side } from '#page';
import type { BrokenParagraph, ParagraphSetter, ParagraphShape, SingleLine, StyledText } from '#paragraph';
import type { FontLibrary } from '#type';
import type { PageContent } from './fill/content.ts';
import type { Flow, FlowItem } from './flow.ts';
import { keptContents } from './kept.ts';
import { Shapes } from './shapes.ts';
import { SpanMaker } from './spans.ts';
import { Styler } from './styler.ts';

/** Workshops kept for one setter: the editions and designs that are looked at in turn. */
const KEPT_WORKSHOPS = 4;
/** Flows kept for one section: a contents list is made anew for each guess at the folios that it names. */
const KEPT_FLOWS = 4;

export interface WorkshopParts {
  readonly library: FontLibrary;
  readonly setter: ParagraphSetter;
  readonly language: string;
  readonly design: PrintDesign;
}

/** Which section's flow was filled, and from which side. */
export interface FilledFlow {
  readonly section: SectionId;
  readonly flow: Flow;
  readonly side: Side;
}

/** Styles and styled texts, which all designs share: they know nothing of size and measure. */
interface Texts {
  readonly styler: Styler;
  readonly spans: SpanMaker;
}

const texts = new WeakMap<ParagraphSetter, Map<string, Texts>>();

function textsFor({ setter, library, language }: WorkshopParts): Texts {
  const languages = texts.get(setter) ?? new Map<string, Texts>();
  texts.set(setter, languages);
  const known = languages.get(language);
  if (known) return known;
  const styler = new Styler(library, language);
  const made = { styler, spans: new SpanMaker(styler) };
  languages.set(language, made);
  return made;
}

/** In which look, shape and place a paragraph was collected. */
export interface ParagraphPlace {
  readonly look: Look;
  /** One of the workshop's own shapes, known by identity. */
  readonly shape: ParagraphShape;
  readonly left: Points;
}

interface KeptParagraph extends ParagraphPlace {
  readonly item: FlowItem;
}

export class Workshop {
  readonly setter: ParagraphSetter;
  readonly styler: Styler;
  readonly spans: SpanMaker;
  /** The first design of this key: its looks are the ones that caches know. Its side margins may be another's. */
  readonly design: PrintDesign;
  readonly language: string;
  private readonly shapes: Shapes;
  private readonly fills = new WeakMap<Flow, Map<Side, readonly PageContent[]>>();
  /** The latest pages of each section on each side. */
  private readonly latest = new Map<string, readonly PageContent[]>();
  private readonly paragraphs = new WeakMap<Node, KeptParagraph>();
  private readonly flows = new WeakMap<Node, Map<string, Flow>>();

  private constructor(parts: WorkshopParts) {
    this.setter = parts.setter;
    this.design = parts.design;
    this.language = parts.language;
    this.shapes = new Shapes(parts.design);
    ({ styler: this.styler, spans: this.spans } = textsFor(parts));
  }

  private static readonly open = new WeakMap<ParagraphSetter, Map<string, Workshop>>();

  /** The workshop for these parts, with all that it has kept. */
  static for(parts: WorkshopParts): Workshop {
    const shops = Workshop.open.get(parts.setter) ?? new Map<string, Workshop>();
    Workshop.open.set(parts.setter, shops);
    const key = `${parts.language} ${parts.design.key}`;
    const shop = shops.get(key) ?? new Workshop(parts);
    shops.delete(key);
    shops.set(key, shop);
    for (const oldest of shops.keys()) {
      if (shops.size <= KEPT_WORKSHOPS) break;
      shops.delete(oldest);
    }
    return shop;
  }

  /** The item that a paragraph was collected into at a place, null where it was not. */
  paragraph(node: Node, { look, shape, left }: ParagraphPlace): FlowItem | null {
    const known = this.paragraphs.get(node);
    return known?.look === look && known.shape === shape && known.left === left ? known.item : null;
  }

  keepParagraph(node: Node, { look, shape, left }: ParagraphPlace, item: FlowItem): void {
    this.paragraphs.set(node, { look, shape, left, item });
  }

  /** The flow of a section's node, made where it is not known under that key. */
  flow(node: Node, key: string, make: () => Flow): Flow {
    const flows = this.flows.get(node) ?? new Map<string, Flow>();
    this.flows.set(node, flows);
    const flow = flows.get(key) ?? make();
    // Moved to the end: the one that was asked for longest ago goes first.
    flows.delete(key);
    flows.set(key, flow);
    if (flows.size > KEPT_FLOWS) flows.delete(flows.keys().next().value ?? '');
    return flow;
  }

  /** The pages that a flow was filled into from a side, null where it was not. */
  contents(flow: Flow, side: Side): readonly PageContent[] | null {
    return this.fills.get(flow)?.get(side) ?? null;
  }

  /** Keeps the pages of a flow; gives them back, by the section's old ones wherever a page stayed as it was. */
  keepContents(of: FilledFlow, contents: readonly PageContent[]): readonly PageContent[] {
    const place = `${of.section} ${of.side}`;
    const kept = keptContents(contents, this.latest.get(place) ?? []);
    this.latest.set(place, kept);
    const sides = this.fills.get(of.flow) ?? new Map<Side, readonly PageContent[]>();
    sides.set(of.side, kept);
    this.fills.set(of.flow, sides);
    return kept;
  }

  break(text: StyledText, shape: ParagraphShape): BrokenParagraph {
    return this.setter.break({ text, shape, looseness: 0 });
  }

  /** Words on one line that stand nowhere in the book's text; `block` is what they belong to. */
  line(words: string, look: Look, block: BlockId | SectionId): SingleLine {
    return this.setter.line(this.spans.literal(words, look, block), look.size);
  }

  /** The shape of running text. */
  running(look: Look, measure: Points, indentFirst: Points): ParagraphShape {
    return this.shapes.running(look, measure, indentFirst);
  }

  /** The shape of lines that are not justified. */
  ragged(look: Look, measure: Points, align: 'start' | 'center' | 'end'): ParagraphShape {
    return this.shapes.ragged(look, measure, align);
  }
}
