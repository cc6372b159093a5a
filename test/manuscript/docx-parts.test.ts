/** What stands in other parts: notes, pictures, lists, file properties. */
import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#base';
import type { RawInline } from '#manuscript';
import { image, note, p, r, rx, xml } from '../builders/docx.ts';
import { bytesOf, gif, jpeg, png, svg, webp } from './docxPictures.ts';
import { line, paragraphs, read, readFreely, readParagraph, remarks } from './docxReading.ts';

describe('notes', () => {
  it('stand where they are called, without their own mark and the space after it', () => {
    const twice = note([p([r(' First.', { italic: true })]), p('Second.')]);
    const paragraph = readParagraph([r('Bells'), twice, r(' rang.'), note('At the end.', 'end')]);
    expect(line(paragraph)).toBe('Bells[foot: First. / Second.] rang.[end: At the end.]');
    expect(paragraph.inlines[1]).toMatchObject({ paragraphs: [{ inlines: [{ italic: true }] }, {}] });
  });

  it('drop a mark of the author’s own', () => {
    const own = [rx('<w:footnoteReference w:customMarkFollows="1" w:id="2"/><w:t>*</w:t>'), note('x')];
    expect(line(readParagraph([r('Bells'), ...own]))).toBe('Bells[foot: x][foot: x]');
  });

  it('that are missing leave a remark', () => {
    const manuscript = read([p([r('Bells'), rx('<w:footnoteReference w:id="77"/>')])]);
    expect(line(paragraphs(manuscript)[0]!)).toBe('Bells');
    expect(remarks(manuscript)).toEqual({ 'missing-note': 1 });
  });

  it('of deleted text are not read', () => {
    const deleted = xml('<w:del w:id="1"><w:r><w:footnoteReference w:id="2"/></w:r></w:del>');
    expect(line(readParagraph([r('Bells'), deleted]))).toBe('Bells');
  });
});

describe('pictures', () => {
  const only = (inlines: readonly RawInline[]) => inlines.find((each) => each.kind === 'image');

  it('are kept once by content, with alternative text and width', () => {
    const bytes = png(40, 30);
    const manuscript = read([p([image(bytes, { alt: 'A mill', width: 120 }), image(bytes)])]);
    const id = sha256Hex(bytes);
    expect(only(paragraphs(manuscript)[0]!.inlines)).toEqual({
      kind: 'image',
      asset: id,
      alt: 'A mill',
      width: 120,
      height: 120,
    });
    expect([...manuscript.assets.values()]).toEqual([
      { id, bytes, mediaType: 'image/png', name: '1-picture.png', pixels: { width: 40, height: 30 } },
    ]);
  });

  it('are known by their bytes, not their names', () => {
    const of = (bytes: Uint8Array) => {
      const [asset] = read([p(image(bytes, { name: 'lie.png' }))]).assets.values();
      return [asset?.mediaType, asset?.pixels];
    };
    expect(of(jpeg(300, 200))).toEqual(['image/jpeg', { width: 300, height: 200 }]);
    expect(of(gif(7, 9))).toEqual(['image/gif', { width: 7, height: 9 }]);
    expect(of(webp('VP8 ', 17, 5))).toEqual(['image/webp', { width: 17, height: 5 }]);
    expect(of(webp('VP8L', 18, 6))).toEqual(['image/webp', { width: 18, height: 6 }]);
    expect(of(webp('VP8X', 70000, 8))).toEqual(['image/webp', { width: 70000, height: 8 }]);
    expect(of(svg())).toEqual(['image/svg+xml', null]);
  });

  it.each([
    ['unusable-image', bytesOf('BM rest of a bitmap')],
    ['unusable-image', bytesOf('II*\0 rest of a TIFF')],
    ['unusable-image', png(0, 10)],
    ['unusable-image', jpeg(10, 10).subarray(0, 6)],
    ['unusable-image', svg('<script>1</script>')],
    ['unusable-image', svg('<rect onload="x()"/>')],
    ['unusable-image', svg('<image href="https://example.com/a.png"/>')],
    ['oversized-image', png(100_000, 100_000)],
  ])('leave a remark where they can’t be used: %s', (kind, bytes) => {
    const manuscript = read([p([r('x'), image(bytes)])]);
    expect(remarks(manuscript)).toEqual({ [kind]: 1 });
    expect([manuscript.assets.size, line(paragraphs(manuscript)[0]!)]).toEqual([0, 'x']);
  });

  it('leave a remark where the part is missing or outside the file', () => {
    const blip = (id: string) => rx(`<w:drawing><a:blip r:embed="${id}"/></w:drawing>`);
    const relationships =
      '<Relationship Id="out" Type="x/image" Target="https://example.com/a.png" TargetMode="External"/>';
    const manuscript = read([p([blip('none'), blip('out')])], { relationships });
    expect(remarks(manuscript)).toEqual({ 'missing-image': 1, 'linked-image': 1 });
  });

  it('are read from the older vocabulary too', () => {
    const shape =
      '<w:pict><v:shape style="width:90pt;height:1in" alt="A gate"><v:imagedata r:id="pic"/></v:shape></w:pict>';
    const manuscript = read([p(rx(shape))], {
      relationships: '<Relationship Id="pic" Type="x/image" Target="/word/media/gate.bin"/>',
      parts: { 'word/media/gate.bin': png(2, 2) },
    });
    expect(only(paragraphs(manuscript)[0]!.inlines)).toMatchObject({ alt: 'A gate', width: 90 });
  });

  it('are found under names in other scripts and with spaces', () => {
    const blip = (id: string) => rx(`<w:drawing><a:blip r:embed="${id}"/></w:drawing>`);
    const manuscript = read([p([blip('a'), blip('b')])], {
      relationships:
        '<Relationship Id="a" Type="x/image" Target="media/Mühle%201.png"/>' +
        '<Relationship Id="b" Type="x/image" Target="media/Mühle 1.PNG"/>',
      parts: { 'word/media/Mühle 1.png': png(3, 3) },
    });
    expect([manuscript.assets.size, manuscript.remarks]).toEqual([1, []]);
  });

  it('fall back to the vector form', () => {
    const blip =
      '<w:drawing><a:blip r:embed="emf"><a:extLst><a:ext><asvg:svgBlip ' +
      'xmlns:asvg="http://schemas.microsoft.com/office/drawing/2016/SVG/main" r:embed="svg"/></a:ext></a:extLst></a:blip></w:drawing>';
    const manuscript = read([p(rx(blip))], {
      relationships:
        '<Relationship Id="emf" Type="x/image" Target="media/a.emf"/><Relationship Id="svg" Type="x/image" Target="media/a.svg"/>',
      parts: { 'word/media/a.emf': bytesOf('\u0001\0\0\0'), 'word/media/a.svg': svg() },
    });
    expect([...manuscript.assets.values()].map((each) => each.mediaType)).toEqual(['image/svg+xml']);
    expect(manuscript.remarks).toEqual([]);
  });

  it('of deleted or hidden runs are not kept', () => {
    const hidden = rx('<w:drawing><a:blip r:embed="none"/></w:drawing>', { hidden: true });
    expect(read([p(hidden)]).remarks).toEqual([]);
  });
});

describe('lists and numbers', () => {
  const level = (at: number, format: string, text: string, more = '') =>
    `<w:lvl w:ilvl="${at}"><w:start w:val="1"/><w:numFmt w:val="${format}"/>${more}<w:lvlText w:val="${text}"/></w:lvl>`;
  const lists = (levels: string, more = '<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num>') =>
    `<w:abstractNum w:abstractNumId="0">${levels}</w:abstractNum>${more}`;

  const labels = (numbering: string, ...items: readonly (readonly [id: number, level: number])[]) =>
    paragraphs(
      read(
        items.map((list) => p('x', { list })),
        { numbering },
      ),
    ).map((each) => each.numberText);

  it('says of a list item its kind, level, start and list', () => {
    const numbering = lists(level(0, 'decimal', '%1.').replace('"1"', '"4"') + level(1, 'bullet', '\uF0B7'));
    const items = paragraphs(read([p('x', { list: [1, 0] }), p('y', { list: [1, 1] })], { numbering }));
    expect(items.map((each) => [each.list, each.numberText])).toEqual([
      [{ ordered: true, level: 0, start: 4, id: '1' }, '4.'],
      [{ ordered: false, level: 1, start: 1, id: '1' }, null],
    ]);
  });

  it('counts, restarts below and shows the levels above', () => {
    const numbering = lists(
      level(0, 'upperRoman', '%1') + level(1, 'decimal', '%1.%2') + level(2, 'lowerLetter', '%3)'),
    );
    const items = [
      [1, 0],
      [1, 1],
      [1, 1],
      [1, 2],
      [1, 0],
      [1, 1],
      [1, 2],
    ] as const;
    expect(labels(numbering, ...items)).toEqual(['I', 'I.1', 'I.2', 'a)', 'II', 'II.1', 'a)']);
  });

  it('keeps on counting where a level is told not to restart', () => {
    const numbering = lists(level(0, 'decimal', '%1') + level(1, 'decimal', '%2', '<w:lvlRestart w:val="0"/>'));
    expect(labels(numbering, [1, 0], [1, 1], [1, 0], [1, 1])).toEqual(['1', '1', '2', '2']);
  });

  it('shows plain figures in legal style', () => {
    const numbering = lists(level(0, 'upperRoman', '%1') + level(1, 'decimal', '%1.%2', '<w:isLgl/>'));
    expect(labels(numbering, [1, 0], [1, 1])).toEqual(['I', '1.1']);
  });

  it('counts on across instances of one list, unless an instance starts anew', () => {
    const more =
      '<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num><w:num w:numId="2"><w:abstractNumId w:val="0"/></w:num>' +
      '<w:num w:numId="3"><w:abstractNumId w:val="0"/><w:lvlOverride w:ilvl="0"><w:startOverride w:val="7"/></w:lvlOverride></w:num>';
    expect(labels(lists(level(0, 'decimal', '%1'), more), [1, 0], [2, 0], [3, 0], [3, 0])).toEqual([
      '1',
      '2',
      '7',
      '8',
    ]);
  });

  it.each([
    ['cardinalText', 21, 'Twenty-one'],
    ['ordinalText', 12, 'Twelfth'],
    ['ordinalText', 30, 'Thirtieth'],
    ['ordinal', 22, '22nd'],
    ['ordinal', 111, '111th'],
    ['lowerRoman', 1994, 'mcmxciv'],
    ['upperLetter', 28, 'BB'],
    ['decimalZero', 3, '03'],
    ['chineseCounting', 5, '5'],
  ])('writes %s %i as %s', (format, count, label) => {
    expect(labels(lists(level(0, format, '%1').replace('"1"', `"${count}"`)), [1, 0])).toEqual([label]);
  });

  it('keeps the number of a heading whose style is numbered', () => {
    const styles =
      '<w:style w:type="paragraph" w:styleId="Heading1"><w:name w:val="heading 1"/>' +
      '<w:pPr><w:numPr><w:numId w:val="1"/></w:numPr></w:pPr></w:style>';
    const numbering = lists(
      level(0, 'none', '') + level(1, 'cardinalText', 'Chapter %2', '<w:pStyle w:val="Heading1"/>'),
    );
    const manuscript = read([p('The Weir', { style: 'Heading1' }), p('x'), p('Home', { style: 'Heading1' })], {
      styles,
      numbering,
    });
    expect(paragraphs(manuscript).map((each) => each.numberText)).toEqual(['Chapter One', null, 'Chapter Two']);
    const without = p('Coda', { style: 'Heading1', xml: '<w:numPr><w:numId w:val="0"/></w:numPr>' });
    expect(paragraphs(read([without], { styles, numbering }))[0]).toMatchObject({ list: null, numberText: null });
  });

  it('follows numbering styles to the list they stand for', () => {
    const styles =
      '<w:style w:type="numbering" w:styleId="Mine"><w:name w:val="Mine"/><w:pPr><w:numPr><w:numId w:val="2"/></w:numPr></w:pPr></w:style>';
    const numbering =
      '<w:abstractNum w:abstractNumId="0"><w:numStyleLink w:val="Mine"/></w:abstractNum>' +
      `<w:abstractNum w:abstractNumId="1">${level(0, 'decimal', '§%1')}</w:abstractNum>` +
      '<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num><w:num w:numId="2"><w:abstractNumId w:val="1"/></w:num>';
    expect(paragraphs(read([p('x', { list: [1, 0] })], { styles, numbering }))[0]?.numberText).toBe('§1');
  });

  it('takes indents from the level, under the paragraph’s own', () => {
    const own = level(0, 'decimal', '%1').replace(
      '</w:lvl>',
      '<w:pPr><w:ind w:left="720" w:hanging="360"/></w:pPr></w:lvl>',
    );
    const [first] = paragraphs(read([p('x', { list: [1, 0], indentFirst: 0 })], { numbering: lists(own) }));
    expect(first).toMatchObject({ indentStart: 36, indentFirst: 0 });
  });

  it('survives a list that is not defined', () => {
    expect(paragraphs(read([p('x', { list: [9, 3] })]))[0]).toMatchObject({ list: null, numberText: null });
  });
});

describe('file properties', () => {
  it('gives title, author and last change', () => {
    const options = { title: 'The Weir & After', author: 'Mara Quill', modified: '2001-09-09T03:46:40+02:00' };
    const { name, properties } = read([p('x')], options);
    // 1,000,000,000 seconds after the epoch is 2001-09-09T01:46:40Z.
    expect({ name, ...properties }).toEqual({
      name: 'book',
      title: 'The Weir & After',
      author: 'Mara Quill',
      language: 'en-US',
      modified: 1_000_000_000,
    });
  });

  it.each([
    ['1970-01-01T00:00:00Z', 0],
    ['2000-02-29', 951_782_400],
    ['1969-12-31T23:59:59Z', -1],
    ['2024-13-01T00:00:00Z', null],
    ['yesterday', null],
  ])('reads the date %s', (modified, seconds) => {
    expect(read([p('x')], { modified }).properties.modified).toBe(seconds);
  });

  it('does without the part', () => {
    const { properties } = readFreely([p('x')], { parts: { 'docProps/core.xml': null } });
    expect(properties).toEqual({ title: null, author: null, language: 'en-US', modified: null });
  });
});
