/**
 * The blocks of one section. In: its items with what was decided about them; out: block nodes in order. Every item ends
 * up in a block; nothing but marks of scene breaks is left out.
 */
import type { Node } from 'prosemirror-model';
import { schema } from '#book';
import type { Base } from '../collect/base.ts';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';
import type { Ranked } from '../decide/ranks.ts';
import { type Form, formsOf, isAttribution, isCaption, isSalutation, QUOTE_STYLE, VERSE_STYLE } from './forms.ts';
import { lists } from './lists.ts';
import { idOf, isPictureOnly, type Maker } from './maker.ts';
import { placeOfPicture } from './placing.ts';
import {
  CAPTION_SENTENCE,
  epigraphSentence,
  FRAME_SENTENCE,
  formSentence,
  gapSentence,
  letterSentence,
  PLACE_SENTENCES,
  RULE_SENTENCE,
  SEPARATOR_SENTENCE,
  subheadSentence,
} from './remarks.ts';
import { breaksProse, extraSpace } from './sceneBreaks.ts';
import { frameNodes, tableNodes } from './tables.ts';
import { verseNode } from './verse.ts';

export interface SectionContent {
  readonly items: readonly Item[];
  readonly inner: ReadonlyMap<Item, Ranked>;
  readonly base: Base;
  /** Lines at the section's beginning may be its epigraph. */
  readonly opens: boolean;
  /** The section has a title and no number. */
  readonly titled: boolean;
}

const { quotation, epigraph, setOff, sceneBreak, heading } = schema.nodes;

export function blocksOf(content: SectionContent, maker: Maker): readonly Node[] {
  return new BlockWriter(content, maker).write();
}

class BlockWriter {
  private readonly out: Node[] = [];
  private readonly forms: readonly Form[];
  private readonly gaps: boolean;
  private at = 0;

  constructor(
    private readonly content: SectionContent,
    private readonly maker: Maker,
  ) {
    const lines = content.items.filter((item): item is Line => item.kind === 'line');
    const forms = formsOf(lines, content.base, content.titled);
    let next = 0;
    this.forms = content.items.map((item) => {
      const form = item.kind === 'line' ? (forms[next++] ?? 'prose') : 'prose';
      return content.inner.has(item) ? 'inner' : form;
    });
    this.gaps = maker.habits.gaps;
  }

  write(): readonly Node[] {
    if (this.content.opens) this.writeEpigraph();
    while (this.at < this.content.items.length) this.writeNext();
    const last = this.out[this.out.length - 1];
    if (last?.type === sceneBreak) this.out.pop();
    return this.out;
  }

  private writeNext(): void {
    const item = this.content.items[this.at];
    if (item === undefined) return;
    this.breakBefore(item);
    if (item.kind === 'line') {
      this.writeLine(item, this.forms[this.at] ?? 'prose');
      return;
    }
    if (item.kind === 'table') this.out.push(...tableNodes(item.table, this.maker));
    else this.writeFrame(frameNodes(item.frame.blocks, this.maker));
    this.at++;
  }

  private writeFrame(nodes: readonly Node[]): void {
    const [first] = nodes;
    if (first?.type === setOff) this.maker.remarks.add(idOf(first), 'frame', FRAME_SENTENCE);
    this.out.push(...nodes);
  }

  private writeLine(line: Line, form: Form): void {
    switch (form) {
      case 'break':
        this.addBreak('ornament');
        this.at++;
        return;
      case 'inner':
        this.writeInner(line);
        return;
      case 'list':
        this.out.push(...lists(this.takeWhile('list'), this.maker));
        return;
      case 'verse':
        this.writeVerse(line);
        return;
      case 'quote':
        this.writeQuote();
        return;
      default:
        this.writeProse(line);
    }
  }

  private writeVerse(first: Line): void {
    const node = verseNode(this.takeWhile('verse'), this.takeAttribution(), this.content.base, this.maker);
    this.maker.remarks.add(idOf(node), 'verse', formSentence('verse', first, VERSE_STYLE));
    this.out.push(node);
  }

  private writeProse(line: Line): void {
    if (isPictureOnly(line) && this.maker.isSeparator(line)) {
      this.addBreak('ornament', SEPARATOR_SENTENCE);
      this.at++;
      return;
    }
    this.at++;
    const blocks = this.maker.paragraphs(line);
    const caption = this.content.items[this.at];
    if (line.images > 0 && caption?.kind === 'line' && this.isCaptionOf(line, caption)) {
      this.at++;
      const captioned = this.maker.withCaption(blocks, caption);
      const figure = captioned.findLast((node) => node.type === schema.nodes.figure);
      if (figure && !isCaption(caption)) this.maker.remarks.add(idOf(figure), 'caption', CAPTION_SENTENCE);
      this.out.push(...this.placed(line, captioned));
    } else this.out.push(...this.placed(line, blocks));
  }

  /** A picture alone in its line, where the manuscript shows that it was to have a page. */
  private placed(line: Line, blocks: readonly Node[]): readonly Node[] {
    if (!isPictureOnly(line)) return blocks;
    const place = placeOfPicture(line, this.content.items[this.at]);
    if (place === null) return blocks;
    return blocks.map((node) => {
      if (node.type !== schema.nodes.figure) return node;
      this.maker.remarks.add(idOf(node), 'picture', PLACE_SENTENCES[place]);
      return node.type.create({ ...node.attrs, place }, node.content);
    });
  }

  /** A caption by its style, or by its look: a few words centred under a picture that stands alone. */
  private isCaptionOf(picture: Line, line: Line): boolean {
    if (isCaption(line)) return true;
    const { base } = this.content;
    if (!isPictureOnly(picture) || line.gap > base.gap || !line.centred || line.images > 0) return false;
    return this.forms[this.at] === 'prose' && line.words > 0 && line.words <= 20;
  }

  private writeInner(line: Line): void {
    const ranked = this.content.inner.get(line);
    const title = ranked?.heading.items.length === 2 ? this.content.items[this.at + 1] : undefined;
    const lines = title?.kind === 'line' ? [line, title] : [line];
    const level = ranked?.depth ?? 1;
    const id = this.maker.blockId();
    if (ranked) this.maker.remarks.add(id, 'subhead', subheadSentence(ranked.heading.reasons));
    this.out.push(heading.create({ id, level }, [...this.maker.heading(lines)]));
    this.at += lines.length;
  }

  private writeQuote(): void {
    const lines = this.takeWhile('quote');
    const attribution = this.takeAttribution();
    const paragraphs = lines.flatMap((line) => this.maker.paragraphs(line));
    if (paragraphs.some((node) => node.type !== schema.nodes.paragraph)) {
      this.out.push(...paragraphs);
      if (attribution !== null) this.out.push(...this.maker.paragraphs(attribution));
      return;
    }
    const id = this.maker.blockId();
    const salutation = attribution === null ? lines.slice(0, 4).find(isSalutation) : undefined;
    if (salutation) {
      this.maker.remarks.add(id, 'letter', letterSentence(salutation));
      this.out.push(setOff.create({ id, form: 'letter' }, paragraphs));
      return;
    }
    const [first] = lines;
    if (first) this.maker.remarks.add(id, 'quotation', formSentence('a quotation', first, QUOTE_STYLE));
    const tail = attribution === null ? [] : [this.maker.attribution(attribution)];
    this.out.push(quotation.create({ id }, [...paragraphs, ...tail]));
  }

  /** The run of lines of one form; a scene break or a heading inside ends it. */
  private takeWhile(form: Form): readonly Line[] {
    const lines: Line[] = [];
    while (this.at < this.content.items.length && this.forms[this.at] === form) {
      const item = this.content.items[this.at];
      if (item?.kind !== 'line') break;
      if (lines.length > 0 && (item.rule || item.page)) break;
      lines.push(item);
      this.at++;
      if (form === 'quote' && this.breaksQuote(item)) break;
    }
    return lines;
  }

  private breaksQuote(last: Line): boolean {
    const next = this.content.items[this.at];
    return next?.kind === 'line' && this.isGapBreak(last, next);
  }

  private takeAttribution(): Line | null {
    const item = this.content.items[this.at];
    if (item?.kind !== 'line' || this.forms[this.at] === 'inner' || !isAttribution(item)) return null;
    this.at++;
    return item;
  }

  private breakBefore(item: Item): void {
    if (this.out.length === 0) return;
    const before = this.content.items[this.at - 1];
    if (item.rule) {
      this.addBreak('ornament', RULE_SENTENCE);
      return;
    }
    if (before === undefined || this.forms[this.at] === 'break' || this.forms[this.at - 1] === 'break') return;
    if (before.kind === 'line' && before.source.rule && this.isRuledProse(before, item)) {
      this.addBreak('ornament', RULE_SENTENCE);
    } else if (this.isGapBreak(before, item)) this.addBreak('space', gapSentence(item));
  }

  private isGapBreak(before: Item, item: Item): boolean {
    if (before.kind !== 'line' || item.kind !== 'line') return false;
    if (item.page || item.gap >= EMPTIES_AS_PAGE)
      return breaksProse(before, this.content.base) && breaksProse(item, this.content.base);
    const extra = item.gap > this.content.base.gap;
    const space = extraSpace(before, item, this.content.base) >= 11;
    if (!(extra && this.gaps) && !(space && this.maker.habits.spaces)) return false;
    const here = this.content.items.indexOf(item, this.at === 0 ? 0 : this.at - 1);
    const forms = [this.forms[here - 1], this.forms[here]];
    if (forms[0] !== forms[1] || forms[0] === 'list' || forms[0] === 'verse' || forms[0] === 'inner') return false;
    return breaksProse(before, this.content.base) && breaksProse(item, this.content.base);
  }

  /** A border under ordinary text, drawn where marks were typed. */
  private isRuledProse(before: Line, item: Item): boolean {
    const { base } = this.content;
    return this.maker.habits.rules && breaksProse(before, base) && item.kind === 'line' && breaksProse(item, base);
  }

  /** @param sentence why, where that is not plain to see. */
  private addBreak(how: 'ornament' | 'space', sentence: string | null = null): void {
    const last = this.out[this.out.length - 1];
    if (last === undefined || last.type === sceneBreak) return;
    this.maker.countBreak(how);
    const id = this.maker.blockId();
    const kind = how === 'space' ? 'blank-scene-break' : 'scene-break';
    if (sentence !== null) this.maker.remarks.add(id, kind, sentence);
    this.out.push(sceneBreak.create({ id, mark: how === 'space' ? 'space' : null }));
  }

  /** A motto between heading and text: a few lines set apart, with their source. */
  private writeEpigraph(): void {
    const { items } = this.content;
    const styled = (item: Item | undefined): boolean =>
      item?.kind === 'line' && /epigraph|motto/i.test(item.source.style ?? '');
    let end = 0;
    while (end < Math.min(items.length, 6) && styled(items[end])) end++;
    const isStyled = end > 0;
    if (!isStyled) end = this.epigraphByLook();
    if (end === 0 || end >= items.length) return;
    const lines = items.slice(0, end).filter((item): item is Line => item.kind === 'line');
    const source = isAttribution(lines[lines.length - 1]) && lines.length > 1 ? lines.pop() : undefined;
    const body = this.epigraphBody(lines);
    if (body === null) return;
    const tail = source === undefined ? [] : [this.maker.attribution(source)];
    const id = this.maker.blockId();
    this.maker.remarks.add(id, 'epigraph', epigraphSentence(isStyled));
    this.out.push(epigraph.create({ id }, [...body, ...tail]));
    this.at = end;
  }

  /** Where an attribution ends the first few lines, all of them set apart from the text. */
  private epigraphByLook(): number {
    const { items, base } = this.content;
    for (let at = 1; at < Math.min(items.length, 8); at++) {
      const item = items[at];
      if (item?.kind !== 'line' || this.forms[at] === 'break') return 0;
      if (!isAttribution(item)) continue;
      const apart = items.slice(0, at).every((each, index) => {
        const form = this.forms[index];
        if (each.kind !== 'line' || each.words > 90) return false;
        return form === 'quote' || form === 'verse' || (each.italic && !base.italic) || each.centred || each.atEnd;
      });
      return apart ? at + 1 : 0;
    }
    return 0;
  }

  private epigraphBody(lines: readonly Line[]): readonly Node[] | null {
    if (lines.length > 1 && lines.every((line) => line.plain.length <= 72) && this.forms[0] === 'verse') {
      return [verseNode(lines, null, this.content.base, this.maker)];
    }
    const nodes = lines.flatMap((line, at) =>
      this.forms[at] === 'verse'
        ? [verseNode([line], null, this.content.base, this.maker)]
        : this.maker.paragraphs(line),
    );
    const fits = nodes.every((node) => node.type === schema.nodes.paragraph || node.type === schema.nodes.verse);
    return fits ? nodes : null;
  }
}
