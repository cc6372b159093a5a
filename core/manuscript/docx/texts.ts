/**
 * Makes text inlines and keeps count of the languages they are in, so that only what differs from the manuscript's own
 * language carries a mark.
 */
import type { RawBlock, RawInline, RawParagraph, RawText } from '../raw.ts';
import type { Mutable } from './mutable.ts';
import { ALL_CAPS, BOLD, DOUBLE_STRIKE, ITALIC, type Look, SMALL_CAPS, STRIKE, UNDERLINE } from './runProperties.ts';

export class Texts {
  private readonly counts = new Map<string, number>();

  /** `base` is the language of the default paragraph style; null if the file names none. */
  constructor(private readonly base: string | null) {}

  make(text: string, look: Look, href: string | null): RawText {
    const made: Mutable<RawText> = { kind: 'text', text, size: look.size };
    const { flags } = look;
    if (flags & ITALIC) made.italic = true;
    if (flags & BOLD) made.bold = true;
    // The line under a link is the link's own look and no emphasis.
    if (flags & UNDERLINE && href === null) made.underline = true;
    if (flags & SMALL_CAPS) made.smallCaps = true;
    if (flags & ALL_CAPS) made.allCaps = true;
    if (flags & (STRIKE | DOUBLE_STRIKE)) made.strike = true;
    if (look.raised !== null) made.raised = look.raised;
    if (href !== null) made.href = href;
    const language = look.language ?? this.base;
    if (language !== null) {
      this.counts.set(language, (this.counts.get(language) ?? 0) + text.length);
      if (primary(language) !== primary(this.base)) made.language = language;
    }
    return made;
  }

  /** The language of most text. */
  mainLanguage(): string | null {
    const byPrimary = new Map<string, number>();
    for (const [language, count] of this.counts) {
      const key = primary(language);
      byPrimary.set(key, (byPrimary.get(key) ?? 0) + count);
    }
    const main = largest(byPrimary);
    const regional = new Map([...this.counts].filter(([language]) => primary(language) === main));
    return largest(regional) ?? this.base;
  }

  /** Where most text turned out to be in another language than the default style's, marks change sides. */
  settle(blocks: readonly RawBlock[]): readonly RawBlock[] {
    const main = this.mainLanguage();
    if (primary(main) === primary(this.base)) return blocks;
    return blocks.map((each) => this.settleBlock(each, primary(main)));
  }

  private settleBlock(block: RawBlock, main: string): RawBlock {
    switch (block.kind) {
      case 'paragraph':
        return this.settleParagraph(block, main);
      case 'frame':
        return { kind: 'frame', blocks: block.blocks.map((each) => this.settleBlock(each, main)) };
      case 'table': {
        const rows = block.rows.map((row) => row.map((cell) => cell.map((each) => this.settleBlock(each, main))));
        return { kind: 'table', rows };
      }
    }
  }

  private settleParagraph(paragraph: RawParagraph, main: string): RawParagraph {
    return { ...paragraph, inlines: paragraph.inlines.map((each) => this.settleInline(each, main)) };
  }

  private settleInline(inline: RawInline, main: string): RawInline {
    if (inline.kind === 'note') {
      return { ...inline, paragraphs: inline.paragraphs.map((each) => this.settleParagraph(each, main)) };
    }
    if (inline.kind !== 'text') return inline;
    const { language: marked, ...rest } = inline;
    const language = marked ?? this.base;
    return language !== null && primary(language) !== main ? { ...rest, language } : rest;
  }
}

/** `en` of `en-GB`: regions differ by accident of the keyboard too often to count as another language. */
function primary(language: string | null): string {
  return language?.split(/[-_]/, 1)[0]?.toLowerCase() ?? '';
}

function largest(counts: ReadonlyMap<string, number>): string | null {
  let best: string | null = null;
  for (const [key, count] of counts) if (best === null || count > (counts.get(best) ?? 0)) best = key;
  return best;
}
