/**
 * Running heads and folios. In: a planned page; out: what it says at its head and foot, and the type on the page.
 */
import type { Points } from '#base';
import { authorsOf, type EditionView, headingOf, namesInARow, type ViewSection } from '#book';
import type { PrintDesign } from '#design';
import type { PageBuilder } from '#page';
import type { SingleLine } from '#paragraph';
import type { PlannedPage } from './arrange.ts';
import { headingStyle, openerOf } from './collect/opener.ts';
import type { NotePages } from './notePages.ts';
import { isDisplayPage } from './order.ts';
import type { Workshop } from './workshop.ts';

/** Between a folio and a head beside it, in ems. */
const FOLIO_GAP = 1.5;
/** A rule below the head: its thickness, and how far below the baseline in ems of the head. */
const RULE: Points = 0.4;
const RULE_DROP = 0.5;
/** A head never takes more than this share of the measure. */
const WIDEST_HEAD = 0.8;

export class Furniture {
  private readonly lines = new Map<string, SingleLine>();
  private readonly heads = new Map<string, string>();
  private readonly parts: ReadonlyMap<string, ViewSection>;

  constructor(
    private readonly view: EditionView,
    private readonly design: PrintDesign,
    private readonly shop: Workshop,
    private readonly notes: NotePages,
  ) {
    this.parts = new Map(view.sections.filter((each) => each.kind === 'part').map((each) => [each.id, each]));
  }

  /** What the page says above its text, '' for nothing: no heads on openers, display pages and blanks (FACTS O-05 to O-08). */
  headOf(page: PlannedPage): string {
    const { content } = page;
    if (!content || content.first || isDisplayPage(page.section.kind) || content.isPlate) return '';
    if (page.section.kind === 'notes') {
      const head = this.notes.headOf(page);
      if (head !== '') return head;
    }
    if (page.section.matter !== 'body') return this.headingText(page.section) || this.view.metadata.title;
    return this.bodyHead(page, this.design.heads[page.side]);
  }

  /** Sets head and folio on a page whose text block begins at `left`. */
  set(page: PlannedPage, left: number, into: PageBuilder): void {
    const { heads, folios, text } = this.design;
    const head = this.headOf(page);
    const opens = page.content?.first ?? false;
    const folio = page.folio.printed ? this.line(page.folio.label, 'folio') : null;
    const above = folio !== null && folios.place === 'headOuter' && !opens;
    if (head !== '') {
      const before = above && heads.side === 'outer' ? folio.width + text.size * FOLIO_GAP : 0;
      const line = this.fittedHead(head);
      line.place(left + this.inset(line, heads.side, page.side, before), heads.baseline, into, { furniture: true });
    }
    if (heads.rule && (head !== '' || above)) this.rule(left, into);
    if (!folio) return;
    const centred = folios.place === 'footCentre' || (opens && folios.place === 'headOuter');
    const x = left + this.inset(folio, centred ? 'centre' : 'outer', page.side, 0);
    folio.place(x, above ? heads.baseline : folios.footBaseline, into, { furniture: true });
  }

  /** A rule below the head, as long as the lines of the text. */
  private rule(x: Points, into: PageBuilder): void {
    const { heads, frame } = this.design;
    const y = heads.baseline + heads.look.size * RULE_DROP;
    into.add({ kind: 'rule', x, y, width: frame.measure, height: RULE });
  }

  /** How far from the text block's left edge a line begins that stands somewhere in the measure, `before` from its edge. */
  private inset(line: SingleLine, at: PrintDesign['heads']['side'], side: PlannedPage['side'], before: Points): Points {
    const free = this.design.frame.measure - line.width;
    if (at === 'centre') return free / 2;
    return (at === 'outer') === (side === 'recto') ? free - before : before;
  }

  private bodyHead(page: PlannedPage, what: PrintDesign['heads']['recto']): string {
    const { metadata } = this.view;
    switch (what) {
      case 'author':
        return namesInARow(authorsOf(metadata), metadata.language) || metadata.title;
      case 'title':
        return metadata.title;
      case 'part': {
        const part = page.section.part ? this.parts.get(page.section.part) : undefined;
        return (part && this.headingText(part)) || metadata.title;
      }
      case 'chapter':
        return this.headingText(page.section) || metadata.title;
      case 'none':
        return '';
    }
  }

  private headingText(section: ViewSection): string {
    const style = headingStyle(openerOf(this.shop.design, section.kind), this.shop.language);
    // A bare figure would read like a folio: it takes its label along.
    const { numberLine, title, name } = headingOf(section, { ...style, showLabel: true });
    const isBare = !/\s/u.test(numberLine) && style.number !== 'words';
    return title || (isBare ? '' : numberLine) || (section.generated ? name : '');
  }

  /** A head that is too wide loses its subtitle (what follows a colon), then words. */
  private fittedHead(head: string): SingleLine {
    const fitted = this.heads.get(head) ?? this.shortened(head);
    this.heads.set(head, fitted);
    return this.line(fitted, 'head');
  }

  private shortened(head: string): string {
    const widest = this.design.frame.measure * WIDEST_HEAD;
    const fits = (words: string): boolean => this.line(words, 'head').width <= widest;
    if (fits(head)) return head;
    const main = head.split(/[:;\u2014]/u)[0]?.trim() ?? head;
    if (main !== '' && fits(main)) return main;
    const words = main.split(/\s+/u);
    while (words.length > 1 && !fits(`${words.join(' ')}\u2026`)) words.pop();
    return `${words.join(' ')}\u2026`;
  }

  private line(words: string, look: 'head' | 'folio'): SingleLine {
    const key = `${look} ${words}`;
    const known = this.lines.get(key);
    if (known) return known;
    const { heads, folios } = this.shop.design;
    const made = this.shop.line(words, look === 'head' ? heads.look : folios.look, '');
    this.lines.set(key, made);
    return made;
  }
}
