/** The print spread with its keys and clicks. In: nothing but the workbench around it; out: a canvas, and its text for those
 * who do not see it. */
import { type KeyboardEvent, type MouseEvent, useCallback, useEffect, useRef } from 'react';
import { sectionName } from '#book';
import { useWorkbench, type Workbench } from '../state/index.ts';
import { useTools } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { PRINT, pageBeyond, turnTo } from './follow.ts';
import { useAtRest, useLayout, useProofRoom, useSaid, useView } from './hooks.ts';
import { type PageReading, readPage } from './reading.ts';
import type { ProofRoom } from './room.ts';
import { SpreadCanvas } from './spreadCanvas.ts';
import { nextZoom, percentOf, spreadAt, spreadOf } from './spreads.ts';
import { OVERLAYS, type Overlay } from './viewStore.ts';
import { onZoomGesture } from './zoomGestures.ts';

export function SpreadView() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const elements = {
    room: useRef<HTMLDivElement>(null),
    table: useRef<HTMLDivElement>(null),
    canvas: useRef<HTMLCanvasElement>(null),
  };
  const spread = useRef<SpreadCanvas | null>(null);
  useEffect(() => {
    const [scroller, table, canvas] = [elements.room.current, elements.table.current, elements.canvas.current];
    if (!scroller || !table || !canvas) return undefined;
    const { view } = room;
    const made = new SpreadCanvas(
      workbench,
      { room: scroller, table, canvas },
      {
        page: () => view.get().page,
        facing: () => view.get().facing,
        zoom: () => view.get().zoom,
        onScale: (scale) => room.size.is(percentOf(scale)),
      },
    );
    spread.current = made;
    const end = onZoomGesture(scroller, ({ factor, x, y }) => {
      made.hold(x, y);
      view.zoomTo(percentOf(made.scale) * factor);
    });
    return () => {
      end();
      made.dispose();
    };
  }, [workbench, room, elements.room, elements.table, elements.canvas]);
  const { say } = useTools();
  const reading = useReading(workbench, room);
  useSaid('.proof-print', reading.name);
  const zoom = useView((state) => (state.zoom === 'width' ? state.zoom : undefined));
  return (
    <section className="spread" aria-label={texts.spread}>
      {/* biome-ignore lint/a11y/useSemanticElements: a group of what the canvas shows and its text */}
      <div
        className="spread-room"
        ref={elements.room}
        data-zoom={zoom}
        data-landing
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls has to be reached by keys
        tabIndex={0}
        aria-label={reading.name}
        onKeyDown={(event) => onKey(event, { workbench, room, say })}
        onClick={(event) => onClick(event, workbench, spread.current)}
        onDoubleClick={() => workbench.place.goToDesk('copy')}
      >
        <div className="spread-table" ref={elements.table} aria-hidden="true">
          <canvas ref={elements.canvas} />
        </div>
        <div className="unseen" lang={reading.language}>
          {reading.pages.map((page) => (
            <PageText key={page.folio} {...page} />
          ))}
        </div>
      </div>
      <SpreadNotice />
    </section>
  );
}

/** Why there is nothing to see, or not yet. */
function SpreadNotice() {
  const stage = useLayout((state) => state.stage);
  const problem = useLayout((state) => state.problem);
  const empty = useLayout((state) => state.pages.length === 0);
  if (problem !== null)
    return (
      <p className="spread-notice" role="alert">
        {texts.problem(problem)}
      </p>
    );
  if (!empty) return null;
  const words = { none: texts.noPrint, opening: texts.opening, working: texts.laying, resting: texts.noPages };
  return (
    <p className="spread-notice" role="status">
      {words[stage]}
    </p>
  );
}

/** A page's text; several pages are told apart by their folios. */
function PageText({ folio, blocks }: PageWords) {
  return (
    <section aria-label={texts.pageName(folio)}>
      {blocks.length === 0 && <p>{texts.blank}</p>}
      {blocks.map((block) => (
        <BlockText key={`${block.kind} ${block.block}`} {...block} />
      ))}
    </section>
  );
}

function BlockText({ kind, text }: PageReading) {
  if (kind === 'heading') return <h3>{text}</h3>;
  return kind === 'picture' ? <p>{texts.pictureOf(text)}</p> : <p>{text}</p>;
}

interface PageWords {
  readonly folio: string;
  readonly blocks: readonly PageReading[];
}

interface Reading {
  readonly name: string;
  readonly language: string;
  readonly pages: readonly PageWords[];
}

/** What the spread says, once keys and pages have come to rest. */
function useReading(workbench: Workbench, room: ProofRoom): Reading {
  const { layout, books } = workbench;
  const read = useCallback((): Reading => {
    const { page, facing } = room.view.get();
    const { pages, count } = layout.get();
    const language = books.get()?.book.metadata.language ?? 'en';
    const { verso, recto } = spreadAt(spreadOf(page, facing), count, facing);
    const shown = [verso, recto].flatMap((index) => (index === null ? [] : (pages[index] ?? [])));
    const sections = books.get()?.book.text.children ?? [];
    const texted = shown.map((each) => ({
      folio: each.folio.label,
      blocks: readPage(each, sections.find(({ attrs }) => attrs['id'] === each.section) ?? null),
    }));
    const folios = texted.map(({ folio }) => folio);
    return { name: folios.length > 0 ? texts.spreadName(folios, null) : texts.spread, language, pages: texted };
  }, [layout, books, room]);
  return useAtRest(layout, room.view, read);
}

function onClick(event: MouseEvent, { place }: Workbench, spread: SpreadCanvas | null): void {
  const hit = spread?.hit(event.clientX, event.clientY);
  const anchor = hit?.finding?.at ?? hit?.anchor;
  if (hit && anchor && hit.page.section !== null) place.goTo(hit.page.section, anchor, PRINT);
}

/** Letters of the overlays, in their order. */
const OVERLAY_KEYS = OVERLAYS.map((overlay) => texts.overlayKeys[overlay].toLowerCase());

function onKey(event: KeyboardEvent, { workbench, room, say }: Keyed): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const { view } = room;
  const turn = (spreads: number) => turnTo(workbench, room, pageBeyond(workbench, room, spreads));
  const zoom = (direction: 1 | -1) => {
    const next = nextZoom(room.size.get(), direction);
    view.look({ zoom: next });
    say(texts.zoomNow(null, texts.percent(Math.round(next))));
  };
  const deeds = new Map<string, () => void>([
    ['ArrowLeft', () => turn(-1)],
    ['ArrowRight', () => turn(1)],
    ['PageUp', () => turn(-1)],
    ['PageDown', () => turn(1)],
    ['Home', () => turnTo(workbench, room, 0)],
    ['End', () => turnTo(workbench, room, Math.max(0, workbench.layout.get().count - 1))],
    ['+', () => zoom(1)],
    ['=', () => zoom(1)],
    ['-', () => zoom(-1)],
    ['0', () => view.look({ zoom: 'fit' })],
    ['Enter', () => workbench.place.goToDesk('copy')],
  ]);
  const overlay = OVERLAYS[OVERLAY_KEYS.indexOf(event.key.toLowerCase())];
  const deed = deeds.get(event.key) ?? (overlay && (() => laid(room, overlay, say)));
  if (!deed) return;
  deed();
  event.preventDefault();
}

interface Keyed {
  readonly workbench: Workbench;
  readonly room: ProofRoom;
  readonly say: (text: string) => void;
}

/** A guide laid over the pages or taken away, in words too: its switch is elsewhere. */
function laid({ view }: ProofRoom, overlay: Overlay, say: (text: string) => void): void {
  view.toggleOverlay(overlay);
  const name = texts.overlay[overlay];
  say(view.get().overlays.has(overlay) ? texts.laid(name) : texts.lifted(name));
}

/** The name of the section that the spread in view belongs to, or null. */
export function useSectionInView(): string | null {
  const { books } = useWorkbench();
  const page = useView((state) => state.page);
  const section = useLayout((state) => state.pages[page]?.section ?? null);
  const book = books.get()?.book;
  const node = book?.text.children.find((each) => each.attrs['id'] === section);
  if (!node || !book) return null;
  const title = node.firstChild?.type.name === 'sectionTitle' ? node.firstChild.textContent : '';
  return title || sectionName(node.attrs['kind'], book.metadata.language);
}
