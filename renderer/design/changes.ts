/**
 * What the design panel does to a book. In: the book, an edition and other settings; out: one change. A built-in design is
 * never changed: the book gets its own from it, which takes its place in all editions that had it.
 */
import type { DesignId } from '#base';
import type { Book, Change, Edition, Json } from '#book';
import { builtInDesigns, type DesignSettings, readSettings } from '#design';
import { baseOf } from './settings/compare.ts';

/** A design as it was drawn, before an edition's own wishes. RangeError for one that the book does not know. */
export function settingsOf(book: Pick<Book, 'designs'>, id: DesignId): DesignSettings {
  const stored = book.designs.find((each) => each.id === id);
  if (!stored) {
    const builtIn = builtInDesigns.find((each) => each.id === id);
    if (!builtIn) throw new RangeError(`unknown design ${JSON.stringify(id)}`);
    return builtIn;
  }
  const settings = readSettings(id, stored.settings);
  if (!settings.ok) throw new RangeError(`design ${JSON.stringify(id)}: ${settings.problem}`);
  return settings.value;
}

/** The book's own designs, then those built in. */
export function designsOf(book: Pick<Book, 'designs'>): readonly DesignSettings[] {
  const own = book.designs.map(({ id }) => settingsOf(book, id));
  return [...own, ...builtInDesigns.filter((each) => !own.some(({ id }) => id === each.id))];
}

export function isOwn(book: Pick<Book, 'designs'>, id: DesignId): boolean {
  return book.designs.some((each) => each.id === id);
}

/** The edition takes up a design. */
export function takeUp(book: Book, edition: Edition, design: DesignId): Change {
  const index = book.editions.findIndex((each) => each.id === edition.id);
  return { kind: 'putEdition', edition: { ...edition, design }, index };
}

/**
 * A design gets other settings.
 * @param fresh the id and name of the book's own design, where a built-in one is changed for the first time.
 */
export function adjusted(
  book: Book,
  settings: DesignSettings,
  fresh: { readonly id: DesignId; readonly name: string },
): Change {
  if (isOwn(book, settings.id)) return putDesign(book, settings);
  const own = { ...settings, ...fresh };
  const followers = book.editions.filter((each) => each.design === settings.id);
  return { kind: 'group', changes: [putDesign(book, own), ...followers.map((each) => takeUp(book, each, own.id))] };
}

/** A design from elsewhere joins the book, and the edition takes it up. */
export function broughtIn(book: Book, edition: Edition, settings: DesignSettings): Change {
  return { kind: 'group', changes: [putDesign(book, settings), takeUp(book, edition, settings.id)] };
}

/** A design becomes what it began as again, under its own name. */
export function resetToBase(book: Book, settings: DesignSettings): Change {
  const { id, name } = settings;
  return putDesign(book, { ...baseOf(settings), id, name });
}

/** One of the book's own designs goes; the editions that followed it have what it began as. */
export function dropped(book: Book, settings: DesignSettings): Change {
  const followers = book.editions.filter((each) => each.design === settings.id);
  const base = baseOf(settings).id;
  const changes = followers.map((each) => takeUp(book, each, base));
  return { kind: 'group', changes: [...changes, { kind: 'dropDesign', design: settings.id }] };
}

function putDesign(book: Book, settings: DesignSettings): Change {
  const at = book.designs.findIndex((each) => each.id === settings.id);
  const index = at < 0 ? book.designs.length : at;
  return { kind: 'putDesign', design: settings.id, settings: jsonOf(settings), index };
}

/** Settings hold nothing that JSON can't. */
export function jsonOf(settings: DesignSettings): Json {
  return settings as unknown as Json;
}
