/** Tables and frames. In: raw blocks outside the flow; out: table and set-off nodes that keep every word of them. */
import type { Node } from 'prosemirror-model';
import { schema } from '#book';
import type { RawBlock, RawTable } from '../../raw.ts';
import type { Maker } from './maker.ts';

const { table, tableRow, tableCell, setOff, paragraph } = schema.nodes;

/** The table, followed by the pictures of its cells, which the schema keeps outside. */
export function tableNodes(raw: RawTable, maker: Maker): readonly Node[] {
  const figures: Node[] = [];
  const rows = raw.rows.map((cells) =>
    tableRow.create(
      { id: maker.blockId() },
      cells.map((blocks) => tableCell.create({ id: maker.blockId() }, cellContent(blocks, figures, maker))),
    ),
  );
  const filled = rows.filter((row) => row.childCount > 0);
  if (filled.length === 0 || filled.every((row) => row.textContent.trim() === '')) return figures;
  return [table.create({ id: maker.blockId() }, filled), ...figures];
}

function cellContent(blocks: readonly RawBlock[], figures: Node[], maker: Maker): readonly Node[] {
  const nodes = flat(blocks, maker);
  figures.push(...nodes.filter((node) => node.type !== paragraph));
  const kept = nodes.filter((node) => node.type === paragraph);
  return kept.length > 0 ? kept : [paragraph.create({ id: maker.blockId() })];
}

/** Paragraphs and figures in reading order, however deep they stood. */
function flat(blocks: readonly RawBlock[], maker: Maker): readonly Node[] {
  return blocks.flatMap((block): readonly Node[] => {
    if (block.kind === 'paragraph') return maker.plain(block, true);
    if (block.kind === 'frame') return flat(block.blocks, maker);
    return block.rows.flatMap((cells) => cells.flatMap((cell) => flat(cell, maker)));
  });
}

/** A frame's text as a sign set off from the text; a frame of pictures alone as figures. */
export function frameNodes(blocks: readonly RawBlock[], maker: Maker): readonly Node[] {
  const nodes = flat(blocks, maker);
  if (!nodes.some((node) => node.type === paragraph)) return nodes;
  return [setOff.create({ id: maker.blockId(), form: 'sign' }, nodes)];
}
