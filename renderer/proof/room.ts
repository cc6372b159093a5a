/**
 * What the proofs of a window share. In: the workbench; out: view, ebook, pictures and painters, made
 * once for each workbench.
 */
import type { AssetId } from '#base';
import type { ProofLook } from '#host';
import { EbookStore } from '../state/ebookStore.ts';
import { type SettingsStore, Store, type Workbench } from '../state/index.ts';
import { GlyphAtlas } from './atlas.ts';
import { PagePainter } from './painter.ts';
import { BroughtPictures, PictureShelf } from './pictures.ts';
import { ViewStore } from './viewStore.ts';

export interface ProofRoom {
  readonly view: ViewStore;
  /** How large the spread is shown, in per cent of the printed size. */
  readonly size: SizeStore;
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

/** What the spread came to: a size that fits the room is known only to who has laid it out. */
export class SizeStore extends Store<number> {
  constructor() {
    super(100);
  }

  readonly is = (percent: number): void => {
    if (percent !== this.get()) this.become(percent);
  };
}

/** Milliseconds that a look has to hold to be remembered. */
const LASTING = 400;

/** Remembers how the proofs are looked at once it has come to rest. */
function keepLooks(view: ViewStore, settings: SettingsStore): void {
  let stop: (() => void) | null = null;
  view.subscribe(() => {
    stop?.();
    stop = after(LASTING, () => {
      if (!sameData(view.looks, settings.get().proof)) settings.set({ proof: view.looks });
    });
  });
}

/** Looks are made in one place, with their parts in one order. */
function sameData(one: ProofLook, other: ProofLook): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
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
  const { books, place, link, layout, settings } = workbench;
  const listeners = new Set<() => void>();
  const brought = new BroughtPictures();
  const addressOf = (asset: AssetId): string | null => {
    const open = books.get();
    if (!open) return null;
    const own = brought.addressOf(open.book.assets.get(asset));
    return own ?? `asset/${encodeURIComponent(open.session)}/${encodeURIComponent(asset)}`;
  };
  const shelf = new PictureShelf(addressOf, () => {
    for (const listener of [...listeners]) listener();
  });
  const view = new ViewStore(settings.get().proof);
  keepLooks(view, settings);
  books.onOpen(() => view.begin());
  return {
    view,
    size: new SizeStore(),
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
