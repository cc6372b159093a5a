/** Makes books up for tests, shows their pages as lines of text, and holds every result to the laws of the page. */
import type { Node } from 'prosemirror-model';
import { expect } from 'vitest';
import { type Book, type PrintEdition, selectEdition, textblocksOf, textOf } from '#book';
import { builtInDesigns, type DesignSettings } from '#design';
import { type Filler, type MadeUp, type MakeUpRequest, makeUp } from '#makeup';
import { type GlyphRun, type Page, runsOver } from '#page';
import type { ParagraphSetter } from '#paragraph';
import { bookValue, PRINT } from '../builders/book.ts';
import { typewriter, typewriterLibrary } from './typewriter.ts';

export const quoin: DesignSettings = builtInDesigns[0]!;

export interface Trial {
  readonly settings?: DesignSettings;
  readonly edition?: Partial<PrintEdition>;
  readonly setter?: ParagraphSetter;
  readonly metadata?: Partial<Book['metadata']>;
  readonly assets?: Book['assets'];
  readonly filler?: Filler;
}

/** Makes a book up with the typewriter and checks the laws. */
export function madeUp(text: Node, trial: Trial = {}): MadeUp {
  const edition = { ...(PRINT as PrintEdition), ...trial.edition };
  const value = bookValue(text, {
    editions: [edition],
    ...(trial.metadata ? { metadata: trial.metadata } : {}),
    ...(trial.assets ? { assets: trial.assets } : {}),
  });
  const view = selectEdition(value, edition.id);
  const request: MakeUpRequest = {
    view,
    settings: trial.settings ?? quoin,
    library: typewriterLibrary,
    setter: trial.setter ?? typewriter(),
    ...(trial.filler ? { filler: trial.filler } : {}),
  };
  const result = makeUp(request);
  checkPages(result);
  checkText(result.pages, text);
  checkParagraphs(result.pages, text);
  if (!trial.filler) expect(makeUp(request).pages).toEqual(result.pages);
  return result;
}

/** The page as lines from top to bottom: text, `*` for an ornament or leader, `---` for a rule, `[picture]`. */
export function linesOf(page: Page): readonly string[] {
  const rows = new Map<number, { x: number; text: string }[]>();
  for (const item of page.items) {
    if (item.kind === 'link') continue;
    const y = Math.round((item.kind === 'glyphs' ? item.y : item.y + item.height) * 2);
    const text = textOfItem(item);
    rows.set(y, [...(rows.get(y) ?? []), { x: item.x, text }]);
  }
  return [...rows.entries()]
    .sort(([one], [other]) => one - other)
    .map(([, parts]) =>
      parts
        .sort((one, other) => one.x - other.x)
        .map((part) => part.text)
        .join(' | '),
    );
}

function textOfItem(item: Exclude<Page['items'][number], { kind: 'link' }>): string {
  if (item.kind === 'glyphs') return item.text;
  return { path: '*', rule: '---', image: '[picture]' }[item.kind];
}

/** The lines of text of the book on a page, furniture left out. */
export function textLines(page: Page): readonly string[] {
  return runsOf(page).map((run) => run.text);
}

export function runsOf(page: Page): readonly GlyphRun[] {
  return page.items.filter((item): item is GlyphRun => item.kind === 'glyphs' && !item.furniture);
}

/** What the pages are, in a row: `i:halfTitle ii- 1:s4 2`, a dash for a blank, the folio in brackets where it prints. */
export function sequence(result: MadeUp): string {
  return result.pages
    .map((page) => {
      const folio = page.folio.printed ? `(${page.folio.label})` : page.folio.label;
      return folio + (page.blank ? '-' : page.opener ? `:${page.section}` : '');
    })
    .join(' ');
}

function checkPages({ pages, design }: MadeUp): void {
  expect(pages.length % 2, 'an even number of pages').toBe(0);
  pages.forEach((page, index) => {
    expect(page.index).toBe(index);
    expect(page.side).toBe(index % 2 === 0 ? 'recto' : 'verso');
    // FACTS O-01: odd folios on rectos.
    expect(page.folio.value % 2).toBe(page.side === 'recto' ? 1 : 0);
    if (page.blank) expect(page.items).toEqual([]);
    for (const item of page.items) {
      if (runsOver(item, page)) continue;
      const width = item.kind === 'glyphs' ? widthOf(page, item) : item.width;
      const top = item.kind === 'glyphs' ? item.y - item.size * 0.7 : item.y;
      const bottom = item.kind === 'glyphs' ? item.y + item.size * 0.25 : item.y + item.height;
      expect(item.x, `left of ${JSON.stringify(item)}`).toBeGreaterThanOrEqual(0);
      expect(item.x + width, `right of ${JSON.stringify(item)}`).toBeLessThanOrEqual(page.size.width + 0.01);
      expect(top).toBeGreaterThanOrEqual(0);
      expect(bottom, `bottom of ${JSON.stringify(item)}`).toBeLessThanOrEqual(page.size.height);
    }
    for (const run of runsOf(page)) {
      if (run.size !== design.text.size) continue;
      // FACTS T-28: lines stand on the baseline grid.
      const line = (run.y - design.frame.firstBaseline) / design.frame.leading;
      expect(Math.abs(line - Math.round(line)), `grid of ${run.text}`).toBeLessThan(0.001);
      expect(line).toBeGreaterThan(-0.001);
      // FACTS T-16: a spread may run a line long.
      expect(line).toBeLessThan(design.frame.lines + 0.001);
    }
  });
}

function widthOf(page: Page, run: GlyphRun): number {
  let width = 0;
  for (let index = run.start; index < run.start + run.count; index++) width += page.advances[index] ?? 0;
  return width;
}

/** Every text block's characters appear once and in order, spaces at line ends aside. */
function checkText(pages: readonly Page[], text: Node): void {
  const shown = new Map<string, string>();
  for (const page of pages) {
    for (const run of runsOf(page)) {
      const block = run.at?.block ?? '';
      shown.set(block, (shown.get(block) ?? '') + run.text);
    }
  }
  text.forEach((section) => {
    for (const block of allTextblocks(section)) {
      const words = letters(textOf(block));
      if (words !== '') expect(letters(shown.get(String(block.attrs['id'])) ?? ''), `text of ${words}`).toBe(words);
    }
  });
}

function allTextblocks(node: Node): readonly Node[] {
  const found = [...textblocksOf(node)];
  node.descendants((child) => {
    if (child.type.name === 'note') found.push(...textblocksOf(child));
    return true;
  });
  return found.filter((block) => !block.children.some((child) => child.type.name === 'field'));
}

function letters(text: string): string {
  return text.replace(/[^\p{L}]/gu, '');
}

/** FACTS T-13: at least two lines of a paragraph on each page that it stands on. */
function checkParagraphs(pages: readonly Page[], text: Node): void {
  const paragraphs = new Set<string>();
  text.descendants((node) => {
    if (node.type.name === 'paragraph') paragraphs.add(String(node.attrs['id']));
    return true;
  });
  const lines = new Map<string, Map<number, Set<number>>>();
  for (const page of pages) {
    for (const run of runsOf(page)) {
      const block = run.at?.block ?? '';
      if (!paragraphs.has(block)) continue;
      const byPage = lines.get(block) ?? new Map<number, Set<number>>();
      lines.set(block, byPage);
      byPage.set(page.index, (byPage.get(page.index) ?? new Set()).add(Math.round(run.y)));
    }
  }
  for (const [block, byPage] of lines) {
    if (byPage.size < 2) continue;
    for (const [page, rows] of byPage) expect(rows.size, `lines of ${block} on page ${page}`).toBeGreaterThan(1);
  }
}
