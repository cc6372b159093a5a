/** How readers of the file find their way: page labels and outline. In: pages and entries; out: references. */
import { roman } from '#base';
import type { Page } from '#page';
import type { PdfFile } from './file.ts';
import { type Dictionary, type Ref, textString, type Value } from './objects.ts';
import type { OutlineEntry } from './request.ts';

/** The number tree of page labels (ISO 32000-1, 12.4.2): one entry wherever the counting starts anew. */
export function writePageLabels(file: PdfFile, pages: readonly Page[]): Ref {
  const numbers: Value[] = [];
  pages.forEach((page, i) => {
    if (continues(pages[i - 1], page)) return;
    numbers.push(i, labelOf(page));
  });
  return file.add({ Nums: numbers });
}

function continues(before: Page | undefined, page: Page): boolean {
  if (!before) return false;
  const { style, value } = page.folio;
  return isCounted(page) && isCounted(before) && before.folio.style === style && before.folio.value + 1 === value;
}

function labelOf(page: Page): Dictionary {
  const { label, style, value } = page.folio;
  if (!isCounted(page)) return { P: textString(label) };
  return { S: style === 'roman' ? 'r' : 'D', St: value };
}

/** Whether the label is the plain number; if not, it is written out. */
function isCounted({ folio }: Page): boolean {
  return folio.value >= 1 && folio.label === (folio.style === 'roman' ? roman(folio.value) : String(folio.value));
}

/** How the outline turns an entry into a destination. */
export type Destination = (entry: OutlineEntry) => Value;

/** The outline tree (12.3.3), all open; null where there is nothing to show. */
export function writeOutline(file: PdfFile, entries: readonly OutlineEntry[], to: Destination): Ref | null {
  if (entries.length === 0) return null;
  const root = file.reserve();
  const { first, last, count } = writeLevel(file, { entries, parent: root, to });
  file.assign(root, { Type: 'Outlines', First: first, Last: last, Count: count });
  return root;
}

interface Level {
  readonly entries: readonly OutlineEntry[];
  readonly parent: Ref;
  readonly to: Destination;
}

function writeLevel(file: PdfFile, { entries, parent, to }: Level): { first: Ref; last: Ref; count: number } {
  const refs = entries.map(() => file.reserve());
  let count = entries.length;
  entries.forEach((entry, i) => {
    const children = entry.children.length > 0;
    const below = children ? writeLevel(file, { entries: entry.children, parent: refs[i]!, to }) : null;
    count += below?.count ?? 0;
    file.assign(refs[i]!, {
      Title: textString(entry.title),
      Parent: parent,
      Dest: to(entry),
      Prev: refs[i - 1],
      Next: refs[i + 1],
      ...(below ? { First: below.first, Last: below.last, Count: below.count } : {}),
    });
  });
  return { first: refs[0]!, last: refs[refs.length - 1]!, count };
}

/** A place on a page, in the file's own coordinates, at whatever size the reader has chosen. */
export function destination(page: Ref, top: number): Value {
  return [page, 'XYZ', null, Math.round(top * 100) / 100, null];
}
