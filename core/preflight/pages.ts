/**
 * The book block as a printer sees it. In: finished pages and a press profile; out: findings about page count, margins and
 * trim. Figures belong to the profile; where they come from is said there.
 */
import type { Finding, Points } from '#base';
import type { Change, EditionView } from '#book';
import { leastGutter, type PressProfile, trimOf } from '#design';
import { type GlyphRun, needBleed, type Page, type PageItem, runsOver } from '#page';

/** Rules `pages/...`. */
export function checkPages(view: EditionView, pages: readonly Page[], press: PressProfile): readonly Finding<Change>[] {
  if (view.edition.kind !== 'print') return [];
  return [
    ...oddCount(pages),
    ...countLimits(pages, press),
    ...checkMargins(pages, press),
    ...lastPage(pages),
    ...unusualTrim(view.edition.trim),
  ];
}

/** A leaf has two sides: printers round odd counts up (FACTS M-12). */
function oddCount(pages: readonly Page[]): readonly Finding<Change>[] {
  if (pages.length % 2 === 0) return [];
  return [
    {
      rule: 'pages/odd-count',
      severity: 'warning',
      message: `The book has ${pages.length} pages; the printer will add one, and the spine counts it.`,
    },
  ];
}

function countLimits(pages: readonly Page[], press: PressProfile): readonly Finding<Change>[] {
  const count = pages.length;
  const least = Math.min(...press.pages.map((each) => each.from));
  const most = Math.max(...press.pages.map((each) => each.to));
  if (count < least || count > most) {
    const message = `The book has ${count} pages; “${press.name}” binds ${least} to ${most}.`;
    return [{ rule: 'pages/count', severity: 'error', message }];
  }
  return press.pages
    .filter((each) => count < each.from || count > each.to)
    .map((each) => ({
      rule: 'pages/paper',
      severity: 'warning',
      message: `On ${each.paper} paper “${press.name}” binds ${each.from} to ${each.to} pages; the book has ${count}.`,
    }));
}

/** How far a page's items keep from its edges. */
interface Clearance {
  readonly inside: Points;
  readonly outside: Points;
}

/** Rounding of positions is no fault. */
const SLACK = 0.01;

/** Punctuation may hang this far into a margin before a printer's check is likely to mind (common practice, no source). */
const HANGING = 4.5;

function checkMargins(pages: readonly Page[], press: PressProfile): readonly Finding<Change>[] {
  const gutter = leastGutter(press, pages.length);
  const clearances = pages.map(clearanceOf);
  const { noBleed, bleed } = press.outside;
  return [
    ...(gutter === null ? [] : tightest(pages, clearances, { side: 'inside', least: gutter, press })),
    ...tightest(pages, clearances, { side: 'outside', least: needBleed(pages) ? bleed : noBleed, press }),
  ];
}

interface MarginRule {
  readonly side: keyof Clearance;
  readonly least: Points;
  readonly press: PressProfile;
}

/** One finding for all pages, at the tightest of them: margins are a matter of the design, not of the page. */
function tightest(
  pages: readonly Page[],
  clearances: readonly (Clearance | null)[],
  { side, least, press }: MarginRule,
): readonly Finding<Change>[] {
  let worst: { readonly page: Page; readonly room: Points } | null = null;
  let count = 0;
  for (const [index, clearance] of clearances.entries()) {
    if (!clearance || clearance[side] >= least - SLACK) continue;
    count++;
    if (!worst || clearance[side] < worst.room) worst = { page: pages[index]!, room: clearance[side] };
  }
  if (!worst) return [];
  const shown = `${inInches(worst.room)} in where “${press.name}” asks for ${inInches(least)} in`;
  const where = side === 'inside' ? `at ${pages.length} pages, inside` : 'at the outer edges';
  return [
    {
      rule: side === 'inside' ? 'pages/gutter' : 'pages/margin',
      severity: worst.room < least - HANGING ? 'error' : 'warning',
      message: `The margin ${where}, is ${shown} (${count} ${count === 1 ? 'page' : 'pages'}).`,
      page: worst.page.folio.label,
    },
  ];
}

/** Null for a page with nothing on it. The spine is at the left of a recto, at the right of a verso. */
function clearanceOf(page: Page): Clearance | null {
  let left = Number.POSITIVE_INFINITY;
  let right = left;
  let top = left;
  let bottom = left;
  for (const item of page.items) {
    // What runs over the edge is meant to.
    const box = runsOver(item, page) ? null : inkOf(item, page);
    if (!box) continue;
    left = Math.min(left, box.left);
    right = Math.min(right, page.size.width - box.right);
    top = Math.min(top, box.top);
    bottom = Math.min(bottom, page.size.height - box.bottom);
  }
  if (left === Number.POSITIVE_INFINITY) return null;
  const [inside, outer] = page.side === 'recto' ? [left, right] : [right, left];
  return { inside, outside: Math.min(outer, top, bottom) };
}

interface Ink {
  readonly left: Points;
  readonly right: Points;
  readonly top: Points;
  readonly bottom: Points;
}

/** Where an item prints. Glyphs are taken to reach from their baseline up by 0.7 and down by 0.2 of their size. */
function inkOf(item: PageItem, page: Page): Ink | null {
  switch (item.kind) {
    case 'link':
      return null;
    case 'glyphs': {
      const right = item.x + inkedAdvance(item, page);
      return { left: item.x, right, top: item.y - 0.7 * item.size, bottom: item.y + 0.2 * item.size };
    }
    default:
      return { left: item.x, right: item.x + item.width, top: item.y, bottom: item.y + item.height };
  }
}

/** The advances of a run without the spaces at its end. */
function inkedAdvance({ start, count, text }: GlyphRun, { advances, clusters }: Page): Points {
  let end = start + count;
  if (text.endsWith(' ')) {
    const ink = text.trimEnd().length;
    while (end > start && clusters[end - 1]! >= ink) end--;
  }
  let width = 0;
  for (let glyph = start; glyph < end; glyph++) width += advances[glyph]!;
  return width;
}

/** Printers may put a code of their own on the last page (FACTS M-17). */
function lastPage(pages: readonly Page[]): readonly Finding<Change>[] {
  const last = pages[pages.length - 1];
  if (!last || last.items.length === 0) return [];
  return [
    {
      rule: 'pages/last-page',
      severity: 'note',
      message: 'The last page is not blank; some printers need it for their own mark and will add a leaf.',
      page: last.folio.label,
    },
  ];
}

function unusualTrim(trim: { readonly width: Points; readonly height: Points }): readonly Finding<Change>[] {
  if (trimOf(trim)) return [];
  return [
    {
      rule: 'pages/trim',
      severity: 'note',
      message: `${inInches(trim.width)} x ${inInches(trim.height)} in is no usual trim; ask your printer for it first.`,
    },
  ];
}

function inInches(points: Points): string {
  return String(Math.round((points / 72) * 1000) / 1000);
}
