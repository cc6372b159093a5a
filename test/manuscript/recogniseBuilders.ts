/**
 * Manuscripts for tests. In: what a novel consists of and how its author formats; out: a raw manuscript and what must be
 * recognised in it. The prose is put together from short word lists by a seeded generator: same seed, same text.
 */
import type { RawBlock, RawInline, RawManuscript, RawParagraph } from '#manuscript';

export type ParagraphLook = Partial<Omit<RawParagraph, 'kind' | 'inlines'>>;

/** A paragraph; strings become plain text, '\t' a tab and '\n' a soft return. */
export function para(content: string | readonly RawInline[], look: ParagraphLook = {}): RawParagraph {
  return {
    kind: 'paragraph',
    inlines: typeof content === 'string' ? inlines(content) : content,
    style: null,
    outlineLevel: null,
    align: 'start',
    indentFirst: 0,
    indentStart: 0,
    indentEnd: 0,
    spaceBefore: 0,
    spaceAfter: 0,
    pageBreakBefore: false,
    sectionBreakBefore: false,
    list: null,
    inContentsField: false,
    rule: false,
    ...look,
  };
}

type TextLook = Omit<Extract<RawInline, { kind: 'text' }>, 'kind' | 'text'>;

/** Text of one look, cut at tabs and soft returns. */
export function inlines(text: string, look: TextLook = {}): readonly RawInline[] {
  return text
    .split(/([\t\n])/)
    .filter((part) => part !== '')
    .map((part): RawInline => {
      if (part === '\t') return { kind: 'tab' };
      return part === '\n' ? { kind: 'lineBreak' } : { kind: 'text', text: part, ...look };
    });
}

export const empty = (): RawParagraph => para([]);
export const empties = (count: number): readonly RawParagraph[] => Array.from({ length: count }, empty);
export const pageBreak = (): RawParagraph => para([{ kind: 'pageBreak' }]);
export const centred = (text: string, look: TextLook = {}): RawParagraph =>
  para(inlines(text, look), { align: 'center' });

export function manuscript(
  blocks: readonly RawBlock[],
  properties: Partial<RawManuscript['properties']> = {},
): RawManuscript {
  return {
    name: 'manuscript',
    blocks,
    assets: new Map(),
    properties: { title: null, author: null, language: null, modified: null, ...properties },
    remarks: [],
  };
}

const LEXICON: Readonly<Record<string, readonly string[]>> = {
  en: 'the and of to was he she that it his her with had you not for river stone door night wind walked said never ferry lamp water bridge miller letter kitchen morning slow cold bright small hand road'.split(
    ' ',
  ),
  fr: 'le la les de des et un une dans que qui il elle pas vous je rivi\u00e8re porte nuit vent pierre lampe marchait disait jamais lettre matin froid lent petite main chemin eau pont meunier'.split(
    ' ',
  ),
  de: 'der die und das ich nicht sie ist er den ein eine mit zu sich Fluss Stein T\u00fcr Nacht Wind ging sagte niemals Brief K\u00fcche Morgen langsam kalt hell klein Hand Stra\u00dfe Wasser'.split(
    ' ',
  ),
  es: 'el la los que y en un una de no se con por su r\u00edo piedra puerta noche viento caminaba dijo nunca carta cocina ma\u00f1ana lento fr\u00edo claro peque\u00f1a mano camino agua puente'.split(
    ' ',
  ),
};

/** Sentences from a word list; a linear congruential generator picks (Numerical Recipes' constants). */
export class Prose {
  private state: number;

  constructor(
    private readonly language: string,
    seed = 1,
  ) {
    this.state = seed >>> 0;
  }

  pick(count: number): number {
    this.state = (Math.imul(this.state, 1664525) + 1013904223) >>> 0;
    return Math.floor((this.state / 2 ** 32) * count);
  }

  sentence(words = 6 + this.pick(14)): string {
    const list = LEXICON[this.language] ?? [];
    const text = Array.from({ length: words }, () => list[this.pick(list.length)] ?? '').join(' ');
    return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
  }

  paragraph(sentences = 2 + this.pick(5)): string {
    return Array.from({ length: sentences }, () => this.sentence()).join(' ');
  }

  /** Long and short paragraphs as in a scene with some talk. */
  scene(paragraphs = 8 + this.pick(5)): readonly string[] {
    return Array.from({ length: paragraphs }, () =>
      this.pick(4) === 0 ? this.sentence(3 + this.pick(4)) : this.paragraph(),
    );
  }
}

export interface SectionSpec {
  readonly kind: string;
  /** The heading's lines, number apart from title where there are two; none for a page without heading. */
  readonly heading: readonly string[];
  readonly scenes: readonly (readonly string[])[];
}

export interface Format {
  readonly heading: 'style' | 'boldCentre' | 'centre' | 'bold' | 'big' | 'plain' | 'mixed';
  readonly page: 'manual' | 'before' | 'empties' | 'none' | 'mixed';
  /** Blank lines after a heading. */
  readonly below: number;
  readonly body: 'tab' | 'indent' | 'blank' | 'style';
  readonly sceneBreak: string;
  /** How the two lines of a heading are joined: own paragraphs, a soft return, or this text. */
  readonly join: 'paragraphs' | '\n' | ': ' | '. ' | ' \u2013 ';
  readonly contents: 'none' | 'tab' | 'dots' | 'plain' | 'field';
}

export const TIDY: Format = {
  heading: 'style',
  page: 'before',
  below: 0,
  body: 'style',
  sceneBreak: '***',
  join: ': ',
  contents: 'none',
};

/** The blocks of a novel, formatted in one way. */
export function typed(sections: readonly SectionSpec[], format: Format): readonly RawBlock[] {
  const blocks: RawBlock[] = [];
  if (format.contents !== 'none') blocks.push(...contentsList(sections, format));
  sections.forEach((section, index) => {
    const before = pageBefore(format, index);
    blocks.push(...before.blocks);
    blocks.push(...headingOf(section, format, index, before.flag));
    section.scenes.forEach((scene, at) => {
      if (at > 0) blocks.push(...breakOf(format));
      scene.forEach((text, line) => {
        if (format.body === 'blank' && line > 0) blocks.push(empty());
        const first = line === 0 && at === 0 && section.heading.length === 0;
        blocks.push(body(text, format, first && before.flag));
      });
    });
  });
  return blocks;
}

function pageBefore(format: Format, index: number): { blocks: readonly RawBlock[]; flag: boolean } {
  const how = format.page === 'mixed' ? (['manual', 'before', 'empties'] as const)[index % 3] : format.page;
  if (how === 'manual') return { blocks: [pageBreak()], flag: false };
  if (how === 'empties') return { blocks: empties(11), flag: false };
  if (how === 'none') return { blocks: empties(2), flag: false };
  return { blocks: [], flag: true };
}

function headingOf(section: SectionSpec, format: Format, index: number, flag: boolean): readonly RawBlock[] {
  if (section.heading.length === 0) return [];
  const lines = format.join === 'paragraphs' ? section.heading : [section.heading.join(format.join)];
  const how = format.heading === 'mixed' ? (['style', 'boldCentre', 'bold'] as const)[index % 3] : format.heading;
  return [
    ...lines.map((line, at) => headingLine(line, how ?? 'style', { pageBreakBefore: flag && at === 0 })),
    ...empties(format.below),
  ];
}

function headingLine(text: string, how: string, look: ParagraphLook): RawParagraph {
  switch (how) {
    case 'style':
      return para(inlines(text, { bold: true, size: 16 }), { ...look, style: 'heading 1', outlineLevel: 1 });
    case 'boldCentre':
      return para(inlines(text, { bold: true }), { ...look, align: 'center' });
    case 'centre':
      return para(inlines(text), { ...look, align: 'center' });
    case 'bold':
      return para(inlines(text, { bold: true }), look);
    case 'big':
      return para(inlines(text, { size: 18 }), look);
    default:
      return para(inlines(text), look);
  }
}

function body(text: string, format: Format, flag: boolean): RawParagraph {
  const look: ParagraphLook = { pageBreakBefore: flag };
  if (format.body === 'tab') return para(`\t${text}`, look);
  if (format.body === 'indent') return para(text, { ...look, indentFirst: 18 });
  return format.body === 'style' ? para(text, { ...look, style: 'Body Text', indentFirst: 18 }) : para(text, look);
}

function breakOf(format: Format): readonly RawBlock[] {
  if (format.sceneBreak === '') return format.body === 'blank' ? empties(3) : [empty()];
  if (format.sceneBreak === 'rule') return [para([], { rule: true })];
  const mark = centred(format.sceneBreak);
  return format.body === 'blank' ? [empty(), mark, empty()] : [mark];
}

function contentsList(sections: readonly SectionSpec[], format: Format): readonly RawBlock[] {
  const entries = sections
    .filter((section) => section.heading.length > 0)
    .map((section, at) => {
      const text = section.heading.join(format.join === 'paragraphs' ? ' ' : format.join.replace('\n', ' '));
      if (format.contents === 'tab') return para(`${text}\t${at * 7 + 3}`);
      if (format.contents === 'dots') return para(`${text} ........ ${at * 7 + 3}`);
      if (format.contents === 'field') return para(`${text}\t${at * 7 + 3}`, { style: 'TOC 1', inContentsField: true });
      return para(text);
    });
  return [centred('Contents', { bold: true }), ...entries];
}

/** Words by the outline's pattern. */
export function wordsOf(section: SectionSpec): number {
  const text = section.scenes.flat().join('\n');
  return text.match(/[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*/gu)?.length ?? 0;
}
