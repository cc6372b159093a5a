/** Changes made from places in the text. In: a Book, a block and offsets; out: the Change that replaces the text there. */
import { Fragment, type Node, Slice } from 'prosemirror-model';
import { ReplaceStep } from 'prosemirror-transform';
import type { BlockId, SectionId } from '#base';
import type { Book, Json } from '../book.ts';
import type { Change } from '../change.ts';
import { schema } from '../schema.ts';

export interface TextReplacement {
  readonly section: SectionId;
  readonly block: BlockId;
  /** Offsets into the block's flat text (see `Anchor`). */
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** The change that replaces a stretch of a text block; the new text has the marks of what it replaces. */
export function replaceText(book: Book, wanted: TextReplacement): Change | null {
  const section = book.text.children.find((each) => each.attrs['id'] === wanted.section);
  const found = section ? blockIn(section, wanted.block) : null;
  if (!found) return null;
  const from = found.start + positionIn(found.block, wanted.from);
  const to = found.start + positionIn(found.block, wanted.to);
  const marks = found.block.nodeAt(from - found.start)?.marks ?? [];
  const content = wanted.text === '' ? Fragment.empty : Fragment.from(schema.text(wanted.text, marks));
  const step = new ReplaceStep(from, to, new Slice(content, 0, 0));
  return { kind: 'editText', section: wanted.section, steps: [step.toJSON() as Json] };
}

/** The position inside a text block's content that stands at an offset of its flat text. Throws RangeError beyond it. */
export function positionIn(textblock: Node, offset: number): number {
  let rest = offset;
  let position = 0;
  for (const child of textblock.children) {
    const length = child.isText ? child.nodeSize : 1;
    if (rest < length) return position + (child.isText ? rest : 0);
    rest -= length;
    position += child.nodeSize;
  }
  if (rest !== 0) throw new RangeError(`the text ends before offset ${offset}`);
  return position;
}

/** A text block inside a section and where its content begins, counted inside the section. */
function blockIn(section: Node, id: BlockId): { readonly block: Node; readonly start: number } | null {
  let found: { readonly block: Node; readonly start: number } | null = null;
  section.descendants((node, position) => {
    if (node.isTextblock && node.attrs['id'] === id) found = { block: node, start: position + 1 };
    return found === null;
  });
  return found;
}
