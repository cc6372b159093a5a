/**
 * Paragraphs for tests, readable: `set('Some *italic* words^a', at(200))` gives the lines as they stand on the page, and
 * checks on the way what must hold for every paragraph.
 */
import { expect } from 'vitest';
import { type GlyphRun, type Page, PageBuilder } from '#page';
import {
  type BreakSettings,
  type BrokenParagraph,
  createSetter,
  type ParagraphSetter,
  type ParagraphShape,
  type Span,
  type StyledText,
  type TextStyle,
} from '#paragraph';
import { type FontLibrary, type Hyphenator, loadHyphenator } from '#type';
import { testLibrary } from '../type/fonts.ts';

export interface Shop {
  readonly library: FontLibrary;
  readonly setter: ParagraphSetter;
  readonly english: Hyphenator;
  readonly style: TextStyle;
}

/** A setter with EB Garamond and American hyphens. */
export async function openShop(settings: Partial<BreakSettings> = {}): Promise<Shop> {
  const library = await testLibrary();
  const english = (await loadHyphenator('en-US'))!;
  const hyphenator = (language: string): Hyphenator | null => (language === 'en-US' ? english : null);
  const style: TextStyle = {
    family: library.family('EB Garamond'),
    italic: false,
    bold: false,
    size: 11,
    features: ['onum', 'pnum'],
    letterspace: 0,
    rise: 0,
    language: 'en-US',
    grey: 0,
    strike: false,
    hyphenate: true,
    letterCase: 'asTyped',
  };
  return { library, setter: createSetter({ library, hyphenator, settings }), english, style };
}

/**
 * Styled text from a line of markup: `*italic*`, `_another style_`, `^a` a reference to note a (its mark reads a), `|`
 * a forced break.
 */
export function styled(markup: string, style: TextStyle, other: Partial<TextStyle> = {}, href: string | null = null) {
  const spans: Span[] = [];
  let offset = 0;
  let current = { ...style };
  let link: string | null = null;
  for (const part of markup.split(/(\*|_|\^\w|\|)/)) {
    if (part === '') continue;
    if (part === '*') current = { ...current, italic: !current.italic };
    else if (part === '_') {
      link = link === null ? href : null;
      current = current.size === -1 ? style : toggled(current, style, other);
    } else if (part === '|') spans.push({ kind: 'lineBreak', offset: offset++ });
    else if (part.startsWith('^')) {
      const mark = { ...style, size: 7, rise: 4 };
      spans.push({
        kind: 'noteMark',
        text: part.slice(1),
        offset: offset++,
        style: mark,
        note: `note-${part.slice(1)}`,
      });
    } else {
      spans.push({ kind: 'text', text: part, offset, style: current, href: link });
      offset += part.length;
    }
  }
  return { block: 'block-1', spans } satisfies StyledText;
}

function toggled(current: TextStyle, style: TextStyle, other: Partial<TextStyle>): TextStyle {
  const changed = Object.keys(other).some((key) => current[key as keyof TextStyle] !== style[key as keyof TextStyle]);
  return changed ? style : { ...current, ...other };
}

export function at(measure: number, more: Partial<ParagraphShape> = {}): ParagraphShape {
  return {
    // Styles here have their sizes in points: shares of a text size of one point.
    size: 1,
    measure,
    indentFirst: 0,
    indentRest: 0,
    notch: null,
    align: 'justify',
    hang: false,
    scaling: 0,
    lastLineMin: 0,
    ...more,
  };
}

export interface PlacedLine {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly runs: readonly GlyphRun[];
}

/** A line's runs on a page, as text with `-` for an added hyphen, and its ends (a space at the end left out). */
export function placed(paragraph: BrokenParagraph, line: number): PlacedLine & { readonly page: Page } {
  const builder = new PageBuilder();
  paragraph.place(line, 0, 100, builder);
  const page = finish(builder);
  const runs = page.items.filter((item) => item.kind === 'glyphs');
  let right = runs[0]?.x ?? 0;
  for (const run of runs) {
    expect(run.x, 'runs join').toBeCloseTo(right, 3);
    for (let i = run.start; i < run.start + run.count; i++) right += page.advances[i]!;
  }
  return {
    text: runs
      .map((run) => run.text)
      .join('')
      .replace('\u00ad', '-'),
    left: runs[0]?.x ?? 0,
    right,
    runs,
    page,
  };
}

export function finish(builder: PageBuilder): Page {
  const folio = { label: '1', style: 'arabic', value: 1, printed: true } as const;
  const size = { width: 400, height: 600 };
  return builder.finish({ index: 0, side: 'recto', folio, section: null, blank: false, opener: false, size });
}

/** The flat text of spans, each note mark and forced break as one character. */
export function flatText(text: StyledText): string {
  return text.spans
    .map((span) => (span.kind === 'text' ? span.text : span.kind === 'noteMark' ? '\u0001' : '\n'))
    .join('');
}

/** All lines of a broken paragraph; checks the laws. */
export function linesOf(text: StyledText, shape: ParagraphShape, paragraph: BrokenParagraph): string[] {
  const lines = paragraph.lines.map((_, i) => placed(paragraph, i));
  const flat = flatText(text);
  let end = 0;
  paragraph.lines.forEach((line, i) => {
    expect(flat.slice(end, line.from).trim(), 'only spaces and breaks between lines').toBe('');
    expect(line.to).toBeGreaterThanOrEqual(line.from);
    end = line.to;
    const { left, right, text: shown } = lines[i]!;
    const last = i === paragraph.lines.length - 1;
    const measure = shape.measure;
    if (!shape.hang && line.overfull === 0) expect(right, `line ${i} ends inside`).toBeLessThanOrEqual(measure + 0.02);
    expect(left).toBeGreaterThanOrEqual(shape.hang ? -5 : 0);
    const forced = flat[line.to] === '\n';
    const gaps = shown.trim().includes(' ');
    if (shape.align === 'justify' && !shape.hang && !last && !forced && gaps && line.overfull === 0) {
      expect(right, `line ${i} is justified`).toBeCloseTo(measure, 2);
    }
  });
  expect(flat.slice(end).trim(), 'nothing is left over').toBe('');
  const notes = text.spans.flatMap((span) => (span.kind === 'noteMark' ? [span.note] : []));
  expect(paragraph.lines.flatMap((line) => line.notes)).toEqual(notes);
  checkText(
    text,
    lines.map((line) => line.text),
  );
  return lines.map((line) => line.text);
}

/** What the lines show is the paragraph's text, but for spaces, added hyphens and letter case. */
function checkText(text: StyledText, lines: readonly string[]): void {
  const bare = (all: string) => all.replace(/[\s\u00ad-]/g, '').toLowerCase();
  const source = text.spans.map((span) => (span.kind === 'lineBreak' ? '' : span.text)).join('');
  expect(bare(lines.join(''))).toBe(bare(source));
}
