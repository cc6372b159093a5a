/** Verse. In: lines, each a line of verse or several parted by soft returns; out: a verse node with its stanzas. */
import type { Node } from 'prosemirror-model';
import { schema } from '#book';
import type { Base } from '../collect/base.ts';
import type { Line } from '../collect/lines.ts';
import { type Rich, slice } from '../collect/rich.ts';
import type { Maker } from './maker.ts';

interface VerseLine {
  readonly rich: Rich;
  /** Tabs or their worth in spaces before it. */
  readonly depth: number;
  /** It begins a stanza. */
  readonly opens: boolean;
}

const { verse, stanza, verseLine } = schema.nodes;

/** The deepest step of indentation that the schema knows. */
const DEEPEST = 8;

export function verseNode(lines: readonly Line[], source: Line | null, base: Base, maker: Maker): Node {
  const all = lines.flatMap((line, at) => piecesOf(line, at > 0 && line.gap > base.gap));
  const shallowest = Math.min(...all.map((each) => each.depth));
  const stanzas: Node[] = [];
  let current: Node[] = [];
  const close = (): void => {
    if (current.length > 0) stanzas.push(stanza.create({ id: maker.blockId() }, current));
    current = [];
  };
  for (const each of all) {
    if (each.opens) close();
    const indent = Math.min(DEEPEST, each.depth - shallowest);
    current.push(verseLine.create({ id: maker.blockId(), indent }, [...maker.text(each.rich)]));
  }
  close();
  const tail = source === null ? [] : [maker.attribution(source)];
  return verse.create({ id: maker.blockId() }, [...stanzas, ...tail]);
}

function piecesOf(line: Line, opens: boolean): readonly VerseLine[] {
  const pieces: VerseLine[] = [];
  let from = 0;
  let blank = opens;
  const base = Math.round(line.source.indentStart / 36);
  for (const text of line.rich.text.split('\n')) {
    const rich = slice(line.rich, from, from + text.length);
    from += text.length + 1;
    if (text.trim() === '') {
      blank = true;
      continue;
    }
    pieces.push({ rich, depth: base + depthOf(text), opens: blank });
    blank = false;
  }
  return pieces;
}

function depthOf(text: string): number {
  const lead = /^[\t \u00a0\u2002\u2003]*/.exec(text)?.[0] ?? '';
  const tabs = lead.split('\t').length - 1;
  const spaces = lead.replaceAll('\t', '').length;
  return tabs + (/[\u2002\u2003]/.test(lead) ? Math.ceil(spaces / 2) : Math.floor(spaces / 4));
}
