/** The designs that an edition may have: those built in and the book's own. */
import type { Book, Json } from '#book';
import { builtInDesigns } from '#design';
import type { Option } from '../ui/index.ts';

export function designOptions(book: Book): readonly Option<string>[] {
  const builtIn = builtInDesigns.map(({ id, name }) => ({ value: id as string, text: name }));
  const own = book.designs.map(({ id, settings }) => ({ value: id as string, text: nameIn(settings) ?? id }));
  return [...own, ...builtIn.filter((each) => !own.some((mine) => mine.value === each.value))];
}

export function designName(book: Book, design: string): string {
  return designOptions(book).find((each) => each.value === design)?.text ?? design;
}

function nameIn(settings: Json): string | null {
  if (typeof settings !== 'object' || settings === null || Array.isArray(settings)) return null;
  const name = (settings as { readonly [key: string]: Json })['name'];
  return typeof name === 'string' && name !== '' ? name : null;
}
