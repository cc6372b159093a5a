/** What is inside runs: text, breaks, symbols, fields, links, tracked changes, hidden text. */
import { describe, expect, it } from 'vitest';
import {
  comment,
  del,
  escapeXml,
  field,
  ins,
  link,
  NAMESPACES,
  note,
  type Piece,
  p,
  r,
  rx,
  table,
  xml,
} from '../builders/docx.ts';
import { line, looks, paragraphs, read, readFreely, readParagraph, remarks } from './docxReading.ts';

describe('text', () => {
  it('joins runs of one look', () => {
    const { inlines } = readParagraph([r('It '), r('rained'), r('.')]);
    expect(inlines).toEqual([{ kind: 'text', text: 'It rained.', size: 12 }]);
  });

  it('keeps tabs, soft returns and page breaks apart from text', () => {
    expect(line(readParagraph('One\ttwo\nthree\ffour'))).toBe('One<tab>two<line>three<page>four');
  });

  it('takes a column break for a page break and an aligned tab for a tab', () => {
    const content = rx(
      '<w:t>a</w:t><w:br w:type="column"/><w:t>b</w:t><w:cr/><w:ptab w:alignment="right"/><w:t>c</w:t>',
    );
    expect(line(readParagraph(content))).toBe('a<page>b<line><tab>c');
  });

  it('does not see where a word processor last broke its pages', () => {
    expect(line(readParagraph(rx('<w:lastRenderedPageBreak/><w:t>Still here</w:t>')))).toBe('Still here');
  });

  it('keeps the hyphen that does not break and drops the one that may', () => {
    const content = rx('<w:t>twenty</w:t><w:noBreakHyphen/><w:t>one mill</w:t><w:softHyphen/><w:t>wheels</w:t>');
    const [text] = readParagraph(content, {}).inlines;
    expect(text).toMatchObject({ text: 'twenty\u2011one millwheels' });
  });

  it('reads tabs and line ends inside w:t as tabs and spaces', () => {
    expect(line(readParagraph(rx('<w:t>a\tb\nc</w:t>')))).toBe('a<tab>b c');
  });

  it('reads entities and character references', () => {
    expect(line(readParagraph(rx('<w:t>R&amp;D &#8212; &#x2019;&lt;</w:t>')))).toBe('R&D — ’<');
  });

  it('unwraps smart tags, custom XML, content controls and direction marks', () => {
    const wrapped = [
      '<w:smartTag w:element="place"><w:r><w:t>Up</w:t></w:r></w:smartTag>',
      '<w:customXml w:element="x"><w:r><w:t>on</w:t></w:r></w:customXml>',
      '<w:sdt><w:sdtPr><w:alias w:val="z"/></w:sdtPr><w:sdtContent><w:r><w:t> a</w:t></w:r></w:sdtContent></w:sdt>',
      '<w:bdo w:val="ltr"><w:r><w:t> hill</w:t></w:r></w:bdo>',
    ];
    expect(line(readParagraph(xml(wrapped.join(''))))).toBe('Upon a hill');
  });

  it('keeps the base of ruby text', () => {
    const run = (text: string) => `<w:r><w:t>${text}</w:t></w:r>`;
    const ruby = `<w:ruby><w:rubyPr/><w:rt>${run('kan')}</w:rt><w:rubyBase>${run('漢')}</w:rubyBase></w:ruby>`;
    const manuscript = readFreely([p(rx(ruby))]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('漢');
    expect(remarks(manuscript)).toEqual({ ruby: 1 });
  });

  it('keeps the words of an equation and says so', () => {
    const manuscript = readFreely([p([r('so '), xml('<m:oMath><m:r><m:t>x=1</m:t></m:r></m:oMath>')])]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('so x=1');
    expect(remarks(manuscript)).toEqual({ equation: 1 });
  });
});

describe('symbols', () => {
  const sym = (font: string, char: string) => rx(`<w:sym w:font="${font}" w:char="${char}"/>`);
  const shown = (...content: readonly Piece[]) => line(paragraphs(readFreely([p(content)]))[0]!);

  it('maps the pictorial fonts to Unicode', () => {
    // Symbol: alpha at 0x61, arrow at 0xAE (Adobe Symbol encoding); the others from memory.
    expect(shown(sym('Symbol', 'F061'), sym('Symbol', '00AE'))).toBe('α→');
    expect(shown(sym('Wingdings', 'F0AB'), sym('Wingdings', '0076'))).toBe('★❖');
  });

  it('leaves a mark and a remark where no character is known', () => {
    const manuscript = readFreely([p([sym('Webdings', 'F041')])]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('\uFFFD');
    expect(remarks(manuscript)).toEqual({ 'unknown-symbol': 1 });
  });

  it('maps private-use characters of text in such a font', () => {
    expect(shown(r('\uF06C', { xml: '<w:rFonts w:ascii="Wingdings"/>' }))).toBe('●');
  });
});

describe('links and fields', () => {
  const hrefs = (content: Parameters<typeof p>[0]) =>
    readParagraph(content).inlines.map((each) => (each.kind === 'text' ? [each.text, each.href ?? null] : each.kind));

  it('reads hyperlinks to the web and to bookmarks', () => {
    expect(hrefs([link('https://example.com/a?b=1&c', 'site'), r(' and '), link('#ch2', 'chapter')])).toEqual([
      ['site', 'https://example.com/a?b=1&c'],
      [' and ', null],
      ['chapter', '#ch2'],
    ]);
  });

  it('reads HYPERLINK fields, with anchor and tip', () => {
    const code = ' HYPERLINK "https://example.com/x" \\l "part" \\o "Tip" ';
    expect(hrefs([field(code, 'there'), r(' end')])).toEqual([
      ['there', 'https://example.com/x#part'],
      [' end', null],
    ]);
  });

  it('does not take the line under a link for emphasis', () => {
    expect(looks(readParagraph(link('#a', r('x', { style: 'Hyperlink' }))))).toBe('x');
  });

  it('keeps no scripts and no local files', () => {
    const manuscript = read([p([link('javascript:alert(1)', 'a'), link('file:///etc/x', 'b')])]);
    expect(paragraphs(manuscript)[0]!.inlines).toEqual([{ kind: 'text', text: 'ab', size: 12 }]);
    expect(remarks(manuscript)).toEqual({ 'unsafe-link': 2 });
  });

  it('keeps results of fields and drops their instructions', () => {
    expect(line(readParagraph([r('Page '), field(' PAGE ', '12')]))).toBe('Page 12');
    const simple = xml('<w:fldSimple w:instr=" SEQ Figure "><w:r><w:t>3</w:t></w:r></w:fldSimple>');
    expect(line(readParagraph([r('Figure '), simple]))).toBe('Figure 3');
  });

  it('lets a link run over inner fields', () => {
    expect(hrefs(field(' HYPERLINK \\l "toc1" ', [r('One'), field(' PAGEREF toc1 ', '9')]))).toEqual([
      ['One9', '#toc1'],
    ]);
  });

  it('loses nothing to a field without an end', () => {
    const begin = rx('<w:fldChar w:fldCharType="begin"/><w:instrText> HYPERLINK "https://example.com" </w:instrText>');
    const separate = rx('<w:fldChar w:fldCharType="separate"/>');
    const open = read([p([begin, r('one')]), p('two')]);
    expect(paragraphs(open).map(line)).toEqual(['one', 'two']);
    const unended = read([p([begin, separate, r('one')]), p('two')]);
    expect(paragraphs(unended)[1]!.inlines).toEqual([{ kind: 'text', text: 'two', size: 12 }]);
  });
});

describe('tracked changes and comments', () => {
  it('keeps insertions, drops deletions', () => {
    const manuscript = read([p([r('A '), del('bad '), ins('good '), r('day')])]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('A good day');
    expect(remarks(manuscript)).toEqual({ 'tracked-deletion': 1, 'tracked-insertion': 1 });
  });

  it('drops where text was moved from and keeps where it went', () => {
    const from = xml('<w:moveFrom w:id="1"><w:r><w:t>gone</w:t></w:r></w:moveFrom>');
    const to = xml('<w:moveTo w:id="2"><w:r><w:t>here</w:t></w:r></w:moveTo>');
    expect(line(readParagraph([from, r('and '), to]))).toBe('and here');
  });

  it('drops a deletion inside an insertion', () => {
    expect(line(readParagraph(ins([r('new '), del('old')])))).toBe('new ');
  });

  it('joins paragraphs whose mark is deleted; the mark that is left decides', () => {
    const manuscript = read([
      p('One ', { style: 'Title', markDeleted: true }),
      p('two', { style: 'Quote' }),
      p('three'),
    ]);
    expect(paragraphs(manuscript).map((each) => [each.style, line(each)])).toEqual([
      ['Quote', 'One two'],
      ['Normal', 'three'],
    ]);
  });

  it('lets a heading keep its style when only an empty paragraph after it was deleted', () => {
    const [only] = paragraphs(read([p('One', { style: 'Heading1', markDeleted: true }), p()]));
    expect([only?.style, only && line(only)]).toEqual(['heading 1', 'One']);
  });

  it('keeps the text of a paragraph with deleted mark at the end of its container', () => {
    const manuscript = read([p('before', { markDeleted: true }), table([['cell']])]);
    expect(manuscript.blocks.map((each) => each.kind)).toEqual(['paragraph', 'table']);
  });

  it('leaves earlier formatting of tracked changes alone', () => {
    const before = '<w:pPrChange w:id="3"><w:pPr><w:jc w:val="center"/><w:outlineLvl w:val="0"/></w:pPr></w:pPrChange>';
    const [only] = paragraphs(read([p('x', { xml: before })]));
    expect([only?.align, only?.outlineLevel]).toEqual(['start', null]);
    const run = r('y', { xml: '<w:rPrChange w:id="4"><w:rPr><w:i/></w:rPr></w:rPrChange>' });
    expect(looks(readParagraph(run))).toBe('y');
  });

  it('drops deleted table rows', () => {
    const row = (properties: string, text: string) =>
      `<w:tr><w:trPr>${properties}</w:trPr><w:tc>${text && `<w:p><w:r><w:t>${text}</w:t></w:r></w:p>`}</w:tc></w:tr>`;
    const manuscript = read([xml(`<w:tbl>${row('', 'kept')}${row('<w:del w:id="5"/>', '')}</w:tbl>`)]);
    expect(manuscript.blocks).toHaveLength(1);
    expect(manuscript.blocks[0]).toMatchObject({ kind: 'table', rows: [[[{ kind: 'paragraph' }]]] });
  });

  it('drops comments and keeps what they are about', () => {
    const manuscript = read([p([comment('Really?', 'The duke'), r(' left.')])]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('The duke left.');
    expect(remarks(manuscript)).toEqual({ comment: 1 });
  });
});

describe('hidden text', () => {
  it('is dropped, whether hidden by itself or by a style', () => {
    const hiddenStyle =
      '<w:style w:type="character" w:styleId="Secret"><w:name w:val="Secret"/><w:rPr><w:vanish/></w:rPr></w:style>';
    const own = read([p([r('seen '), r('unseen', { hidden: true }), r('end')])]);
    expect(line(paragraphs(own)[0]!)).toBe('seen end');
    expect(remarks(own)).toEqual({ 'hidden-text': 1 });
    const shown = read([p(r('shown', { style: 'Secret', hidden: false }))], { styles: hiddenStyle });
    expect(line(paragraphs(shown)[0]!)).toBe('shown');
  });
});

describe('alternatives', () => {
  const choice = (requires: string, a: string, b: string) =>
    `<mc:AlternateContent><mc:Choice Requires="${requires}">${a}</mc:Choice><mc:Fallback>${b}</mc:Fallback></mc:AlternateContent>`;
  const run = (text: string) => `<w:r><w:t>${escapeXml(text)}</w:t></w:r>`;

  it('takes the choice that is understood, never both', () => {
    expect(line(readParagraph(xml(choice('wps', run('new'), run('old')))))).toBe('new');
  });

  it('takes the fallback of what is not understood', () => {
    const manuscript = readFreely([p(xml(choice('zz', run('new'), run('old'))))]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('old');
  });
});

describe('namespaces', () => {
  it('reads any prefix', () => {
    const main = 'http://schemas.openxmlformats.org/wordprocessingml/2006/main';
    const content =
      `<x:document xmlns:x="${main}"><x:body><x:p><x:pPr><x:jc x:val="center"/></x:pPr>` +
      '<x:r><x:rPr><x:i/></x:rPr><x:t>Odd</x:t></x:r></x:p></x:body></x:document>';
    const manuscript = readForeign(content);
    expect(manuscript).toMatchObject({ align: 'center', inlines: [{ text: 'Odd', italic: true }] });
  });

  it('reads the strict class, with lengths that name their unit', () => {
    const strict = NAMESPACES.replace(
      'http://schemas.openxmlformats.org/wordprocessingml/2006/main',
      'http://purl.oclc.org/ooxml/wordprocessingml/main',
    );
    const content =
      `<w:document ${strict}><w:body><w:p><w:pPr><w:ind w:firstLine="0.5in"/><w:jc w:val="end"/></w:pPr>` +
      '<w:r><w:t>Strict</w:t></w:r></w:p></w:body></w:document>';
    expect(readForeign(content)).toMatchObject({ align: 'end', indentFirst: 36, inlines: [{ text: 'Strict' }] });
  });

  it('reads the main part under another name, and UTF-16', () => {
    const content = `\uFEFF<w:document ${NAMESPACES}><w:body><w:p><w:r><w:t>Überall</w:t></w:r></w:p></w:body></w:document>`;
    const units = new Uint8Array(new Uint16Array([...content].map((each) => each.charCodeAt(0))).buffer);
    expect(readForeign(units)).toMatchObject({ inlines: [{ text: 'Überall' }] });
  });

  it('refuses a main part that is of another kind', () => {
    expect(() => readForeign('<w:document xmlns:w="urn:other"><w:body/></w:document>')).toThrow(
      'holds no document text',
    );
  });

  /** The only block of a package whose main part has an unusual name and this content. */
  function readForeign(content: string | Uint8Array) {
    const relationship =
      '<Relationship Id="a" Target="/Main/Text.XML" ' +
      'Type="http://purl.oclc.org/ooxml/officeDocument/relationships/officeDocument"/>';
    const parts = {
      'main/text.xml': content,
      '_rels/.rels':
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">' +
        `${relationship}</Relationships>`,
    };
    return readFreely([], { parts }).blocks[0];
  }
});

describe('notes', () => {
  it('stand where they are called, with their own paragraphs', () => {
    const twice = note([p([r(' First.', { italic: true })]), p('Second.')]);
    const paragraph = readParagraph([r('Bells'), twice, r(' rang.'), note('At the end.', 'end')]);
    expect(line(paragraph)).toBe('Bells[foot: First. / Second.] rang.[end: At the end.]');
  });
});
