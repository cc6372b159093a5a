/**
 * Blocks as XHTML. In: the blocks of a section, a note or a container; out: elements in reading order, each with its
 * block's id. Looks are classes only; what they look like is the style sheet's affair.
 */
import type { Node } from 'prosemirror-model';
import { flatText } from '#book';
import type { FileContext } from './context.ts';
import { headingText, renderInline } from './inline.ts';
import { leadInEnd } from './leadin.ts';
import { attributes, escapeText } from './xml.ts';

export interface BlockOptions {
  /** Whether the first paragraph opens a section and so carries the design's lead-in. */
  readonly opens: boolean;
  /** Rank of a subhead of level 1: 2 under an `h1`. */
  readonly rank: number;
  /** True on a page that is an epigraph as a whole. */
  readonly inEpigraph?: boolean;
}

/** All blocks of a container, in order. */
export function renderBlocks(blocks: readonly Node[], file: FileContext, options: BlockOptions): string {
  return new BlockWriter(file, options).writeAll(blocks);
}

class BlockWriter {
  /** How many of the next paragraphs stand flush: one after a heading or a break. */
  private flush = 1;
  private opens: boolean;
  /** Rank of the last subhead, so that none is skipped (FACTS A-12). */
  private lastRank: number;

  constructor(
    private readonly file: FileContext,
    private readonly options: BlockOptions,
  ) {
    this.opens = options.opens;
    this.lastRank = options.rank - 1;
  }

  writeAll(blocks: readonly Node[]): string {
    let out = '';
    for (const block of blocks) out += this.write(block);
    return out;
  }

  private write(block: Node): string {
    switch (block.type.name) {
      case 'paragraph':
        return this.paragraph(block);
      case 'heading':
        return this.heading(block);
      case 'sceneBreak':
        return this.sceneBreak(block);
      case 'attribution':
        return this.line(block, 'attribution');
      case 'verse':
        return this.verse(block);
      case 'list':
        return this.list(block);
      case 'figure':
        return this.figure(block);
      case 'table':
        return this.table(block);
      case 'quotation':
        return this.container(block, 'blockquote', { class: 'quotation' });
      case 'epigraph':
        return this.container(block, 'blockquote', {
          class: 'epigraph',
          // Inside an epigraph page the page itself is the epigraph.
          'epub:type': this.options.inEpigraph ? null : 'epigraph',
          role: this.options.inEpigraph ? null : 'doc-epigraph',
        });
      case 'setOff':
        return this.container(block, 'div', { class: `set-off ${String(block.attrs['form'])}` });
      default:
        throw new RangeError(`unexpected block ${block.type.name}`);
    }
  }

  private paragraph(block: Node): string {
    const align = block.attrs['align'] as string | null;
    const leadIn = this.opens && align === null ? this.leadInOf(block) : 0;
    const { kind } = this.file.book.design.leadIn;
    const opening = this.opens && align === null && (kind === 'dropCap' || kind === 'firstLine');
    const name =
      align === null ? `${this.flush > 0 ? 'first' : ''}${opening ? ' opening' : ''}`.trim() : `align-${align}`;
    this.flush = Math.max(0, this.flush - 1);
    this.opens = false;
    const start = `<p${this.file.idAttribute(block.attrs['id'])}${name === '' ? '' : ` class="${name}"`}>`;
    return `${start}${renderInline(block, this.file, { leadIn })}</p>\n`;
  }

  private leadInOf(block: Node): number {
    return this.file.book.design.leadIn.kind === 'smallCapitals' ? leadInEnd(flatText(block)) : 0;
  }

  private heading(block: Node): string {
    const level = Number(block.attrs['level']);
    const rank = Math.min(this.options.rank + level - 1, this.lastRank + 1, 6);
    this.lastRank = rank;
    this.flush = 1;
    this.opens = false;
    const { before, text } = headingText(block, this.file);
    return `${before}<h${rank}${this.file.idAttribute(block.attrs['id'])} class="subhead-${level}">${text}</h${rank}>\n`;
  }

  /** The class keeps what the text asks for; what is seen is the style sheet's affair. */
  private sceneBreak(block: Node): string {
    const mark = (block.attrs['mark'] as string | null) ?? this.file.book.design.sceneBreak.mark;
    this.flush = 1;
    this.opens = false;
    const pages = this.file.pageBreaksAt(block.attrs['id']);
    return `${pages}<hr${this.file.idAttribute(block.attrs['id'])} class="scene-break ${mark}"/>\n`;
  }

  private line(block: Node, name: string): string {
    return `<p${this.file.idAttribute(block.attrs['id'])} class="${name}">${renderInline(block, this.file)}</p>\n`;
  }

  private container(block: Node, element: string, values: Readonly<Record<string, string | null>>): string {
    this.flush = 0;
    this.opens = this.opens && block.type.name === 'epigraph';
    if (this.opens) this.flush = 1;
    const id = this.file.idAttribute(block.attrs['id']);
    const pages = this.file.pageBreaksAt(block.attrs['id']);
    const inside = this.inner(flushAtHeadOf(block)).writeAll(block.children);
    return `<${element}${id}${attributes(values)}>\n${pages}${inside}</${element}>\n`;
  }

  /** A writer for what stands inside a container: flush at its beginning, no lead-in. */
  private inner(flushParagraphs = 1): BlockWriter {
    const inner = new BlockWriter(this.file, { opens: false, rank: this.lastRank + 1 });
    inner.flush = flushParagraphs;
    return inner;
  }

  private verse(block: Node): string {
    this.flush = 0;
    this.opens = false;
    let out = `<div${this.file.idAttribute(block.attrs['id'])} class="verse">\n${this.file.pageBreaksAt(block.attrs['id'])}`;
    block.forEach((child) => {
      out += child.type.name === 'stanza' ? this.stanza(child) : this.line(child, 'attribution');
    });
    return `${out}</div>\n`;
  }

  private stanza(stanza: Node): string {
    let out = `<div${this.file.idAttribute(stanza.attrs['id'])} class="stanza">\n${this.file.pageBreaksAt(stanza.attrs['id'])}`;
    stanza.forEach((line) => {
      const indent = Math.max(0, Math.min(8, Math.round(Number(line.attrs['indent']) || 0)));
      out += this.line(line, indent === 0 ? 'line' : `line indent-${indent}`);
    });
    return `${out}</div>\n`;
  }

  private list(block: Node): string {
    this.flush = 0;
    this.opens = false;
    const ordered = block.attrs['ordered'] === true;
    const start = Number(block.attrs['start']);
    const element = ordered ? 'ol' : 'ul';
    const from = ordered && Number.isInteger(start) && start !== 1 ? ` start="${start}"` : '';
    let out = `${this.file.pageBreaksAt(block.attrs['id'])}<${element}${this.file.idAttribute(block.attrs['id'])}${from}>\n`;
    block.forEach((item) => {
      const pages = this.file.pageBreaksAt(item.attrs['id']);
      const inside = this.inner().writeAll(item.children);
      out += `<li${this.file.idAttribute(item.attrs['id'])}>${pages}${inside}</li>\n`;
    });
    return `${out}</${element}>\n`;
  }

  /** A figure at the head of a section leaves the opening to the paragraph that follows. */
  private figure(block: Node): string {
    const id = this.file.idAttribute(block.attrs['id']);
    const pages = this.file.pageBreaksAt(block.attrs['id']);
    const caption = block.firstChild;
    const words =
      caption === null
        ? ''
        : `<figcaption${this.file.idAttribute(caption.attrs['id'])}>${renderInline(caption, this.file)}</figcaption>\n`;
    return `<figure${id}>\n${pages}${this.image(block)}${words}</figure>\n`;
  }

  /** The picture itself, or its description where an ebook cannot show it. */
  private image(block: Node): string {
    const { pictures } = this.file.book;
    const alt = String(block.attrs['alt']).trim();
    const decorative = block.attrs['decorative'] === true;
    const picture = pictures.use(String(block.attrs['asset']));
    if (picture === null) return alt === '' || decorative ? '' : `<p class="missing">[${escapeText(alt)}]</p>\n`;
    if (!decorative) pictures.countInformative(alt !== '');
    const width = shareOf(block.attrs['width']);
    const values = {
      src: `../${picture.path}`,
      alt: decorative ? '' : alt,
      role: decorative ? 'presentation' : null,
      style: width === null ? null : `width: ${width}%`,
    };
    return `<img${attributes(values)}/>\n`;
  }

  private table(block: Node): string {
    this.flush = 0;
    this.opens = false;
    const rows = block.children;
    let heads = 0;
    while (heads < rows.length - 1 && rows[heads]?.attrs['header'] === true) heads++;
    const head = rows.slice(0, heads).map((row) => this.row(row, true));
    const body = rows.slice(heads).map((row) => this.row(row, row.attrs['header'] === true));
    const start = `${this.file.pageBreaksAt(block.attrs['id'])}<table${this.file.idAttribute(block.attrs['id'])}>\n`;
    const thead = head.length === 0 ? '' : `<thead>\n${head.join('')}</thead>\n`;
    return `${start}${thead}<tbody>\n${body.join('')}</tbody>\n</table>\n`;
  }

  private row(row: Node, header: boolean): string {
    const id = this.file.idAttribute(row.attrs['id']);
    let pages = this.file.pageBreaksAt(row.attrs['id']);
    const element = header ? 'th' : 'td';
    let out = `<tr${id}>\n`;
    row.forEach((cell) => {
      pages += this.file.pageBreaksAt(cell.attrs['id']);
      const inside = this.inner().writeAll(cell.children);
      const cellId = this.file.idAttribute(cell.attrs['id']);
      out += `<${element}${cellId}${header ? ' scope="col"' : ''}>${pages}${inside}</${element}>\n`;
      pages = '';
    });
    return `${out}</tr>\n`;
  }
}

/** A salutation is no longer than this. */
const SALUTATION = 60;

/** Paragraphs at the head of a container that stand flush: of a letter all down to the salutation, else the first. */
function flushAtHeadOf(block: Node): number {
  const isLetter = block.type.name === 'quotation' || block.attrs['form'] === 'letter';
  if (!isLetter) return 1;
  const salutation = block.children
    .slice(0, 5)
    .findIndex((child) => child.textContent.length <= SALUTATION && /[,:\uFF0C]\s*$/.test(child.textContent));
  return Math.max(1, salutation + 1);
}

/** A share of the measure in whole percent, or null for the picture's own size. */
function shareOf(width: unknown): number | null {
  if (typeof width !== 'number' || !(width > 0)) return null;
  return Math.max(1, Math.min(100, Math.round(width * 100)));
}
