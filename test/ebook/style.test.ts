import { expect, test } from 'vitest';
import { builtInDesigns, type DesignSettings, resolveForEbook } from '#design';
import { makeEbook } from '#ebook';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { filesOf, request } from './request.ts';
import { richBook } from './rich.ts';

function styleOf(change: (settings: DesignSettings) => DesignSettings = (same) => same, language = 'en'): string {
  const [settings] = builtInDesigns;
  if (!settings) throw new RangeError('no built-in design');
  const value = bookValue(book(chapter('One', p('It was the fourteenth.'))), { metadata: { language } });
  const files = filesOf(makeEbook(request(value, { design: resolveForEbook(change(settings)) })));
  return files.get('EPUB/style.css') ?? '';
}

// FACTS A-17 (displayTransformability) and E-43 (CSS requirements of EPUB 3.3).
test('nothing in the style sheet stands against a reader’s settings', () => {
  const css = styleOf();
  expect(css).not.toMatch(/\d(px|pt|mm|cm|in)\b/);
  expect(css).not.toMatch(/!important|position|direction|unicode-bidi/);
  expect(css).not.toMatch(/(?:^|[;{\s])(?:background-)?color: (?!inherit)/);
});

test('each class that the text uses is known to the style sheet, save names of kinds and set-off forms', () => {
  const files = filesOf(makeEbook(request(richBook())));
  const css = files.get('EPUB/style.css') ?? '';
  const used = new Set<string>();
  for (const [path, text] of files) {
    if (!path.endsWith('.xhtml')) continue;
    for (const match of text.matchAll(/ class="([^"]*)"/g))
      for (const name of (match[1] ?? '').split(' ')) used.add(name);
  }
  const unstyled = [...used].filter((name) => !new RegExp(`\\.${name}(?![\\w-])`).test(css)).sort();
  expect(unstyled).toEqual([
    'about-author',
    'acknowledgments',
    'afterword',
    'also-by',
    'appendix',
    'bibliography',
    'chapter',
    'colophon',
    'contents',
    'discussion',
    'document',
    'epilogue',
    'excerpt',
    'foreword',
    'generated',
    'glossary',
    'index',
    'interlude',
    'introduction',
    'letter',
    'note',
    'ornament',
    'other',
    'preface',
    'prologue',
    'space',
  ]);
});

test('every file that the style sheet names is there', () => {
  const files = filesOf(makeEbook(request(richBook())));
  const named = [...(files.get('EPUB/style.css') ?? '').matchAll(/url\("([^"]*)"\)/g)].map(
    (match) => `EPUB/${match[1]}`,
  );
  expect(named.length).toBeGreaterThan(3);
  for (const path of named) expect([...files.keys()]).toContain(path);
});

// FACTS T-26: a break at the end of a page must show a mark; on a screen any break may stand there.
test('every scene break shows the ornament of the design', () => {
  expect(styleOf()).toMatch(/hr\.scene-break \{[^}]*background: url\("images\/ornament-lozenges\.svg"\)/);
});

test('a drop cap is the design’s wish, and the lead-in then stays away', () => {
  const css = styleOf((settings) => ({ ...settings, leadIn: { ...settings.leadIn, kind: 'dropCap' } }));
  expect(css).toContain('p.opening::first-letter');
  expect(styleOf()).not.toContain('::first-letter');
});

test('a book that is read from the right is laid out from the right', () => {
  expect(styleOf(undefined, 'he')).toMatch(/p\.line \{ padding-right/);
  expect(styleOf()).toMatch(/p\.line \{ padding-left/);
});

test('figures come as the design has them, also inside small capitals', () => {
  const css = styleOf();
  expect(css).toMatch(/body \{[^}]*font-variant-numeric: oldstyle-nums/);
  expect(css).toMatch(/\.lead-in \{ font-variant: small-caps; font-variant-numeric: oldstyle-nums/);
});

test('paragraphs are told apart by an indent or by white', () => {
  const indented = styleOf();
  expect(indented).toMatch(/\np \{[^}]*text-indent: 1em/);
  expect(indented).toContain('p.first { text-indent: 0; }');
  expect(indented).not.toContain('\np + p {');
  const spaced = styleOf((each) => ({ ...each, text: { ...each.text, paragraphs: 'spaced' } }));
  expect(spaced).toMatch(/\np \{[^}]*text-indent: 0/);
  expect(spaced).toContain('\np + p { margin-top: 0.7em; }');
  const allIndented = styleOf((each) => ({ ...each, text: { ...each.text, flushFirst: false } }));
  expect(allIndented).not.toContain('p.first { text-indent: 0; }');
});

test('an epigraph keeps the alignment of its paragraphs, and its source stands in the middle below centred ones', () => {
  const css = styleOf((each) => each);
  const rule = (selector: string): number => css.indexOf(`${selector} {`);
  expect(css).toMatch(/blockquote\.epigraph p\.align-center, [^{]*\{ text-align: center;/);
  expect(css).toMatch(/blockquote\.epigraph p\.align-end, [^{]*\{ text-align: right; \}/);
  expect(css).toMatch(/blockquote\.epigraph p\.align-center \+ p\.attribution \{ text-align: center;/);
  // Each comes after the rule that it is an exception to.
  const general = rule('blockquote.epigraph p, .epigraph.opener-matter p');
  const sources = rule('p.attribution, blockquote.epigraph p.attribution');
  expect(general).toBeGreaterThan(0);
  expect(css.indexOf('.epigraph.opener-matter p.align-center')).toBeGreaterThan(general);
  expect(sources).toBeGreaterThan(general);
  expect(css.indexOf('p.align-center + p.attribution')).toBeGreaterThan(sources);
});

test('what the design says of first lines, sources, verse, lists, tables and captions stands in the style sheet', () => {
  const css = styleOf((each) => ({
    ...each,
    leadIn: { ...each.leadIn, kind: 'firstLine' },
    attribution: { align: 'start', italic: true },
    quotation: { ...each.quotation, italic: true },
    verse: { ...each.verse, size: 0.9, italic: true },
    lists: { indent: 2.5 },
    tables: { size: 0.9, rules: 'rows' },
    caption: { ...each.caption, align: 'start' },
    subheadSpace: { above: 4, below: 0 },
  }));
  expect(css).toMatch(/p\.opening::first-line \{ font-variant: small-caps;[^}]*letter-spacing: 0\.05em/);
  expect(css).toMatch(/p\.attribution[^{]*\{[^}]*font-style: italic;[^}]*text-align: left/);
  expect(css).toMatch(/blockquote\.quotation \{[^}]*font-style: italic/);
  expect(css).toMatch(/\.verse \{[^}]*font-size: 0\.9em; font-style: italic/);
  expect(css).toMatch(/ol, ul \{[^}]*padding-left: 2\.5em/);
  expect(css).toMatch(/table \{[^}]*font-size: 0\.9em; border-top: thin solid/);
  expect(css).toMatch(/th, td \{[^}]*border-bottom: thin solid/);
  expect(css).toMatch(/figcaption \{[^}]*text-align: left/);
  expect(css).toMatch(/\.subhead-3 \{ margin: 3em 0 0[; ]/);
});
