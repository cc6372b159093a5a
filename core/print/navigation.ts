/** How readers of the file find their way: page labels and outline. In: pages and entries; out: references. */
import { type PDFContext, PDFHexString, PDFName, PDFNull, type PDFObject, type PDFRef } from 'pdf-lib';
import type { Page } from '#page';
import type { OutlineEntry } from './request.ts';

/** The number tree of page labels (ISO 32000-1, 12.4.2): one entry wherever the counting starts anew. */
export function writePageLabels(context: PDFContext, pages: readonly Page[]): PDFRef {
  const numbers: (number | PDFObject)[] = [];
  pages.forEach((page, i) => {
    if (continues(pages[i - 1], page)) return;
    numbers.push(i, context.obj(labelOf(page)));
  });
  return context.register(context.obj({ Nums: numbers }));
}

function continues(before: Page | undefined, page: Page): boolean {
  if (!before) return false;
  const { style, value } = page.folio;
  return isCounted(page) && isCounted(before) && before.folio.style === style && before.folio.value + 1 === value;
}

function labelOf(page: Page): Readonly<Record<string, string | number | PDFHexString>> {
  const { label, style, value } = page.folio;
  if (!isCounted(page)) return { P: PDFHexString.fromText(label) };
  return { S: style === 'roman' ? 'r' : 'D', St: value };
}

/** Whether the label is the plain number; if not, it is written out. */
function isCounted({ folio }: Page): boolean {
  return folio.value >= 1 && folio.label === (folio.style === 'roman' ? roman(folio.value) : String(folio.value));
}

const ROMAN = [
  [1000, 'm'],
  [900, 'cm'],
  [500, 'd'],
  [400, 'cd'],
  [100, 'c'],
  [90, 'xc'],
  [50, 'l'],
  [40, 'xl'],
  [10, 'x'],
  [9, 'ix'],
  [5, 'v'],
  [4, 'iv'],
  [1, 'i'],
] as const;

function roman(value: number): string {
  let rest = value;
  let text = '';
  for (const [worth, letters] of ROMAN) {
    while (rest >= worth) {
      text += letters;
      rest -= worth;
    }
  }
  return text;
}

/** How the outline turns an entry into a destination. */
export type Destination = (entry: OutlineEntry) => PDFObject;

/** The outline tree (12.3.3), all open; null where there is nothing to show. */
export function writeOutline(context: PDFContext, entries: readonly OutlineEntry[], to: Destination): PDFRef | null {
  if (entries.length === 0) return null;
  const root = context.nextRef();
  const { first, last, count } = writeLevel(context, { entries, parent: root, to });
  context.assign(root, context.obj({ Type: 'Outlines', First: first, Last: last, Count: count }));
  return root;
}

interface Level {
  readonly entries: readonly OutlineEntry[];
  readonly parent: PDFRef;
  readonly to: Destination;
}

function writeLevel(
  context: PDFContext,
  { entries, parent, to }: Level,
): { first: PDFRef; last: PDFRef; count: number } {
  const refs = entries.map(() => context.nextRef());
  let count = entries.length;
  entries.forEach((entry, i) => {
    const item = context.obj({ Title: PDFHexString.fromText(entry.title), Parent: parent, Dest: to(entry) });
    if (i > 0) item.set(PDFName.of('Prev'), refs[i - 1]!);
    if (i + 1 < refs.length) item.set(PDFName.of('Next'), refs[i + 1]!);
    if (entry.children.length > 0) {
      const below = writeLevel(context, { entries: entry.children, parent: refs[i]!, to });
      item.set(PDFName.of('First'), below.first);
      item.set(PDFName.of('Last'), below.last);
      item.set(PDFName.of('Count'), context.obj(below.count));
      count += below.count;
    }
    context.assign(refs[i]!, item);
  });
  return { first: refs[0]!, last: refs[refs.length - 1]!, count };
}

/** A place on a page, in the file's own coordinates, at whatever size the reader has chosen. */
export function destination(context: PDFContext, page: PDFRef, top: number): PDFObject {
  return context.obj([page, PDFName.of('XYZ'), PDFNull, Math.round(top * 100) / 100, PDFNull]);
}
