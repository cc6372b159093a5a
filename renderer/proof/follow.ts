/**
 * Who follows whom. In: the place in the text that someone went to; out: the page that shows it. Each proof follows the
 * cursor always, and the other proof while both are kept together.
 */
import type { Anchor, PageIndex } from '#base';
import type { Page } from '#page';
import type { PlaceState, Workbench } from '../state/index.ts';
import { lineOf } from './places.ts';
import type { ProofRoom } from './room.ts';
import { spreadAt, spreadCount, spreadOf } from './spreads.ts';

export const PRINT = 'print proof';
export const EBOOK = 'ebook proof';

/** Whether a proof goes where the place is. */
export function follows(who: typeof PRINT | typeof EBOOK, by: string, together: boolean): boolean {
  if (by === who) return false;
  return together || (by !== PRINT && by !== EBOOK);
}

/** Turns the spread to the place, now or as soon as its page is set; until the returned function is called. */
export function followPlace({ place, layout }: Workbench, { view }: ProofRoom): () => void {
  let waiting: PlaceState | null = null;
  let last: PlaceState | null = null;
  const show = (): void => {
    const { anchor, section } = waiting ?? {};
    if (!section) return;
    const line = lineOf(layout.get().pages, anchor ?? { block: String(section), offset: 0 }, section);
    if (!line) return;
    waiting = null;
    view.showPage(line.page);
  };
  const placeChanged = (): void => {
    const now = place.get();
    const before = last;
    last = now;
    const otherEdition = before?.printEdition !== now.printEdition;
    const moved = now.anchor !== before?.anchor || now.asked !== before.asked || now.section !== before.section;
    if (!otherEdition && !(moved && follows(PRINT, now.by, view.get().together))) return;
    waiting = now;
    show();
  };
  placeChanged();
  const endings = [
    place.subscribe(placeChanged),
    layout.subscribe(() => {
      if (waiting) show();
    }),
  ];
  return () => {
    for (const end of endings) end();
  };
}

/** Opens the spread of a page; the ebook comes along while both are kept together. */
export function turnTo({ place, layout }: Workbench, { view }: ProofRoom, page: PageIndex): void {
  view.showPage(page);
  if (!view.get().together) return;
  const { facing } = view.get();
  const { pages, count } = layout.get();
  const { verso, recto } = spreadAt(spreadOf(page, facing), count, facing);
  for (const index of [page, verso, recto]) {
    const shown = index === null ? undefined : pages[index];
    const anchor = shown && firstAnchor(shown);
    if (!anchor || shown.section === null) continue;
    place.follow(shown.section, anchor, PRINT);
    return;
  }
}

/** The first page of the spread that lies so many further on. */
export function pageBeyond({ layout }: Workbench, { view }: ProofRoom, spreads: number): PageIndex {
  const { page, facing } = view.get();
  const { count } = layout.get();
  const last = Math.max(0, spreadCount(count, facing) - 1);
  const { verso, recto } = spreadAt(Math.max(0, Math.min(last, spreadOf(page, facing) + spreads)), count, facing);
  return verso ?? recto ?? 0;
}

/** The first place of the running text on a page. */
function firstAnchor({ items }: Page): Anchor | null {
  for (const item of items) {
    if (item.kind === 'glyphs' && item.at && !item.furniture) return item.at;
  }
  return null;
}
