/**
 * What stands around the text without being in it: blocks that only some editions hold, hits of a search, places that
 * findings speak of. In: a section and those lists; out: decorations of ProseMirror.
 */
import type { Node } from 'prosemirror-model';
import { Plugin, PluginKey } from 'prosemirror-state';
import { Decoration, DecorationSet } from 'prosemirror-view';
import { isTyping } from './edits.ts';

/** A stretch of the text in positions of the section. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Marked {
  readonly hits: readonly Stretch[];
  /** The hit that is looked at. */
  readonly current: number;
  /** Blocks that findings speak of, by id, with how grave the gravest is. */
  readonly found: ReadonlyMap<string, 'error' | 'warning' | 'note'>;
}

export const NOTHING_MARKED: Marked = { hits: [], current: -1, found: new Map() };

interface Shown extends Marked {
  readonly decorations: DecorationSet;
}

export const markedKey = new PluginKey<Shown>('marked');

/** @param limited the words for a block that only some editions hold. */
export function decorationsPlugin(limited: (editions: readonly string[]) => string): Plugin {
  return new Plugin<Shown>({
    key: markedKey,
    state: {
      init: (_, { doc }) => shownIn(doc, NOTHING_MARKED, limited),
      apply: (transaction, shown) => {
        const given = transaction.getMeta(markedKey) as Marked | undefined;
        if (given) return shownIn(transaction.doc, given, limited);
        if (!transaction.docChanged) return shown;
        const hits = movedHits(shown.hits, transaction);
        if (!isTyping(transaction)) return shownIn(transaction.doc, { ...shown, hits }, limited);
        const decorations = shown.decorations.map(transaction.mapping, transaction.doc);
        return { hits, current: shown.current, found: shown.found, decorations };
      },
    },
    props: { decorations: (state) => markedKey.getState(state)?.decorations },
  });
}

function shownIn(section: Node, marked: Marked, limited: (editions: readonly string[]) => string): Shown {
  const { hits, current, found } = marked;
  const all = [...blockMarks(section, marked, limited), ...hitMarks(marked)];
  return { hits, current, found, decorations: DecorationSet.create(section, all) };
}

function movedHits(hits: Marked['hits'], { mapping }: { readonly mapping: { map(at: number): number } }) {
  return hits.length === 0 ? hits : hits.map(({ from, to }) => ({ from: mapping.map(from), to: mapping.map(to) }));
}

function blockMarks(section: Node, { found }: Marked, limited: (editions: readonly string[]) => string): Decoration[] {
  const marks: Decoration[] = [];
  section.forEach((block, at) => {
    const editions = block.attrs['editions'] as readonly string[] | null | undefined;
    const finding = found.get(String(block.attrs['id']));
    if (!editions && !finding) return;
    const classes = [editions ? 'limited' : '', finding ? `found found-${finding}` : ''].filter(Boolean).join(' ');
    marks.push(
      Decoration.node(at, at + block.nodeSize, { class: classes, ...(editions ? { title: limited(editions) } : {}) }),
    );
  });
  return marks;
}

function hitMarks({ hits, current }: Marked): Decoration[] {
  return hits
    .filter(({ from, to }) => to > from)
    .map(({ from, to }, at) => Decoration.inline(from, to, { class: at === current ? 'hit current' : 'hit' }));
}
