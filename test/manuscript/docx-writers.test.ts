/** A file made by an independent writer, not by our own builder: what one library writes, another reads. */
import {
  AlignmentType,
  Document,
  ExternalHyperlink,
  FootnoteReferenceRun,
  HeadingLevel,
  ImageRun,
  LevelFormat,
  Packer,
  PageBreak,
  Paragraph,
  SectionType,
  Tab,
  Table,
  TableCell,
  TableOfContents,
  TableRow,
  TextRun,
} from 'docx';
import { beforeAll, describe, expect, it } from 'vitest';
import { type RawManuscript, readDocx } from '#manuscript';
import { png } from './docxPictures.ts';
import { line, looks, paragraphs } from './docxReading.ts';

const numbering = {
  config: [
    {
      reference: 'chapters',
      levels: [{ level: 0, format: LevelFormat.UPPER_ROMAN, text: 'Part %1', alignment: AlignmentType.START }],
    },
  ],
};

const first = [
  new Paragraph({ text: 'The Weir', heading: HeadingLevel.TITLE }),
  new TableOfContents('Contents', { hyperlink: true, headingStyleRange: '1-2' }),
  new Paragraph({ text: 'Water', heading: HeadingLevel.HEADING_1, numbering: { reference: 'chapters', level: 0 } }),
  new Paragraph({
    indent: { firstLine: 360 },
    children: [
      new TextRun('It was '),
      new TextRun({ text: 'very', italics: true }),
      new TextRun({ text: ' late', bold: true, smallCaps: true }),
      new FootnoteReferenceRun(1),
      new TextRun({ children: [new Tab(), 'and cold.'] }),
    ],
  }),
  new Paragraph({
    children: [new ExternalHyperlink({ link: 'https://example.com/', children: [new TextRun('here')] })],
  }),
  new Paragraph({ children: [new PageBreak()] }),
];

const second = [
  new Paragraph({ text: 'Fire', alignment: AlignmentType.CENTER, numbering: { reference: 'chapters', level: 0 } }),
  new Table({ rows: [new TableRow({ children: [new TableCell({ children: [new Paragraph('cell')] })] })] }),
  new Paragraph({
    children: [
      new ImageRun({
        type: 'png',
        data: png(20, 10),
        transformation: { width: 96, height: 48 },
        altText: { name: 'n', title: 't', description: 'A gate' },
      }),
    ],
  }),
];

describe('a file of another writer', () => {
  let manuscript: RawManuscript;

  beforeAll(async () => {
    const document = new Document({
      title: 'The Weir',
      creator: 'Mara Quill',
      numbering,
      footnotes: { 1: { children: [new Paragraph({ children: [new TextRun('By the old clock.')] })] } },
      sections: [{ children: first }, { properties: { type: SectionType.ODD_PAGE }, children: second }],
    });
    const outcome = readDocx(new Uint8Array(await Packer.toArrayBuffer(document)), 'weir.docx');
    if (!outcome.ok) throw new Error(outcome.problem);
    manuscript = outcome.value;
  });

  it('gives its text in order', () => {
    const flow = paragraphs(manuscript).filter((each) => !each.inContentsField);
    expect(flow.map(line).filter((each) => each !== '')).toEqual([
      'The Weir',
      'Water',
      'It was very late[foot: By the old clock.]<tab>and cold.',
      'here',
      '<page>',
      'Fire',
      '<image>',
    ]);
  });

  it('gives styles, looks, numbers, sections, pictures and properties', () => {
    const named = new Map(paragraphs(manuscript).map((each) => [line(each), each]));
    expect(named.get('The Weir')?.style).toBe('Title');
    expect(named.get('Water')).toMatchObject({ style: 'heading 1', outlineLevel: 1, numberText: 'Part I' });
    expect(named.get('Fire')).toMatchObject({ align: 'center', numberText: 'Part II', sectionBreakBefore: true });
    const late = named.get('It was very late[foot: By the old clock.]<tab>and cold.')!;
    expect([looks(late), late.indentFirst]).toEqual(['It was |i:very|b sc: late|and cold.', 18]);
    expect(named.get('here')?.inlines).toMatchObject([{ href: 'https://example.com/' }]);
    // 96 pixels of the web are 72 points.
    expect(named.get('<image>')?.inlines).toMatchObject([{ alt: 'A gate', width: 72 }]);
    expect(manuscript.blocks.some((each) => each.kind === 'table')).toBe(true);
    expect(manuscript.properties).toMatchObject({ title: 'The Weir', author: 'Mara Quill' });
  });
});
