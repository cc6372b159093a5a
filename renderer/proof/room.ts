/**
 * What the proofs of a window share. In: the workbench; out: view, ebook, pictures and painters, made
 * once for each workbench.
 */
import type { AssetId } from '#base';
import { EbookStore } from '../state/ebookStore.ts';
import type { Workbench } from '../state/index.ts';
import { GlyphAtlas } from './atlas.ts';
import { PagePainter } from './painter.ts';
import { PictureShelf } from './pictures.ts';
import { ViewStore } from './viewStore.ts';

export interface ProofRoom {
  readonly view: ViewStore;
  readonly ebook: EbookStore;
  /** For spreads. */
  readonly painter: PagePainter;
  /** For leaves: pages in small, whose glyphs have a sheet of their own. */
  readonly leafPainter: PagePainter;
  /** Hears of pictures that have arrived until the returned function is called. */
  onPicture(listener: () => void): () => void;
  /** Where a picture of the open book is. */
  addressOf(asset: AssetId): string | null;
}

const rooms = new WeakMap<Workbench, ProofRoom>();

/** The room of a workbench. */
export function proofRoom(workbench: Workbench): ProofRoom {
  const known = rooms.get(workbench);
  if (known) return known;
  const room = newRoom(workbench);
  rooms.set(workbench, room);
  return room;
}

function newRoom(workbench: Workbench): ProofRoom {
  const { books, place, link, layout } = workbench;
  const listeners = new Set<() => void>();
  const addressOf = (asset: AssetId): string | null => {
    const session = books.get()?.session;
    return session === undefined ? null : `asset/${encodeURIComponent(session)}/${encodeURIComponent(asset)}`;
  };
  const shelf = new PictureShelf(addressOf, () => {
    for (const listener of [...listeners]) listener();
  });
  const view = new ViewStore();
  books.onOpen(() => view.begin());
  return {
    view,
    ebook: new EbookStore({ books, place, link, after }),
    painter: new PagePainter(new GlyphAtlas(layout.glyphs), shelf.picture),
    leafPainter: new PagePainter(new GlyphAtlas(layout.glyphs), shelf.picture),
    onPicture: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    addressOf,
  };
}

function after(milliseconds: number, call: () => void): () => void {
  const timer = setTimeout(call, milliseconds);
  return () => clearTimeout(timer);
}
