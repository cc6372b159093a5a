/**
 * The text of one block as XHTML. In: a text block; out: its characters with elements for marks, notes and page breaks.
 * Page breaks stand exactly at their offset, inside a word too; offsets count as in `Anchor`.
 */
import type { Mark, Node } from 'prosemirror-model';
import type { FileContext } from './context.ts';
import { externalAddress, internalTarget, languageTag } from './links.ts';
import { elementIdOf } from './names.ts';
import { attributes, escapeAttribute, escapeText } from './xml.ts';

export interface InlineOptions {
  /** Offset at which the lead-in ends; 0 or absent for none. */
  readonly leadIn?: number;
}

const NO_OPTIONS: InlineOptions = {};

/** The content of a text block. */
export function renderInline(node: Node, file: FileContext, options: InlineOptions = NO_OPTIONS): string {
  const block = String(node.attrs['id'] ?? '');
  const breaks = file.book.pages.offsetsIn(block);
  const only = node.childCount === 1 ? node.child(0) : null;
  if (only?.isText && only.marks.length === 0 && breaks === null && !options.leadIn) return escapeText(only.text ?? '');
  return new InlineWriter(file, block, breaks ?? [], options.leadIn ?? 0).write(node);
}

/**
 * The content of a heading, and the page breaks that stand before its first character: those go before the heading, for
 * inside it their labels would become part of its name.
 */
export function headingText(node: Node, file: FileContext): { readonly before: string; readonly text: string } {
  const before = file.firstPageBreaksOf(node);
  return { before, text: renderInline(node, file) };
}

class InlineWriter {
  private out = '';
  private offset = 0;
  private nextBreak = 0;
  private inLeadIn = false;
  private readonly open: { readonly mark: Mark; readonly close: string }[] = [];

  constructor(
    private readonly file: FileContext,
    private readonly block: string,
    private readonly breaks: readonly number[],
    private readonly leadIn: number,
  ) {}

  write(node: Node): string {
    this.writeBreaksAt(0);
    if (this.leadIn > 0) {
      this.out += '<span class="lead-in">';
      this.inLeadIn = true;
    }
    node.forEach((child) => {
      if (child.isText) this.writeText(child.text ?? '', child.marks);
      else this.writeLeaf(child);
    });
    this.closeTo(0);
    this.endLeadIn();
    this.writeBreaksAt(Number.POSITIVE_INFINITY);
    return this.out;
  }

  /** Writes a stretch of text of one look, stopping at each place where something stands between its characters. */
  private writeText(text: string, marks: readonly Mark[]): void {
    let from = 0;
    while (from < text.length) {
      this.writeBreaksAt(this.offset);
      if (this.inLeadIn && this.offset >= this.leadIn) this.endLeadIn();
      const to = whole(text, from, Math.min(text.length, from + this.nextStop() - this.offset));
      this.setMarks(marks);
      this.out += escapeText(text.slice(from, to));
      this.offset += to - from;
      from = to;
    }
  }

  private writeLeaf(leaf: Node): void {
    this.writeBreaksAt(this.offset);
    if (this.inLeadIn && this.offset >= this.leadIn) this.endLeadIn();
    if (leaf.type.name === 'lineBreak') {
      this.setMarks(leaf.marks);
      this.out += '<br/>';
    } else if (leaf.type.name === 'note') {
      // A reference is a link itself and may not stand inside another.
      this.closeTo(0);
      this.out += this.noteReference(String(leaf.attrs['id']));
    }
    this.offset += 1;
  }

  private nextStop(): number {
    const pageBreak = this.breaks[this.nextBreak] ?? Number.POSITIVE_INFINITY;
    return this.inLeadIn ? Math.min(pageBreak, this.leadIn) : pageBreak;
  }

  private writeBreaksAt(offset: number): void {
    while ((this.breaks[this.nextBreak] ?? Number.NaN) <= offset) {
      this.out += this.file.book.pages.write(this.block, this.nextBreak++, this.file.path);
    }
  }

  private endLeadIn(): void {
    if (!this.inLeadIn) return;
    this.closeTo(0);
    this.out += '</span>';
    this.inLeadIn = false;
  }

  /** Closes and opens elements until exactly these marks are open; what both share stays open. */
  private setMarks(marks: readonly Mark[]): void {
    let shared = 0;
    while (shared < this.open.length && shared < marks.length && marks[shared]?.eq(this.open[shared]!.mark)) shared++;
    this.closeTo(shared);
    for (const mark of marks.slice(shared)) {
      const [start, close] = this.elementOf(mark);
      this.out += start;
      this.open.push({ mark, close });
    }
  }

  private closeTo(depth: number): void {
    while (this.open.length > depth) this.out += this.open.pop()?.close ?? '';
  }

  /** Start and end tag of a mark; empty strings for one that says nothing here. */
  private elementOf(mark: Mark): readonly [string, string] {
    switch (mark.type.name) {
      case 'emphasis':
        return ['<em>', '</em>'];
      case 'strong':
        return ['<strong>', '</strong>'];
      case 'smallCaps':
        return ['<span class="small-caps">', '</span>'];
      case 'superscript':
        return ['<sup>', '</sup>'];
      case 'subscript':
        return ['<sub>', '</sub>'];
      case 'strikethrough':
        return ['<s>', '</s>'];
      case 'language':
        return languageElement(String(mark.attrs['tag']));
      case 'link':
        return this.linkElement(String(mark.attrs['href']));
      default:
        throw new RangeError(`unexpected mark ${mark.type.name}`);
    }
  }

  private linkElement(href: string): readonly [string, string] {
    const inside = internalTarget(href);
    const target = inside === null ? undefined : this.file.book.fileOf(inside);
    const address =
      inside === null ? externalAddress(href) : target === undefined ? null : this.file.addressOf(target, inside);
    return address === null ? ['', ''] : [`<a href="${escapeAttribute(address)}">`, '</a>'];
  }

  private noteReference(id: string): string {
    const note = this.file.book.view.notes.get(id);
    if (!note) return '';
    const link = attributes({
      id: referenceIdOf(id),
      href: this.file.addressOf(this.file.book.noteFileOf(note), id),
      'epub:type': 'noteref',
      role: 'doc-noteref',
    });
    return `<sup class="noteref"><a${link}>${note.number}</a></sup>`;
  }
}

/** The element id of the reference to a note. */
export function referenceIdOf(note: string): string {
  return `x-ref-${elementIdOf(note)}`;
}

function languageElement(tag: string): readonly [string, string] {
  const known = languageTag(tag);
  return known === null ? ['', ''] : [`<span${attributes({ lang: known, 'xml:lang': known })}>`, '</span>'];
}

/** Moves the end of a stretch out of the middle of a surrogate pair. */
function whole(text: string, from: number, to: number): number {
  const code = text.charCodeAt(to);
  const splits = to < text.length && code >= 0xdc00 && code <= 0xdfff && isHigh(text.charCodeAt(to - 1));
  return splits || to === from ? to + 1 : to;
}

function isHigh(code: number): boolean {
  return code >= 0xd800 && code <= 0xdbff;
}
