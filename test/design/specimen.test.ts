/** The specimen in every built-in design, at three trims and in large print, with the fonts that travel with the program. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, it } from 'vitest';
import type { PrintEdition } from '#book';
import { builtInDesigns } from '#design';
import { Engine, languagesOf } from '#engine';
import type { MadeUp } from '#makeup';
import { type GlyphRun, type Page, runsOver } from '#page';
import { preflight } from '#preflight';
import { loadFontLibrary, loadHyphenator } from '#type';
import { BUNDLED_FONTS } from '../../electron/services/bundled.ts';
import { bookValue, PRINT } from '../builders/book.ts';
import { fontModules } from '../type/fonts.ts';
import { PICTURE, specimen } from './specimen.ts';

const require = createRequire(import.meta.url);
const value = bookValue(specimen(), { assets: new Map([[PICTURE.id, PICTURE]]) });

let engine: Engine;

/** Milliseconds that fonts and patterns may take to load on a busy machine. */
const LOADING = 60_000;

beforeAll(async () => {
  const fonts = BUNDLED_FONTS.map(({ family, weight, italic, fallback, package: from, path }) => {
    const read = () => new Uint8Array(readFileSync(require.resolve(`${from}/${path}`)));
    return { family, weight, italic, fallback, read };
  });
  const hyphenators = new Map<string, NonNullable<Awaited<ReturnType<typeof loadHyphenator>>>>();
  for (const language of languagesOf(value)) {
    const found = await loadHyphenator(language);
    if (found) hyphenators.set(language, found);
  }
  engine = new Engine({ library: await loadFontLibrary(fonts, fontModules()), hyphenators });
}, LOADING);

/** A quarter of an inch, which every press asks for (FACTS 4.2). */
const CLEAR = 18;

const TRIMS = [
  [360, 576],
  [396, 612],
  [432, 648],
] as const;

const settings = builtInDesigns.flatMap(({ id }) => [
  ...TRIMS.map(([width, height]) => [id, `${width / 72} by ${height / 72} in`, { trim: { width, height } }] as const),
  [id, 'large print', { trim: { width: 432, height: 648 }, largePrint: 16 }] as const,
]);

describe.each(settings)('in %s, %s', (design, _, wishes) => {
  const edition: PrintEdition = { ...(PRINT as PrintEdition), ...wishes, design, notes: 'book' };
  const whole = { ...value, editions: [edition] };

  it('every block stands inside its page, on the grid, with all its letters', () => {
    const { madeUp, view } = engine.print(whole, edition.id);
    const { pages, findings } = madeUp;
    expect(madeUp.settled).toBe(true);
    expect(pages.flatMap((page) => misplaced(page, madeUp))).toEqual([]);
    const rules = preflight({ book: whole, view, pages, carried: [] }).map((finding) => finding.rule);
    const known = ['pages/last-page', 'images/resolution', 'pages/gutter', 'pages/count', 'lines/divided-at-turn'];
    expect(rules.filter((rule) => !known.includes(rule))).toEqual([]);
    expect(findings.map((finding) => finding.rule)).toEqual([]);
    expect(pages.filter((page) => page.items.some((each) => runsOver(each, page)))).toHaveLength(1);
  });
});

/** The runs that stand too near the trim, and the lines of text that stand off the grid. */
function misplaced(page: Page, { design }: MadeUp): readonly string[] {
  const { frame, text } = design;
  return page.items
    .filter((each): each is GlyphRun => each.kind === 'glyphs')
    .filter((run) => {
      let right = run.x;
      for (let glyph = run.start; glyph < run.start + run.count; glyph++) right += page.advances[glyph]!;
      const inside = run.x > CLEAR && right < frame.trim.width - CLEAR && run.y < frame.trim.height - CLEAR;
      const isText = !run.furniture && run.size === text.size && run.at !== undefined;
      const lines = (run.y - frame.firstBaseline) / frame.leading;
      return !inside || (isText && Math.abs(lines - Math.round(lines)) > 0.001);
    })
    .map((run) => `${page.folio.label}: ${run.text} at ${run.x}, ${run.y}`);
}
