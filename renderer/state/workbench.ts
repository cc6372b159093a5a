/**
 * The stores of a window, made once and tied together. In: the host and what it says at the start; out: one store a concern,
 * handed to the components by a context.
 */
import { createContext, useContext } from 'react';
import type { SectionId } from '#base';
import type { Book } from '#book';
import type { Host, HostEvent, StartInfo } from '#host';
import { BookStore } from './bookStore.ts';
import { ExportedPages } from './exportedPages.ts';
import { FontStore } from './fontStore.ts';
import { HomeStore } from './homeStore.ts';
import { LayoutLink } from './layoutLink.ts';
import { LayoutStore } from './layoutStore.ts';
import { OutlineStore } from './outlineStore.ts';
import { PlaceStore } from './placeStore.ts';
import { PressStore } from './pressStore.ts';
import { SettingsStore } from './settingsStore.ts';
import { SinceExportStore } from './sinceExport.ts';

export interface Workbench {
  readonly host: Host;
  readonly info: StartInfo;
  readonly books: BookStore;
  readonly place: PlaceStore;
  readonly layout: LayoutStore;
  readonly link: LayoutLink;
  readonly outline: OutlineStore;
  readonly settings: SettingsStore;
  readonly press: PressStore;
  readonly exported: ExportedPages;
  readonly since: SinceExportStore;
  readonly home: HomeStore;
  readonly fonts: FontStore;
}

export interface WorkbenchParts {
  readonly host: Host;
  readonly info: StartInfo;
  /** The window's address, without a file name. */
  readonly base: string;
  /** Calls back once the next frame has been drawn. */
  readonly later: (call: () => void) => void;
  /** Calls back after some milliseconds. */
  readonly after: (milliseconds: number, call: () => void) => void;
  readonly now: () => number;
}

export function createWorkbench({ host, info, base, later, after, now }: WorkbenchParts): Workbench {
  const books = new BookStore({ host, later });
  const place = new PlaceStore();
  const layout = new LayoutStore(() => books.get()?.book ?? null);
  const settings = new SettingsStore(host, info.settings);
  const press = new PressStore(host, now);
  const home = new HomeStore(host, info);
  books.onOpen(({ session }) => {
    place.begin(firstPlace(books.current.book));
    void press.begin(session);
  });
  books.onChange((book) => keepPlace(place, book));
  books.onChange(() => layout.judge());
  const exported = new ExportedPages({ press });
  const since = new SinceExportStore({ books, press, after });
  const outline = new OutlineStore({ books, layout, place, since, after });
  const fonts = new FontStore(host, info.fonts);
  const link = new LayoutLink({ books, place, layout, fonts: info.fonts, installed: fonts, base });
  const workbench = { host, info, books, place, layout, link, outline, settings, press, exported, since, home, fonts };
  host.listen((event) => hear(workbench, event));
  return workbench;
}

function hear({ books, press }: Workbench, event: HostEvent): void {
  if (event.kind === 'kept') books.setKept(event.session, event.kept, event.version);
  else press.hear(event);
}

/** A book opens at the first section that the author wrote, or at its first. */
function firstPlace(book: Book): ReturnType<typeof placeIn> {
  const sections = book.text.children;
  const first = sections.find((each) => each.attrs['kind'] === 'prologue' || each.attrs['kind'] === 'chapter');
  return placeIn(book, ((first ?? sections[0])?.attrs['id'] as SectionId | undefined) ?? null);
}

function placeIn(book: Book, section: SectionId | null) {
  return {
    section,
    printEdition: book.editions.find((each) => each.kind === 'print')?.id ?? null,
    ebookEdition: book.editions.find((each) => each.kind === 'ebook')?.id ?? null,
  };
}

/** The section or edition in view may be gone after a change: the nearest takes its place. */
function keepPlace(place: PlaceStore, book: Book): void {
  const { section, printEdition, ebookEdition } = place.get();
  const has = (id: string | null): boolean => book.editions.some((each) => each.id === id);
  const next = placeIn(book, null);
  if (!has(printEdition)) place.showEdition('print', next.printEdition);
  if (!has(ebookEdition)) place.showEdition('ebook', next.ebookEdition);
  if (!book.text.children.some((each) => each.attrs['id'] === section)) place.leaveSection(firstPlace(book).section);
}

const WorkbenchContext = createContext<Workbench | null>(null);

/** Hands the workbench to everything inside it. */
export const WorkbenchProvider = WorkbenchContext.Provider;

export function useWorkbench(): Workbench {
  const workbench = useContext(WorkbenchContext);
  if (!workbench) throw new RangeError('there is no workbench around this component');
  return workbench;
}
