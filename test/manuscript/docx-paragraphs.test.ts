/** How paragraphs stand: styles by name, outline, indents, spaces, breaks, sections, rules, contents, tables, frames. */
import { describe, expect, it } from 'vitest';
import type { RawParagraph } from '#manuscript';
import { field, type ParagraphLook, p, r, rx, table, xml } from '../builders/docx.ts';
import { line, paragraphs, read, readFreely, remarks } from './docxReading.ts';

const style = (id: string, name: string, rest: string) =>
  `<w:style w:type="paragraph" w:styleId="${id}"><w:name w:val="${name}"/>${rest}</w:style>`;

function one(look: ParagraphLook, styles = ''): RawParagraph {
  return paragraphs(read([p('x', look)], { styles }))[0]!;
}

describe('styles', () => {
  it('gives built-in styles their English names, whatever their ids', () => {
    const styles =
      style('berschrift1', 'heading 1', '') +
      style('Rub', 'Heading 2', '') +
      style('U3', 'Überschrift 3', '') +
      style('Brief', 'Brief an Tante', '<w:basedOn w:val="berschrift1"/>');
    const names = ['berschrift1', 'Rub', 'U3', 'Brief'].map((id) => one({ style: id }, styles));
    expect(names.map((each) => [each.style, each.outlineLevel])).toEqual([
      ['heading 1', 1],
      ['heading 2', 2],
      ['heading 3', 3],
      ['Brief an Tante', 1],
    ]);
  });

  it('calls a paragraph without style by the default style', () => {
    expect(one({}).style).toBe('Normal');
  });

  it('lets direct formatting win over the style', () => {
    expect(one({ style: 'Heading1', outlineLevel: 3 }).outlineLevel).toBe(3);
    expect(one({ style: 'Heading1', xml: '<w:outlineLvl w:val="9"/>' }).outlineLevel).toBeNull();
    expect(one({ style: 'Title', align: 'left' }).align).toBe('start');
  });
});

describe('measures', () => {
  it('reads alignment', () => {
    const of = (value: string) => one({ xml: `<w:jc w:val="${value}"/>` }).align;
    expect(['left', 'start', 'center', 'right', 'end', 'both', 'distribute'].map(of)).toEqual([
      'start',
      'start',
      'center',
      'end',
      'end',
      'justify',
      'justify',
    ]);
  });

  it('reads indents and spaces in points', () => {
    const look = { indentFirst: 18, indentLeft: 36, indentRight: 9.5, spaceBefore: 24, spaceAfter: 6 };
    expect(one(look)).toMatchObject({
      indentFirst: 18,
      indentStart: 36,
      indentEnd: 9.5,
      spaceBefore: 24,
      spaceAfter: 6,
    });
    expect(one({ indentFirst: -18 }).indentFirst).toBe(-18);
  });

  it('reads indents in characters and spaces in lines', () => {
    const own = '<w:spacing w:beforeLines="150"/><w:ind w:firstLineChars="200" w:leftChars="100"/>';
    expect(one({ xml: own })).toMatchObject({ indentFirst: 24, indentStart: 12, spaceBefore: 18 });
  });

  it('adds up indents of style and paragraph side by side', () => {
    const styles = style('Block', 'Block', '<w:pPr><w:ind w:left="720" w:hanging="360"/></w:pPr>');
    expect(one({ style: 'Block', indentFirst: 0 }, styles)).toMatchObject({ indentStart: 36, indentFirst: 0 });
    expect(one({ style: 'Block', indentLeft: 0 }, styles)).toMatchObject({ indentStart: 0, indentFirst: -18 });
  });

  it('survives measures that are none', () => {
    const own = '<w:spacing w:before="much"/><w:ind w:left="" w:firstLine="9e99"/><w:outlineLvl w:val="-3"/>';
    expect(one({ xml: own })).toMatchObject({ spaceBefore: 0, indentStart: 0, indentFirst: 0, outlineLevel: null });
  });
});

describe('breaks and rules', () => {
  it('reads page breaks before a paragraph, from the style too', () => {
    const styles = style('Opener', 'Opener', '<w:pPr><w:pageBreakBefore/></w:pPr>');
    expect(one({ pageBreakBefore: true }).pageBreakBefore).toBe(true);
    expect(one({ style: 'Opener' }, styles).pageBreakBefore).toBe(true);
    expect(one({ style: 'Opener', xml: '<w:pageBreakBefore w:val="0"/>' }, styles).pageBreakBefore).toBe(false);
  });

  // ECMA-376 part 1, 17.6.22: a section's type says how that section itself begins.
  it('marks the first paragraph of each section that begins a page', () => {
    const manuscript = read(
      [
        p('a', { section: 'oddPage' }),
        p('b'),
        p('c', { section: 'nextPage' }),
        p('d', { section: 'continuous' }),
        table([['e']]),
        p('f'),
      ],
      { section: '<w:sectPr><w:headerReference w:type="default"/><w:type w:val="evenPage"/></w:sectPr>' },
    );
    const breaks = paragraphs(manuscript).filter((each) => each.sectionBreakBefore);
    expect(breaks.map(line)).toEqual(['b']);
    expect(manuscript.blocks[4]).toMatchObject({ rows: [[[{ sectionBreakBefore: true }]]] });
    expect(remarks(manuscript)).toEqual({ 'header-footer': 1 });
  });

  it('reads a border above or below as a rule, a box as none', () => {
    const side = (name: string, kind = 'single') => `<w:${name} w:val="${kind}"/>`;
    const borders = (...sides: readonly string[]) => one({ xml: `<w:pBdr>${sides.join('')}</w:pBdr>` }).rule;
    expect(one({ rule: true }).rule).toBe(true);
    expect(borders(side('top'))).toBe(true);
    expect(borders(side('top', 'none'), side('bottom', 'nil'))).toBe(false);
    expect(borders(side('top'), side('left'), side('bottom'), side('right'))).toBe(false);
  });

  it('reads a drawn horizontal line as a rule', () => {
    const drawn = rx('<w:pict><v:rect style="width:0;height:1.5pt" o:hr="t"/></w:pict>');
    expect(paragraphs(read([p(drawn)]))[0]).toMatchObject({ rule: true, inlines: [] });
  });
});

describe('contents lists', () => {
  const flagged = (blocks: Parameters<typeof read>[0], styles = '') =>
    paragraphs(read(blocks, { styles }))
      .filter((each) => each.inContentsField)
      .map(line);

  it('marks the paragraphs of a TOC field', () => {
    const begin = rx('<w:fldChar w:fldCharType="begin"/><w:instrText> TOC \\o "1-3" </w:instrText>');
    const separate = rx('<w:fldChar w:fldCharType="separate"/>');
    const end = rx('<w:fldChar w:fldCharType="end"/>');
    const entry = field(' HYPERLINK \\l "a" ', [r('One\t'), field(' PAGEREF a ', '3')]);
    expect(flagged([p('before'), p([begin, separate, entry]), p('Two\t9'), p(end), p('after')])).toEqual([
      'One<tab>3',
      'Two<tab>9',
      '',
    ]);
  });

  it('marks what stands in a contents control, its heading too', () => {
    const control =
      '<w:sdt><w:sdtPr><w:docPartObj><w:docPartGallery w:val="Table of Contents"/></w:docPartObj></w:sdtPr>' +
      '<w:sdtContent><w:p><w:r><w:t>Contents</w:t></w:r></w:p><w:p><w:r><w:t>One</w:t></w:r></w:p></w:sdtContent></w:sdt>';
    expect(flagged([p('before'), xml(control), p('after')])).toEqual(['Contents', 'One']);
  });

  it('does not take the book for contents where the end of the field is missing', () => {
    const begin = rx('<w:fldChar w:fldCharType="begin"/><w:instrText>TOC</w:instrText>');
    const open = [begin, rx('<w:fldChar w:fldCharType="separate"/>'), r('One')];
    const styles = style('TOC1', 'toc 1', '');
    expect(flagged([p(open, { style: 'TOC1' }), p('Chapter One'), p('It rained.')], styles)).toEqual(['One']);
  });
});

describe('tables and frames', () => {
  it('reads tables in tables', () => {
    const [outer] = read([table([['a', [p('b'), table([['c']]), p('d')]]])]).blocks;
    expect(outer).toMatchObject({
      kind: 'table',
      rows: [[[{ kind: 'paragraph' }], [{ kind: 'paragraph' }, { kind: 'table' }, { kind: 'paragraph' }]]],
    });
  });

  it('puts the text of a frame after the paragraph that holds it, once', () => {
    const box = (inner: string) => `<w:txbxContent><w:p><w:r><w:t>${inner}</w:t></w:r></w:p></w:txbxContent>`;
    const both =
      `<mc:AlternateContent><mc:Choice Requires="wps"><w:drawing><wp:anchor><wps:wsp><wps:txbx>${box('Note')}` +
      `</wps:txbx></wps:wsp></wp:anchor></w:drawing></mc:Choice><mc:Fallback><w:pict><v:shape><v:textbox>${box('Note')}` +
      '</v:textbox></v:shape></w:pict></mc:Fallback></mc:AlternateContent>';
    const { blocks } = read([p([r('Before '), rx(both), r('after')]), p('next')]);
    expect(blocks.map((each) => each.kind)).toEqual(['paragraph', 'frame', 'paragraph']);
    expect(blocks[1]).toMatchObject({ blocks: [{ inlines: [{ text: 'Note' }] }] });
  });

  it('gives a drop cap back to its word', () => {
    const cap = p(r('O', { size: 58 }), { xml: '<w:framePr w:dropCap="drop" w:lines="3" w:wrap="around"/>' });
    const rest = p([r('nce', { italic: true }), r(' upon')], { align: 'both' });
    // One word here and two in the file, so the law of words is left aside.
    expect(paragraphs(readFreely([cap, rest]))).toMatchObject([
      { align: 'justify', inlines: [{ text: 'Once', italic: true, size: 12 }, { text: ' upon' }] },
    ]);
  });

  it('says so where a whole document is embedded', () => {
    const manuscript = read([p('before'), xml('<w:altChunk r:id="rId1"/>'), p('after')]);
    expect(paragraphs(manuscript).map(line)).toEqual(['before', 'after']);
    expect(remarks(manuscript)).toEqual({ 'embedded-document': 1 });
  });

  it('keeps words of runs and equations that stand between paragraphs', () => {
    const loose = xml(
      '<w:r><w:t>loose</w:t></w:r><m:oMathPara><m:oMath><m:r><m:t>a+b</m:t></m:r></m:oMath></m:oMathPara>',
    );
    expect(paragraphs(readFreely([p('before'), loose, p('after')])).map(line)).toEqual([
      'before',
      'loose',
      'a+b',
      'after',
    ]);
  });

  it('keeps words of blocks that stand where the schema has none', () => {
    const inside = '<w:p><w:r><w:t>inner</w:t></w:r></w:p><w:r><w:t>outer</w:t></w:r>';
    expect(paragraphs(read([p(xml(inside))])).map(line)).toEqual(['outer', 'inner']);
  });
});
