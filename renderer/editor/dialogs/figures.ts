/** Figures in the text that is edited. In: what a figure is to be; out: one change of the section. */
import type { AssetId } from '#base';
import { schema } from '#book';
import type { FigureWish } from '#design';
import type { SectionEditor } from '../sectionEditor.ts';
import { insertBlock, insertBlockAt } from '../text/commands.ts';
import { blockAt } from '../text/places.ts';

export interface FigureAttrs extends FigureWish {
  readonly asset: AssetId;
  readonly alt: string;
  readonly decorative: boolean;
}

export interface FigurePut {
  readonly caption: boolean;
  /** What was done to the book under this word is undone with it; null where nothing was. */
  readonly merge: string | null;
  /** A place of the text that it goes to: before or after the block there, whichever is nearer; null at the cursor. */
  readonly at: number | null;
}

/** Puts a new figure in. */
export function putFigure(editor: SectionEditor, attrs: FigureAttrs, { caption, merge, at }: FigurePut): void {
  const figure = schema.nodes.figure.create({ ...attrs }, caption ? schema.nodes.caption.create() : null);
  editor.run(at === null ? insertBlock(figure) : insertBlockAt(figure, at), merge);
}

/** Makes a figure what it is to be, with or without a caption. */
export function setFigure(
  editor: SectionEditor,
  id: string,
  attrs: FigureAttrs,
  { caption, merge }: Omit<FigurePut, 'at'>,
): void {
  editor.run((state, dispatch) => {
    const found = blockAt(state.doc, id);
    if (!found) return false;
    const { node, at } = found;
    const tr = state.tr;
    for (const [name, value] of Object.entries(attrs)) tr.setNodeAttribute(at, name, value);
    if (caption && node.childCount === 0) tr.insert(at + 1, schema.nodes.caption.create());
    if (!caption && node.childCount > 0) tr.delete(at + 1, at + node.nodeSize - 1);
    dispatch?.(tr);
    return true;
  }, merge);
}
