/**
 * From a text block to styled text. In: a node of the view and a look; out: spans over the node's flat text, the same
 * object for the same node and look, whatever its size, because the setter keeps its work by that identity.
 */
import type { Mark, Node } from 'prosemirror-model';
import type { BlockId, NoteId, SectionId } from '#base';
import type { Look } from '#design';
import type { Span, StyledText } from '#paragraph';
import type { Styler, TextLook } from './styler.ts';

/** Another look for the first characters of a block. */
export interface LeadIn {
  /** Of the same size as the text. */
  readonly look: Look;
  /** Characters of flat text that it covers. */
  readonly length: number;
}

export interface SpanRequest {
  readonly node: Node;
  readonly look: Look;
  /** The number of a note, by id. */
  readonly numberOf: (note: NoteId) => number;
  readonly leadIn?: LeadIn | null;
  /** Flat-text characters left out at the start (a drop cap is set apart). */
  readonly skip?: number;
}

/** Generated lines kept for one look: more than a book has, unless it is renamed all day. */
const MOST_LITERALS = 4096;

interface KnownText {
  /** What it depends on besides node and look. */
  readonly key: string;
  readonly leadIn: TextLook | null;
  readonly text: StyledText;
}

export class SpanMaker {
  private readonly known = new WeakMap<Node, Map<TextLook, KnownText>>();
  private readonly literals = new WeakMap<TextLook, Map<string, StyledText>>();

  constructor(private readonly styler: Styler) {}

  /** The styled text of a text block. */
  of(request: SpanRequest): StyledText {
    const key = keyOf(request);
    const look = this.styler.textLook(request.look);
    const leadIn = request.leadIn ? this.styler.textLook(request.leadIn.look) : null;
    const looks = this.known.get(request.node);
    const found = looks?.get(look);
    if (found && found.key === key && found.leadIn === leadIn) return found.text;
    const text = this.make(request);
    const known = { key, leadIn, text };
    if (looks) looks.set(look, known);
    else this.known.set(request.node, new Map([[look, known]]));
    return text;
  }

  /** Styled text that stands nowhere in the book's text: furniture and generated lines. */
  literal(text: string, look: Look, block: BlockId | SectionId): StyledText {
    const textLook = this.styler.textLook(look);
    const known = this.literals.get(textLook) ?? new Map<string, StyledText>();
    this.literals.set(textLook, known);
    const key = `${block} ${text}`;
    const found = known.get(key) ?? this.newLiteral(text, look, block);
    if (known.size >= MOST_LITERALS) known.clear();
    known.set(key, found);
    return found;
  }

  private newLiteral(text: string, look: Look, block: BlockId | SectionId): StyledText {
    const span: Span = { kind: 'text', text, offset: 0, style: this.styler.plain(look), href: null };
    return { block: String(block), spans: [span] };
  }

  /** A block that is emphasised throughout has nothing to stand out from: in an italic look it stays italic. */
  private make(asked: SpanRequest): StyledText {
    const upright = asked.look.italic && isAllEmphasis(asked.node);
    const request = upright ? { ...asked, look: { ...asked.look, italic: false } } : asked;
    const spans: Span[] = [];
    let offset = 0;
    request.node.forEach((child) => {
      this.child(child, offset, request, spans);
      offset += child.isText ? (child.text ?? '').length : 1;
    });
    return { block: String(request.node.attrs['id']), spans };
  }

  private child(child: Node, offset: number, request: SpanRequest, into: Span[]): void {
    if (child.isText) this.text(child, offset, request, into);
    if (child.type.name === 'lineBreak') into.push({ kind: 'lineBreak', offset });
    if (child.type.name === 'note') into.push(this.note(child, offset, request));
  }

  private text(child: Node, offset: number, request: SpanRequest, into: Span[]): void {
    const text = child.text ?? '';
    const from = Math.max(0, (request.skip ?? 0) - offset);
    const lead = request.leadIn ? Math.min(text.length, Math.max(from, request.leadIn.length - offset)) : from;
    if (request.leadIn) this.push(into, child, text.slice(from, lead), offset + from, request.leadIn.look);
    this.push(into, child, text.slice(lead), offset + lead, request.look);
  }

  private push(into: Span[], child: Node, text: string, offset: number, look: Look): void {
    if (text === '') return;
    into.push({ kind: 'text', text, offset, style: this.styler.style(look, child.marks), href: hrefOf(child.marks) });
  }

  private note(child: Node, offset: number, request: SpanRequest): Span {
    const note = String(child.attrs['id']);
    const text = String(request.numberOf(note));
    return { kind: 'noteMark', text, offset, style: this.styler.noteMark(request.look), note };
  }
}

function isAllEmphasis(node: Node): boolean {
  const texts = node.children.filter((child) => child.isText);
  return texts.length > 0 && texts.every((child) => child.marks.some((mark) => mark.type.name === 'emphasis'));
}

/** What the spans depend on besides the node and the look. */
function keyOf({ node, numberOf, leadIn, skip }: SpanRequest): string {
  let key = leadIn ? `${leadIn.length}` : '';
  if (skip) key += `/${skip}`;
  for (let index = 0; index < node.childCount; index++) {
    const child = node.child(index);
    if (child.type.name === 'note') key += `#${numberOf(String(child.attrs['id']))}`;
  }
  return key;
}

function hrefOf(marks: readonly Mark[]): string | null {
  const link = marks.find((mark) => mark.type.name === 'link');
  return link ? String(link.attrs['href']) : null;
}
