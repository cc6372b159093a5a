/**
 * Text with looks, as recognition handles it. In: the inlines of a raw paragraph; out: one flat string with runs of one
 * look each and leaves for what is no text, so that quotes and spaces are judged on the whole paragraph, never by run.
 */
import type { RawInline, RawParagraph, RawText } from '../../raw.ts';

/** How a run looks; runs of equal look share one value. */
export interface Look {
  readonly italic: boolean;
  readonly bold: boolean;
  readonly underline: boolean;
  readonly smallCaps: boolean;
  /** Shown as capitals; the text is as typed. */
  readonly allCaps: boolean;
  readonly strike: boolean;
  readonly raised: 'superscript' | 'subscript' | null;
  readonly language: string | null;
  readonly href: string | null;
}

export type Leaf =
  | { readonly kind: 'note'; readonly place: 'foot' | 'end'; readonly paragraphs: readonly RawParagraph[] }
  | Extract<RawInline, { kind: 'image' }>;

export interface Rich {
  /** Soft returns are '\n', tabs '\t', leaves `LEAF`. */
  readonly text: string;
  /** Where each run ends. */
  readonly ends: readonly number[];
  readonly looks: readonly Look[];
  /** In the order of their `LEAF` characters. */
  readonly leaves: readonly Leaf[];
}

/** Stands for a note or image (U+FFFC, object replacement character). */
export const LEAF = '\ufffc';

export const PLAIN: Look = {
  italic: false,
  bold: false,
  underline: false,
  smallCaps: false,
  allCaps: false,
  strike: false,
  raised: null,
  language: null,
  href: null,
};

export const EMPTY: Rich = { text: '', ends: [], looks: [], leaves: [] };

/** Gathers runs into a `Rich`; equal neighbours become one run. */
export class RichBuilder {
  private readonly parts: string[] = [];
  private readonly ends: number[] = [];
  private readonly looks: Look[] = [];
  private readonly leaves: Leaf[] = [];
  private length = 0;

  add(text: string, look: Look): void {
    if (text === '') return;
    this.parts.push(text);
    this.length += text.length;
    const last = this.looks.length - 1;
    const before = this.looks[last];
    if (before !== undefined && sameLook(before, look)) this.ends[last] = this.length;
    else {
      this.ends.push(this.length);
      this.looks.push(look);
    }
  }

  addLeaf(leaf: Leaf): void {
    this.add(LEAF, this.looks[this.looks.length - 1] ?? PLAIN);
    this.leaves.push(leaf);
  }

  /** Another text, after what there is. */
  append(part: Rich): void {
    let start = 0;
    let leaf = 0;
    part.ends.forEach((end, run) => {
      const look = part.looks[run] ?? PLAIN;
      const pieces = part.text.slice(start, end).split(LEAF);
      pieces.forEach((piece, index) => {
        const found = index > 0 ? part.leaves[leaf++] : undefined;
        if (found !== undefined) this.addLeaf(found);
        this.add(piece, look);
      });
      start = end;
    });
  }

  finish(): Rich {
    return { text: this.parts.join(''), ends: this.ends, looks: this.looks, leaves: this.leaves };
  }
}

export function sameLook(one: Look, other: Look): boolean {
  return (
    one === other ||
    (one.italic === other.italic &&
      one.bold === other.bold &&
      one.underline === other.underline &&
      one.smallCaps === other.smallCaps &&
      one.allCaps === other.allCaps &&
      one.strike === other.strike &&
      one.raised === other.raised &&
      one.language === other.language &&
      one.href === other.href)
  );
}

export function lookOf(run: RawText): Look {
  return {
    italic: run.italic === true,
    bold: run.bold === true,
    underline: run.underline === true,
    smallCaps: run.smallCaps === true,
    allCaps: run.allCaps === true,
    strike: run.strike === true,
    raised: run.raised ?? null,
    language: run.language ?? null,
    href: run.href ?? null,
  };
}

/** The inlines as flat text; page breaks are left to the caller, who has cut the paragraph at them. */
export function richOf(inlines: readonly RawInline[]): Rich {
  const builder = new RichBuilder();
  let look = PLAIN;
  for (const inline of inlines) {
    switch (inline.kind) {
      case 'text':
        look = lookOf(inline);
        builder.add(textOf(inline), look);
        break;
      case 'tab':
        builder.add('\t', look);
        break;
      case 'lineBreak':
        builder.add('\n', look);
        break;
      case 'pageBreak':
        break;
      default:
        builder.addLeaf(inline);
    }
  }
  return builder.finish();
}

function textOf(run: RawText): string {
  return run.text.includes(LEAF) ? run.text.replaceAll(LEAF, '') : run.text;
}

/** Letters shown as capitals become capitals, except those whose capital takes more than one letter. */
export function withCapitals(rich: Rich): Rich {
  if (!rich.looks.some((look) => look.allCaps)) return rich;
  let start = 0;
  const parts = rich.ends.map((end, run) => {
    const part = rich.text.slice(start, end);
    start = end;
    return rich.looks[run]?.allCaps === true ? raised(part) : part;
  });
  return { ...rich, text: parts.join('') };
}

function raised(text: string): string {
  const whole = text.toUpperCase();
  if (whole.length === text.length) return whole;
  return text.replace(/./gsu, (letter) =>
    letter.toUpperCase().length === letter.length ? letter.toUpperCase() : letter,
  );
}

/** A part of the text, with its looks and leaves. */
export function slice(rich: Rich, from: number, to: number): Rich {
  if (from <= 0 && to >= rich.text.length) return rich;
  const builder = new RichBuilder();
  let start = 0;
  let leaf = 0;
  for (let run = 0; run < rich.ends.length; run++) {
    const end = rich.ends[run] ?? 0;
    const look = rich.looks[run] ?? PLAIN;
    for (let at = rich.text.indexOf(LEAF, start); at !== -1 && at < end; at = rich.text.indexOf(LEAF, at + 1)) {
      if (at >= from && at < to) {
        builder.add(rich.text.slice(Math.max(start, from), at), look);
        const found = rich.leaves[leaf];
        if (found !== undefined) builder.addLeaf(found);
        start = at + 1;
      }
      leaf++;
    }
    builder.add(rich.text.slice(Math.max(start, from), Math.min(end, to)), look);
    start = end;
  }
  return builder.finish();
}

/** One after the other. */
export function join(parts: readonly Rich[], between = ''): Rich {
  const builder = new RichBuilder();
  parts.forEach((part, index) => {
    if (index > 0) builder.add(between, part.looks[0] ?? PLAIN);
    builder.append(part);
  });
  return builder.finish();
}

/** White space off both ends, leaves kept. */
export function trim(rich: Rich): Rich {
  const from = rich.text.length - rich.text.trimStart().length;
  return slice(rich, from, rich.text.trimEnd().length);
}

/** Replacements in ascending order, none overlapping; leaves are never inside one. */
export interface Edit {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

/** The text after the edits; an insertion takes the look of the character it stands in for or follows. */
export function applyEdits(rich: Rich, edits: readonly Edit[]): Rich {
  if (edits.length === 0) return rich;
  const parts: string[] = [];
  const ends: number[] = [];
  let from = 0;
  let shift = 0;
  let run = 0;
  for (const edit of edits) {
    while (run < rich.ends.length && (rich.ends[run] ?? 0) <= edit.at) ends.push((rich.ends[run++] ?? 0) + shift);
    parts.push(rich.text.slice(from, edit.at), edit.insert);
    from = edit.at + edit.remove;
    while (run < rich.ends.length && (rich.ends[run] ?? 0) < from) {
      ends.push(edit.at + shift + edit.insert.length);
      run++;
    }
    shift += edit.insert.length - edit.remove;
  }
  parts.push(rich.text.slice(from));
  while (run < rich.ends.length) ends.push((rich.ends[run++] ?? 0) + shift);
  return { text: parts.join(''), ends, looks: rich.looks, leaves: rich.leaves };
}
