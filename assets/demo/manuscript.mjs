/**
 * The manuscript as its author left it: the clean source comes in, the options of a DOCX document go out, with the
 * inconsistencies that real manuscripts have. Each section's `manner` says which of them it shows.
 */
import {
  AlignmentType,
  DeletedTextRun,
  FootnoteReferenceRun,
  Header,
  HeadingLevel,
  ImageRun,
  InsertedTextRun,
  PageBreak,
  PageNumber,
  Paragraph,
  Tab,
  TextRun,
} from 'docx';
import { typed } from './untidy.mjs';

/**
 * @typedef {import('./source.mjs').Source} Source
 * @typedef {import('./source.mjs').Section} Section
 * @typedef {import('./source.mjs').Span} Span
 * @typedef {Extract<import('./source.mjs').Block, { kind: 'paragraph' }>} Prose
 * @typedef {{ bytes: Uint8Array, width: number, height: number, alt: string }} Drawing
 */

/** An inch, in twentieths of a point. */
const INCH = 1440;

/** How the three notations of a scene break are typed. */
const SCENE_BREAKS = { star: '* * *', hash: '#', blank: '' };

/**
 * @param {{ source: Source, drawing: Drawing, written: string }} parts
 * @returns {import('docx').IPropertiesOptions}
 */
export function composeManuscript({ source, drawing, written }) {
  const writer = new Writer(drawing, written);
  const children = [
    ...titlePage(source),
    ...source.front.flatMap((section) => writer.frontSection(section)),
    ...contentsPage(source),
    ...source.body.flatMap((section) => writer.bodySection(section)),
    ...source.back.flatMap((section) => writer.backSection(section)),
  ];
  return {
    // What word processors put there is seldom the book's title.
    title: 'lwh draft 7 FINAL final',
    creator: 'Maren',
    lastModifiedBy: 'Maren',
    styles: {
      default: { document: { run: { font: 'Times New Roman', size: 24, language: { value: 'en-GB' } } } },
      paragraphStyles: [
        { id: 'Body', name: 'Body Indented', basedOn: 'Normal', paragraph: { indent: { firstLine: INCH / 3 } } },
      ],
    },
    footnotes: writer.footnotes,
    sections: [{ properties: { titlePage: true }, headers: { default: runningHeader() }, children }],
  };
}

function runningHeader() {
  const run = new TextRun({ children: ['OSTLEY / LOW WATER AT HETHER / ', PageNumber.CURRENT] });
  return new Header({ children: [new Paragraph({ alignment: AlignmentType.RIGHT, children: [run] })] });
}

/** @param {number} count */
function empties(count) {
  return Array.from({ length: count }, () => new Paragraph({}));
}

/** @param {string} text @param {{ bold?: boolean, italics?: boolean, size?: number }} look */
function centred(text, look = {}) {
  return new Paragraph({ alignment: AlignmentType.CENTER, children: [new TextRun({ text, ...look })] });
}

/** @param {Source} source */
function titlePage(source) {
  return [
    ...empties(9),
    centred(source.title, { bold: true, size: 40 }),
    ...empties(2),
    centred('a novel', { italics: true }),
    ...empties(2),
    centred('by'),
    centred(source.author),
    pageBreak(),
  ];
}

function pageBreak() {
  return new Paragraph({ children: [new PageBreak()] });
}

/** The contents list as authors type it: dots of leaders are forgotten, the numbers are those of an older draft. */
/** @param {Source} source */
function contentsPage(source) {
  const line = (/** @type {string} */ text, /** @type {number} */ page) =>
    new Paragraph({ children: [new TextRun({ children: [text, new Tab(), String(page)] })] });
  const sections = [...source.body, ...source.back].filter((section) => section.heading !== null);
  const entries = sections.map((section, i) => line((section.heading ?? '').replace(' / ', ': '), 5 + i * 6));
  return [centred('Contents', { bold: true }), ...empties(1), ...entries];
}

/** Writes sections one after another and collects their footnotes. */
class Writer {
  /** @type {Record<string, { children: Paragraph[] }>} */
  footnotes = {};
  /** @type {Drawing} */
  #drawing;
  #written;
  #notes = 0;
  #changes = 100;

  /** @param {Drawing} drawing @param {string} written */
  constructor(drawing, written) {
    this.#drawing = drawing;
    this.#written = written;
  }

  /** @param {Section} section */
  frontSection(section) {
    const alignment = section.kind === 'copyright' ? AlignmentType.LEFT : AlignmentType.CENTER;
    const paragraphs = section.blocks.flatMap((block) => {
      if (block.kind !== 'paragraph') return [];
      const lead = block.role === 'attribution' ? [new TextRun('--')] : [];
      return [new Paragraph({ alignment, children: [...lead, ...this.#runs(block.spans, {})] })];
    });
    return [...empties(section.kind === 'copyright' ? 14 : 7), ...paragraphs, pageBreak()];
  }

  /** @param {Section} section */
  bodySection(section) {
    return [...this.#heading(section), ...this.#body(section)];
  }

  /** @param {Section} section */
  backSection(section) {
    const heading = centred(section.heading ?? '', { bold: true });
    return [pageBreak(), heading, ...empties(1), ...this.#body({ ...section, manner: { indent: 'none' } })];
  }

  /** The heading in the look that this section has, after the kind of page break that it has. @param {Section} section */
  #heading(section) {
    const lines = (section.heading ?? '').split(' / ');
    const before = this.#before(section);
    if (section.manner['look'] === 'style') {
      const options = { heading: HeadingLevel.HEADING_1, pageBreakBefore: section.manner['break'] === 'property' };
      return [...before, ...lines.map((text) => new Paragraph({ ...options, text })), ...empties(1)];
    }
    const [first = '', ...others] = lines;
    const pageBreakBefore = section.manner['break'] === 'property';
    const run = new TextRun({ text: first, bold: true, allCaps: section.kind === 'part' });
    const heading = new Paragraph({ alignment: AlignmentType.CENTER, pageBreakBefore, children: [run] });
    return [...before, heading, ...others.map((text) => centred(text, { bold: true })), ...empties(2)];
  }

  /** @param {Section} section */
  #before(section) {
    switch (section.manner['break']) {
      case 'break':
        return [pageBreak()];
      case 'empties':
        return empties(24);
      default:
        return empties(1);
    }
  }

  /** @param {Section} section @returns {Paragraph[]} */
  #body(section) {
    let index = 0;
    return section.blocks.flatMap((block) => {
      switch (block.kind) {
        case 'sceneBreak':
          return [centred(SCENE_BREAKS[block.notation])];
        case 'image':
          return [this.#image(), centred(block.caption)];
        case 'setOffStart':
        case 'stanzaEnd':
          return empties(1);
        case 'setOffEnd':
          return block.role === 'poem' ? [] : empties(1);
        case 'paragraph':
          index += 1;
          return [this.#paragraph(block, section.manner, index)];
        default:
          throw new RangeError(`unknown block ${JSON.stringify(block)}`);
      }
    });
  }

  /** @param {Prose} block @param {Record<string, string>} manner @param {number} index */
  #paragraph(block, manner, index) {
    const runs = this.#runs(block.spans, manner, index);
    switch (block.role) {
      case 'sign':
      case 'telegram':
        return new Paragraph({ alignment: AlignmentType.CENTER, children: runs });
      case 'letter':
        return new Paragraph({ indent: { left: INCH / 2, right: INCH / 2 }, spacing: { after: 80 }, children: runs });
      case 'poem': {
        const tabs = Array.from({ length: block.indent }, () => new Tab());
        return new Paragraph({ indent: { left: INCH }, children: [new TextRun({ children: tabs }), ...runs] });
      }
      default:
        return indented(runs, manner);
    }
  }

  /**
   * @param {readonly Span[]} spans
   * @param {Record<string, string>} manner
   * @param {number} index the paragraph's number in its section
   */
  #runs(spans, manner, index = 0) {
    const texts = typed(
      spans.map((span) => (span.kind === 'text' ? span.text : '')),
      manner,
      index,
    );
    return spans.map((span, i) => {
      if (span.kind === 'note') return this.#note(span.spans);
      const emphasis = manner['emphasis'] === 'underline' ? { underline: {} } : { italics: true };
      const options = { ...(span.emphasis ? emphasis : {}), ...lines(texts[i] ?? '') };
      const change = { author: 'Maren', date: this.#written };
      if (span.change === 'none') return new TextRun(options);
      this.#changes += 1;
      if (span.change === 'inserted') return new InsertedTextRun({ ...options, ...change, id: this.#changes });
      return new DeletedTextRun({ text: span.text, ...change, id: this.#changes });
    });
  }

  /** @param {readonly Span[]} spans */
  #note(spans) {
    this.#notes += 1;
    this.footnotes[this.#notes] = { children: [new Paragraph({ children: this.#runs(spans, {}) })] };
    return new FootnoteReferenceRun(this.#notes);
  }

  #image() {
    const { bytes, width, height, alt } = this.#drawing;
    const shown = 432;
    const image = new ImageRun({
      type: 'png',
      data: bytes,
      transformation: { width: shown, height: Math.round((shown * height) / width) },
      altText: { name: 'Map', title: '', description: alt },
    });
    return new Paragraph({ alignment: AlignmentType.CENTER, children: [image] });
  }
}

/** A text with soft returns where its source has new lines. @param {string} text */
function lines(text) {
  if (!text.includes('\n')) return { text };
  return { children: text.split('\n').flatMap((line, i) => (i === 0 ? [line] : [new TextRun({ break: 1 }), line])) };
}

/** @param {import("docx").ParagraphChild[]} runs @param {Record<string, string>} manner */
function indented(runs, manner) {
  switch (manner['indent']) {
    case 'tab':
      return new Paragraph({ children: [new TextRun({ children: [new Tab()] }), ...runs] });
    case 'spaces':
      return new Paragraph({ children: [new TextRun('     '), ...runs] });
    case 'style':
      return new Paragraph({ style: 'Body', children: runs });
    default:
      return new Paragraph({ children: runs });
  }
}
