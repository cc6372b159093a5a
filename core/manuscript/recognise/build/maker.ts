/**
 * Makes the text blocks of a book. In: lines; out: paragraphs, figures and the like, tidied, with fresh ids; what was
 * cleaned up on the way is counted.
 */
import type { Node } from 'prosemirror-model';
import { type AssetId, IdSource } from '#base';
import { type Asset, schema } from '#book';
import type { RawParagraph } from '../../raw.ts';
import type { Base } from '../collect/base.ts';
import { type Line, lineOf } from '../collect/lines.ts';
import { join, type Rich, trim, withCapitals } from '../collect/rich.ts';
import { titleCase, wordCase } from '../tidy/capitals.ts';
import type { Tidier } from '../tidy/tidier.ts';
import { type InlineContext, inlineNodes, joinEmphasis, type Picture, plainTitle } from './inline.ts';
import { linkSentence, Remarks, softReturnSentence } from './remarks.ts';
import type { GapHabits } from './sceneBreaks.ts';
import { partAtSoftReturns } from './softReturns.ts';

export interface MakerInput {
  readonly base: Base;
  readonly tidier: Tidier;
  /** Primary language of the book. */
  readonly language: string;
  readonly markLanguages: boolean;
  readonly assets: ReadonlyMap<AssetId, Asset>;
  readonly habits: GapHabits;
  /** Pictures that stand between scenes again and again. */
  readonly separators: ReadonlySet<AssetId>;
}

/** The width of the text on the page of a manuscript: 8.5 in less margins of 1 in. */
const MANUSCRIPT_MEASURE = 468;

export class Maker {
  private readonly blockIds = new IdSource('b');
  private readonly pictures: Picture[] = [];
  private readonly inline: InlineContext;
  readonly breaks = { ornament: 0, space: 0 };
  /** What was decided at places. */
  readonly remarks = new Remarks();
  droppedLinks = 0;

  constructor(private readonly input: MakerInput) {
    this.inline = {
      noteIds: new IdSource('n'),
      noteBlocks: (paragraphs) => this.noteBlocks(paragraphs),
      language: input.language,
      markLanguages: input.markLanguages,
      onPicture: (picture) => this.pictures.push(picture),
      onDroppedLink: () => {
        this.droppedLinks++;
      },
    };
  }

  get habits(): GapHabits {
    return this.input.habits;
  }

  blockId(): string {
    return this.blockIds.take();
  }

  countBreak(how: 'ornament' | 'space'): void {
    this.breaks[how]++;
  }

  /** A picture that the author uses as a scene break. */
  isSeparator(line: Line): boolean {
    return line.rich.leaves.every((leaf) => leaf.kind === 'image' && this.input.separators.has(leaf.asset));
  }

  /** The paragraphs of a line, and its pictures as figures. */
  paragraphs(line: Line, keepLines = false): readonly Node[] {
    const parted = keepLines ? { parts: [line.rich], joined: 0, split: 0 } : partAtSoftReturns(line);
    this.input.tidier.count('soft-return', parted.joined + parted.split);
    const align = this.alignOf(line);
    const nodes = parted.parts.flatMap((part) => this.paragraph(part, align));
    const sentence = softReturnSentence(parted);
    if (sentence !== null && nodes[0]) this.remarks.add(idOf(nodes[0]), 'soft-return', sentence);
    return nodes;
  }

  private paragraph(rich: Rich, align: 'center' | 'end' | null): readonly Node[] {
    const links = this.droppedLinks;
    const content = this.text(rich);
    const figures = this.takeFigures();
    if (content.length === 0) return figures;
    const node = schema.nodes.paragraph.create({ id: this.blockId(), align }, [...content]);
    const dropped = this.droppedLinks - links;
    if (dropped > 0) this.remarks.add(idOf(node), 'link', linkSentence(dropped));
    return rich.text.trimStart().startsWith('\ufffc') && figures.length > 0 ? [...figures, node] : [node, ...figures];
  }

  private alignOf(line: Line): 'center' | 'end' | null {
    if (line.centred && !this.input.base.centred) return 'center';
    return line.atEnd ? 'end' : null;
  }

  /** Tidied inline nodes of running text or verse. */
  text(rich: Rich): readonly Node[] {
    return inlineNodes(joinEmphasis(this.input.tidier.tidy(withCapitals(rich))), this.inline);
  }

  /** The inline nodes of a heading made of one or two lines. */
  heading(lines: readonly Line[]): readonly Node[] {
    return this.title(
      join(
        lines.map((line) => trim(line.rich)),
        ': ',
      ),
    );
  }

  /** A title: without the looks that all of it has. */
  title(rich: Rich): readonly Node[] {
    return inlineNodes(joinEmphasis(plainTitle(this.inTitleCase(this.input.tidier.tidy(rich)))), this.inline);
  }

  /** Capitals typed throughout a title are the design's affair. */
  private inTitleCase(rich: Rich): Rich {
    const { tidier, language } = this.input;
    if (!tidier.on('capitals')) return rich;
    const text = language === 'en' ? titleCase(rich.text) : wordCase(rich.text);
    if (text === rich.text || text.length !== rich.text.length) return rich;
    tidier.count('capitals', 1);
    return { ...rich, text };
  }

  attribution(line: Line): Node {
    const id = this.blockId();
    return schema.nodes.attribution.create({ id }, [...this.text(line.rich)]);
  }

  /** The pictures met since the last call, as figures. */
  takeFigures(): readonly Node[] {
    const figures = this.pictures.map((picture) => this.figure(picture));
    this.pictures.length = 0;
    return figures;
  }

  private figure(picture: Picture): Node {
    const share =
      picture.width === null ? null : Math.min(1, Math.round((picture.width / MANUSCRIPT_MEASURE) * 100) / 100);
    const attributes = {
      id: this.blockId(),
      asset: picture.asset,
      alt: picture.alt,
      width: share === 0 ? null : share,
    };
    return schema.nodes.figure.create(attributes);
  }

  /** The last figure with the caption that follows it. */
  withCaption(blocks: readonly Node[], line: Line): readonly Node[] {
    const at = blocks.findLastIndex((node) => node.type === schema.nodes.figure);
    if (at === -1) return [...blocks, ...this.paragraphs(line)];
    const caption = schema.nodes.caption.create({ id: this.blockId() }, [...this.text(line.rich)]);
    return blocks.map((node, index) => (index === at ? node.type.create(node.attrs, caption) : node));
  }

  /** A raw paragraph outside the flow (note, cell, frame) as paragraphs and figures. */
  plain(paragraph: RawParagraph, keepLines = false): readonly Node[] {
    const line = lineOf(paragraph, paragraph.inlines, { gap: 0, page: false, rule: false });
    return line === null ? [] : this.paragraphs(line, keepLines);
  }

  private noteBlocks(paragraphs: readonly RawParagraph[]): readonly Node[] {
    const held = this.pictures.splice(0);
    const nodes = paragraphs.flatMap((each) => this.plain(each)).filter((node) => node.type === schema.nodes.paragraph);
    this.pictures.splice(0);
    this.pictures.push(...held);
    return nodes.length > 0 ? nodes : [schema.nodes.paragraph.create({ id: this.blockId() })];
  }
}

export function idOf(node: Node): string {
  return String(node.attrs['id']);
}

/** The line shows pictures and no words. */
export function isPictureOnly(line: Line): boolean {
  return line.images > 0 && line.plain === '';
}
