/**
 * The ebook's frame in step with the window. In: section, look and place from the stores; out: what the frame shows, how many
 * pages it has, and what clicks and keys in it lead to.
 */
import { useCallback, useEffect, useRef } from 'react';
import type { SectionId } from '#base';
import type { Book } from '#book';
import type { Workbench } from '../state/index.ts';
import { EbookFrame } from './ebookFrame.ts';
import { EBOOK, follows } from './follow.ts';
import { screenLook } from './readingSheet.ts';
import type { ProofRoom } from './room.ts';

export interface Pages {
  readonly page: number;
  readonly count: number;
}

/** Where the line at the cursor stands, in the screen's own pixels. */
export interface Marked {
  readonly top: number;
  readonly height: number;
}

interface FrameParts {
  readonly workbench: Workbench;
  readonly room: ProofRoom;
  readonly iframe: { readonly current: HTMLIFrameElement | null };
  readonly setPages: (pages: Pages) => void;
  readonly setMark: (mark: Marked | null) => void;
}

/** Keeps the frame in step with section, look and place. */
export function useEbookFrame({ workbench, room, iframe, setPages, setMark }: FrameParts) {
  const screen = useRef<EbookFrame | null>(null);
  const begin = useCallback(
    (frame: HTMLIFrameElement) => {
      const made = new EbookFrame({
        frame,
        addressOf: room.addressOf,
        base: document.baseURI,
        onPages: () => {
          setPages({ page: made.page, count: made.count });
          setMark(markOf(workbench, made));
        },
      });
      screen.current = made;
      made.lookAs(screenLook(room.view.get().ebook));
      let asked = workbench.place.get().asked;
      let look = room.view.get().ebook;
      const showProof = (): void => {
        const { proof } = room.ebook.get();
        if (!proof) return;
        made.show(proof);
        followIn(workbench, room, made);
      };
      const endings = [
        room.ebook.watch(),
        room.ebook.subscribe(showProof),
        room.view.subscribe(() => {
          if (room.view.get().ebook === look) return;
          look = room.view.get().ebook;
          made.lookAs(screenLook(look));
        }),
        workbench.place.subscribe(() => {
          const place = workbench.place.get();
          if (place.asked !== asked || place.by !== EBOOK) followIn(workbench, room, made);
          asked = place.asked;
          setMark(markOf(workbench, made));
        }),
        () => made.dispose(),
      ];
      showProof();
      return () => {
        for (const end of endings) end();
      };
    },
    [workbench, room, setPages, setMark],
  );
  useEffect(() => {
    const frame = iframe.current;
    if (!frame) return undefined;
    let end: () => void = () => undefined;
    const onLoad = (): void => {
      end();
      end = begin(frame);
    };
    frame.addEventListener('load', onLoad);
    // The empty document may have come before anyone listened.
    if (frame.contentDocument?.URL === 'about:srcdoc' && frame.contentDocument.readyState === 'complete') onLoad();
    return () => {
      frame.removeEventListener('load', onLoad);
      end();
    };
  }, [begin, iframe]);
  return screen;
}

/** Turns to where the author went, unless that was from here. */
function followIn({ place }: Workbench, { view }: ProofRoom, screen: EbookFrame): void {
  const { anchor, by } = place.get();
  if (anchor && follows(EBOOK, by, view.get().together)) screen.goTo(anchor);
}

/** CSS pixels. */
const TALLEST_LINE = 40;

/** The line at the cursor, where it stands on the screen that is shown. */
function markOf({ place }: Workbench, screen: EbookFrame): Marked | null {
  const { anchor } = place.get();
  const box = anchor && screen.boxOf(anchor);
  if (!box || !screen.isShown(box)) return null;
  // The place of a whole section has no line of its own.
  return { top: box.top, height: Math.min(box.height, TALLEST_LINE) };
}

/** The next screen, or the next section's first. */
export function turnScreen(workbench: Workbench, screen: EbookFrame | null, by: number): void {
  if (!screen) return;
  const { place, books } = workbench;
  const wanted = screen.page + by;
  if (wanted >= 0 && wanted < screen.count) {
    screen.turnTo(wanted);
    const anchor = screen.topAnchor();
    const { section } = place.get();
    if (anchor && section !== null) place.follow(section, anchor, EBOOK);
    return;
  }
  const sections = books.current.book.text.children;
  const at = sections.findIndex((each) => each.attrs['id'] === place.get().section);
  const next = at < 0 ? undefined : sections[at + by];
  if (!next) return;
  screen.beginAt(by < 0 ? 'end' : 'start');
  place.goToSection(next.attrs['id'], EBOOK);
}

/** A link leads where it points; everything else is a place in the text. */
export function clickAt({ place, books }: Workbench, screen: EbookFrame | null, x: number, y: number): void {
  if (!screen) return;
  const { section } = place.get();
  const target = screen.linkAt(x, y);
  const linked = target === null ? null : screen.blockOfLink(target);
  const holder = linked === null ? null : sectionWith(books.current.book, linked);
  if (linked !== null && holder !== null) {
    place.goTo(holder, { block: linked, offset: 0 }, 'link');
    return;
  }
  const anchor = screen.anchorAt(x, y);
  if (anchor && section !== null) place.goTo(section, anchor, EBOOK);
}

/** The section that is the block or holds it. */
function sectionWith({ text }: Book, block: string): SectionId | null {
  for (const section of text.children) {
    let found = section.attrs['id'] === block;
    section.descendants((node) => {
      found ||= node.attrs['id'] === block;
      return !found;
    });
    if (found) return section.attrs['id'];
  }
  return null;
}
