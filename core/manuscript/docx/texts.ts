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

  /** Counts letters of a language; gives the mark for them, null where it is the manuscript's own. */
  count(language: string | null, letters: number): string | null {
    const known = language ?? this.base;
    if (known === null) return null;
    this.counts.set(known, (this.counts.get(known) ?? 0) + letters);
    return known === this.base || primary(known) === primary(this.base) ? null : known;
  }

  make(text: string, look: Look, { href, language }: { href: string | null; language: string | null }): RawText {
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
    if (language !== null) made.language = language;
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
    const inlines: RawInline[] = [];
    for (const inline of paragraph.inlines) {
      const settled = this.settleInline(inline, main);
      const last = inlines[inlines.length - 1];
      const joined = last && joinedText(last, settled);
      if (joined) inlines[inlines.length - 1] = joined;
      else inlines.push(settled);
    }
    return { ...paragraph, inlines };
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

/** One text for two of the same look; null for any others. */
function joinedText(a: RawInline, b: RawInline): RawText | null {
  if (a.kind !== 'text' || b.kind !== 'text') return null;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)] as (keyof RawText)[]);
  keys.delete('text');
  for (const key of keys) if (a[key] !== b[key]) return null;
  return { ...a, text: a.text + b.text };
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
