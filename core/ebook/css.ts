/**
 * The style sheet. In: the design resolved for an ebook and the fonts that travel with it; out: CSS for the classes that
 * the writers of this room use.
 *
 * Sizes are ems and colours are the reader's, so that every setting of a reading system still works; `direction` is not
 * set (EPUB 3.3 forbids it in CSS). Rules are plain enough for old engines, finer ones follow as extra declarations.
 */
import type { EbookDesign, EbookLook, EbookOpener, Ornament } from '#design';
import {
  alignment,
  em,
  letterRules,
  lookRules,
  markRules,
  numericRule,
  ornamentRules,
  otherFeatures,
  type Sides,
} from './looks.ts';

export interface FontFaceRule {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  /** From the package document. */
  readonly path: string;
}

export function styleSheet(design: EbookDesign, fonts: readonly FontFaceRule[], sides: Sides): string {
  const sheet = new Sheet(design, sides);
  return [
    ...fonts.map(fontFace),
    sheet.text(),
    sheet.headings(),
    sheet.opener('.opener-chapter', design.opener),
    sheet.opener('.opener-part', design.part),
    sheet.opener('.opener-matter', design.matter),
    sheet.breaks(),
    sheet.quotations(),
    sheet.verse(),
    sheet.setOff(),
    sheet.listsAndTables(),
    sheet.figures(),
    sheet.notes(),
    sheet.matter(),
    sheet.titlePage(),
    sheet.contents(),
  ].join('\n');
}

function fontFace(font: FontFaceRule): string {
  return `@font-face { font-family: ${quoted(font.family)}; font-weight: ${font.weight}; font-style: ${font.italic ? 'italic' : 'normal'}; src: url("${font.path}"); }`;
}

function quoted(family: string): string {
  return `"${family.replace(/["\\\n\r<>&]/g, '')}"`;
}

/** Height of capitals as a share of the size (text faces lie between 0.63 and 0.72). */
const CAPITALS = 0.65;

/** Rules as text: a selector and its declarations on one line each. */
class Sheet {
  private readonly numeric: string;

  constructor(
    private readonly design: EbookDesign,
    private readonly sides: Sides,
  ) {
    this.numeric = numericRule(design.text.features);
  }

  text(): string {
    const { text, family } = this.design;
    const hyphens = text.hyphenate
      ? '-webkit-hyphens: auto; -epub-hyphens: auto; hyphens: auto; hyphenate-limit-chars: 6 2 3;'
      : NO_HYPHENS;
    return `
body { margin: 0; padding: 0; font-family: ${quoted(family)}, serif; line-height: ${text.leading}; widows: 2; orphans: 2; ${this.numeric} ${otherFeatures(text.features)} }
p { margin: 0; text-indent: ${em(text.paragraphs === 'indented' ? text.indent : 0)}; text-align: ${text.justify ? 'justify' : this.sides.start}; ${hyphens} }
${text.flushFirst ? 'p.first { text-indent: 0; }' : ''}
${text.paragraphs === 'spaced' ? `p + p { margin-top: ${em(SPACED)}; }` : ''}
p.align-start { text-align: ${this.sides.start}; text-indent: 0; ${NO_HYPHENS} }
p.align-center { text-align: center; text-indent: 0; ${NO_HYPHENS} }
p.align-end { text-align: ${this.sides.end}; text-indent: 0; ${NO_HYPHENS} }
p.missing { text-align: center; text-indent: 0; }
a { color: inherit; text-decoration: underline; }
sup, sub { font-size: 0.68em; line-height: 0; font-variant-numeric: lining-nums; }
.small-caps { ${letterRules('smallCapitals', this.numeric)} letter-spacing: 0.04em; }
.lead-in { ${letterRules('smallCapitals', this.numeric)} letter-spacing: ${em(this.design.leadIn.spacing)}; }
${this.opening()}`;
  }

  /** How the first paragraph of a chapter sets out, where that is no affair of its first words. */
  private opening(): string {
    const { kind, spacing } = this.design.leadIn;
    if (kind === 'dropCap') return this.dropCap();
    if (kind !== 'firstLine') return '';
    return `p.opening::first-line { ${letterRules('smallCapitals', this.numeric)} letter-spacing: ${em(spacing)}; }`;
  }

  /** Two lines high, from the capitals of the first line to the second baseline; its box a little less, or a third gave way. */
  private dropCap(): string {
    const { leading } = this.design.text;
    const size = (leading + CAPITALS) / CAPITALS;
    const height = (2 * leading - 0.05) / size;
    return `p.opening::first-letter { float: ${this.sides.start}; font-size: ${em(size)}; line-height: ${Math.round(height * 1000) / 1000}; padding-${this.sides.end}: 0.06em; ${letterRules('capitals', '')} }`;
  }

  headings(): string {
    const [first, second, third] = this.design.subheads;
    return `
h1, h2, h3, h4, h5, h6 { margin: 0; font-family: ${quoted(this.design.displayFamily)}, serif; font-size: 1em; font-weight: normal; font-style: normal; line-height: 1.2; text-indent: 0; text-wrap: balance; ${NO_HYPHENS} ${KEEP_WITH_NEXT} ${KEEP_TOGETHER} }
${this.subhead(1, first)}
${this.subhead(2, second)}
${this.subhead(3, third)}
${this.titleLines()}
`;
  }

  /** Lines that belong to a title and are no headings. */
  private titleLines(): string {
    const { family, displayFamily } = this.design;
    return family === displayFamily ? '' : `.subtitle, .title-page p { font-family: ${quoted(displayFamily)}, serif; }`;
  }

  private subhead(level: number, look: EbookLook): string {
    const { above, below } = this.design.subheadSpace;
    return `.subhead-${level} { margin: ${em(above / look.size)} 0 ${em(below / look.size)}; text-align: ${this.align(look)}; ${this.look(look)} }`;
  }

  opener(scope: string, opener: EbookOpener): string {
    const number = opener.numberLook;
    const gap = 0.6 / opener.titleLook.size;
    return `
${scope} > .opener, ${scope} .opener { padding-top: ${em(opener.spaceAbove)}; margin-bottom: ${em(opener.spaceBelow)}; text-align: ${this.align(opener.titleLook)}; ${KEEP_WITH_NEXT} ${KEEP_TOGETHER} }
${scope} .opener .number { display: block; ${this.look(number)} }
${scope} .opener .lone { ${this.look(opener.loneNumberLook)} }
${scope} .opener .title { display: block; ${this.look(opener.titleLook)} }
${scope} .opener .number + .title { margin-top: ${em(gap)}; }
${scope} .opener .subtitle { margin-top: ${em(0.5 / opener.subtitleLook.size)}; text-indent: 0; text-align: ${this.align(opener.subtitleLook)}; ${NO_HYPHENS} ${this.look(opener.subtitleLook)} }
${this.openerOrnament(scope, opener)}`;
  }

  private openerOrnament(scope: string, { ornament, ornamentPlace, titleLook }: EbookOpener): string {
    if (ornament === null) return '';
    const above = ornamentPlace === 'aboveTitle';
    const selector = above ? `${scope} .opener .title::before` : `${scope} .opener::after`;
    const size = above ? `font-size: ${em(1 / titleLook.size)};` : '';
    return `${selector} { content: ""; display: block; ${size} margin: ${above ? '0' : '1.2em'} ${this.besides(titleLook)} ${above ? '1.2em' : '0'}; ${ornamentRules(ornament)} }\n`;
  }

  /** Left and right margin of a box that is aligned like a line. */
  private besides(look: EbookLook): string {
    return look.align === 'center' ? 'auto' : '0';
  }

  /**
   * Every break shows the ornament, also one that is white space in print: nobody knows where a screen ends, and a blank
   * line there is no break at all (FACTS T-26).
   */
  breaks(): string {
    const { shown, space } = this.design.sceneBreak;
    const { leading } = this.design.text;
    return `
hr.scene-break { border: 0; margin: ${em(space)} auto; clear: both; ${markRules(shown, leading)} ${KEEP_TOGETHER} }
`;
  }

  quotations(): string {
    const { quotation, epigraph, attribution } = this.design;
    const { start, end } = this.sides;
    const source = alignment(attribution.align, this.sides);
    return `
blockquote { margin: 0; }
blockquote.quotation { margin: ${em(1 / quotation.size)} ${em(quotation.indent)}; font-size: ${em(quotation.size)}; ${quotation.italic ? 'font-style: italic;' : ''} }
${quotation.italic ? 'blockquote.quotation em { font-style: normal; }' : ''}
blockquote.epigraph, .epigraph.opener-matter { margin: 0 ${em(epigraph.indent / 2)} 2em; font-size: ${em(epigraph.size)}; ${epigraph.italic ? 'font-style: italic;' : ''} }
blockquote.epigraph p, .epigraph.opener-matter p { text-align: ${start}; text-wrap: pretty; ${NO_HYPHENS} }
${epigraph.italic ? 'blockquote.epigraph em { font-style: normal; }' : ''}
blockquote.epigraph p.align-center, .epigraph.opener-matter p.align-center { text-align: center; text-wrap: balance; }
blockquote.epigraph p.align-end, .epigraph.opener-matter p.align-end { text-align: ${end}; }
p.attribution, blockquote.epigraph p.attribution { margin-top: 0.4em; text-indent: 0; font-style: ${attribution.italic ? 'italic' : 'normal'}; text-align: ${source}; ${NO_HYPHENS} ${KEEP_WITH_PREVIOUS} }
p.align-center + p.attribution, blockquote.epigraph p.align-center + p.attribution { text-align: center; text-wrap: balance; }
`;
  }

  verse(): string {
    const { indent, step, turnover, size, italic } = this.design.verse;
    const { start } = this.sides;
    const indents = [1, 2, 3, 4, 5, 6, 7, 8].map(
      (count) => `p.indent-${count} { padding-${start}: ${em(turnover + count * step)}; }`,
    );
    return `
.verse { margin: 1em 0; padding-${start}: ${em(indent)}; ${size === 1 ? '' : `font-size: ${em(size)};`} ${italic ? 'font-style: italic;' : ''} }
${italic ? '.verse em { font-style: normal; }' : ''}
.stanza { ${KEEP_TOGETHER} }
.stanza + .stanza { margin-top: 0.9em; }
p.line { padding-${start}: ${em(turnover)}; text-indent: ${em(-turnover)}; text-align: ${start}; ${NO_HYPHENS} }
${indents.join('\n')}
`;
  }

  setOff(): string {
    const { indent, italic } = this.design.setOff;
    return `
.set-off { margin: 1.1em ${em(indent)}; ${italic ? 'font-style: italic;' : ''} }
${italic ? '.set-off em { font-style: normal; }' : ''}
.telegram p, .message p { text-align: ${this.sides.start}; text-indent: 0; ${NO_HYPHENS} }
.telegram p { ${letterRules('allSmall', this.numeric)} letter-spacing: 0.06em; }
.message p + p { margin-top: 0.4em; }
.sign p { text-align: center; text-indent: 0; ${NO_HYPHENS} ${letterRules('smallCapitals', this.numeric)} letter-spacing: 0.08em; }
`;
  }

  listsAndTables(): string {
    const { start } = this.sides;
    const { lists, tables } = this.design;
    const rule = 'thin solid';
    return `
ol, ul { margin: 0.8em 0; padding-${start}: ${em(lists.indent)}; }
li > ol, li > ul { margin: 0.2em 0; }
li { margin: 0.2em 0; }
table { margin: 1.1em auto; border-collapse: collapse; ${tables.size === 1 ? '' : `font-size: ${em(tables.size)};`} ${tables.rules === 'none' ? '' : `border-top: ${rule}; border-bottom: ${rule};`} font-variant-numeric: lining-nums tabular-nums; }
th, td { padding: 0.25em 0.6em; text-align: ${start}; vertical-align: top; ${tables.rules === 'rows' ? `border-bottom: ${rule};` : ''} }
th { font-weight: normal; font-style: italic; vertical-align: bottom; ${tables.rules === 'ends' ? `border-bottom: ${rule};` : ''} }
td p, th p { text-align: ${start}; text-indent: 0; ${NO_HYPHENS} }
`;
  }

  figures(): string {
    const { size, italic, align } = this.design.caption;
    return `
figure { margin: 1.4em 0; text-align: center; text-indent: 0; ${KEEP_TOGETHER} }
figure img { max-width: 100%; height: auto; }
figcaption { margin-top: 0.5em; font-size: ${em(size)}; text-align: ${alignment(align, this.sides)}; ${italic ? 'font-style: italic;' : ''} ${NO_HYPHENS} }
${italic ? 'figcaption em { font-style: normal; }' : ''}
`;
  }

  notes(): string {
    const { size } = this.design.notes;
    return `
sup.noteref a { text-decoration: none; }
.notes { margin-top: 2.5em; font-size: ${em(size)}; }
.notes > h1, .notes > h2, .notes > h3 { margin-bottom: 0.8em; text-align: ${this.align(this.design.matter.titleLook)}; ${letterRules('allSmall', this.numeric)} letter-spacing: 0.1em; }
.notes-section .notes { margin-top: 1.5em; }
.notes li { margin: 0.35em 0; }
a.backlink { text-decoration: none; }
`;
  }

  matter(): string {
    const { imprint, dedication, matter } = this.design;
    const above = em(matter.spaceAbove);
    const dedicationAlign = alignment(dedication.align, this.sides);
    return `
.dedication > p, .dedication > .verse { text-align: ${dedicationAlign}; text-indent: 0; ${NO_HYPHENS} ${dedication.italic ? 'font-style: italic;' : ''} }
.dedication { padding-top: ${em(dedication.spaceAbove)}; }
${dedication.italic ? '.dedication em { font-style: normal; }' : ''}
.epigraph.opener-matter { padding-top: ${em(dedication.spaceAbove)}; }
.epigraph.opener-matter blockquote { margin: 0 0 1.5em; font-size: 1em; }
.copyright { padding-top: ${above}; font-size: ${em(imprint.size)}; }
.copyright p { margin-bottom: 0.6em; text-indent: 0; text-align: ${alignment(imprint.align, this.sides)}; ${NO_HYPHENS} }
.half-title p { text-align: center; text-indent: 0; padding-top: ${above}; }
.frontispiece figure { margin-top: 0; }
.part { ${KEEP_TOGETHER} }
`;
  }

  titlePage(): string {
    const { spaceAbove, title, subtitle, author, publisher, ornament } = this.design.titlePage;
    return `
.title-page { padding-top: ${em(spaceAbove)}; text-align: center; ${NO_HYPHENS} }
.title-page p { text-indent: 0; text-align: center; }
.book-title { text-align: ${this.align(title)}; ${this.look(title)} }
.title-page p.book-subtitle { margin-top: ${em(0.7 / subtitle.size)}; text-align: ${this.align(subtitle)}; ${this.look(subtitle)} }
${this.titleOrnament(ornament)}
.title-page p.book-author { margin-top: ${em(1.8 / author.size)}; text-align: ${this.align(author)}; ${this.look(author)} }
.title-page p.book-publisher { margin-top: ${em(7 / publisher.size)}; text-align: ${this.align(publisher)}; ${this.look(publisher)} }
.cover { text-align: center; }
.cover img { max-width: 100%; max-height: 98vh; }
`;
  }

  private titleOrnament(ornament: Ornament | null): string {
    if (ornament === null) return '';
    const { author } = this.design.titlePage;
    const size = em(1 / author.size);
    return `.book-author::before { content: ""; display: block; font-size: ${size}; margin: 0 auto 1.8em; ${ornamentRules(ornament)} }`;
  }

  contents(): string {
    const { start } = this.sides;
    return `
nav[hidden] { display: none; }
nav ol { list-style: none; margin: 0; padding: 0; }
nav li { margin: 0.5em 0; }
nav li.part > a { ${this.look(this.design.contentsPart)} }
nav li > ol { margin: 0.5em 0 1.2em; padding-${start}: 1.6em; }
nav a { display: block; padding-${start}: 1.6em; text-indent: -1.6em; text-align: ${start}; text-decoration: none; ${NO_HYPHENS} }
`;
  }

  private look(look: EbookLook): string {
    return lookRules(look, this.numeric);
  }

  private align(look: EbookLook): string {
    return alignment(look.align, this.sides);
  }
}

/** White between paragraphs that are known by it, in ems: a full line is too much on a screen. */
const SPACED = 0.7;

const NO_HYPHENS = '-webkit-hyphens: none; -epub-hyphens: none; hyphens: none;';
const KEEP_TOGETHER = 'page-break-inside: avoid; break-inside: avoid;';
const KEEP_WITH_NEXT = 'page-break-after: avoid; break-after: avoid;';
const KEEP_WITH_PREVIOUS = 'page-break-before: avoid; break-before: avoid;';
