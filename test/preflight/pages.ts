/** Pages for tests of rules: lines of text at a margin, one glyph a character, ten points apart. */
import type { Rect } from '#base';
import { type ImageItem, type Page, PageBuilder } from '#page';

export interface Line {
  readonly block: string;
  readonly offset: number;
  readonly text: string;
}

/** The lines of one text block: `paragraph('b2', 'First line di\u00AD', 'vided.')`. */
export function paragraph(block: string, ...texts: readonly string[]): readonly Line[] {
  let offset = 0;
  return texts.map((text) => {
    const line = { block, offset, text };
    offset += text.length;
    return line;
  });
}

export interface PageSetting {
  readonly section?: string;
  readonly opener?: boolean;
  readonly blank?: boolean;
  /** Distance of the lines from the spine, in points. */
  readonly inside?: number;
  readonly images?: readonly (Rect & Pick<ImageItem, 'asset'>)[];
}

export type PageMaker = (index: number) => Page;

const SIZE = { width: 396, height: 612 };
const ADVANCE = 5;
const LEADING = 14;

/** A page with these lines; `book` gives it its place. */
export function page(setting: PageSetting, ...lines: readonly (Line | readonly Line[])[]): PageMaker {
  return (index) => {
    const builder = new PageBuilder();
    const side = index % 2 === 0 ? 'recto' : 'verso';
    lines.flat().forEach((line, row) => {
      const width = line.text.length * ADVANCE;
      const inside = setting.inside ?? 60;
      const x = side === 'recto' ? inside : SIZE.width - inside - width;
      builder.beginRun({
        face: 'f',
        size: 11,
        x,
        y: 60 + row * LEADING,
        at: { block: line.block, offset: line.offset },
      });
      for (let at = 0; at < line.text.length; at++) builder.glyph(1, ADVANCE, at);
      builder.endRun(line.text);
    });
    for (const image of setting.images ?? []) {
      builder.add({ kind: 'image', alt: '', at: { block: 'fig', offset: 0 }, ...image });
    }
    return builder.finish({
      index,
      side,
      folio: { label: String(index + 1), style: 'arabic', value: index + 1, printed: true },
      section: setting.section ?? 's1',
      blank: setting.blank ?? false,
      opener: setting.opener ?? false,
      size: SIZE,
    });
  };
}

export function pagesOf(...makers: readonly PageMaker[]): readonly Page[] {
  return makers.map((make, index) => make(index));
}

/** `count` pages with a line each, the last one empty. */
export function filler(count: number, setting: PageSetting = {}): readonly Page[] {
  const full = page(setting, paragraph('filler', 'A line.'));
  return pagesOf(...Array.from({ length: count }, (_, index) => (index === count - 1 ? page({}) : full)));
}
