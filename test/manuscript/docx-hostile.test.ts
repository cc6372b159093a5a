/** Files that are broken, hostile or something else: one clear sentence each, never an exception. */
import fc from 'fast-check';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readDocx } from '#manuscript';
import { docx, NAMESPACES, p, r } from '../builders/docx.ts';
import { bytesOf, png } from './docxPictures.ts';
import { line, manuscriptOf, paragraphs, problemOf, readFreely } from './docxReading.ts';

const good = docx([p('A fine book')]);

/** The file with its main part replaced. */
function withMain(xml: string | Uint8Array): Uint8Array {
  return docx([], { parts: { 'word/document.xml': xml } });
}

function document(body: string): string {
  return `<w:document ${NAMESPACES}><w:body>${body}</w:body></w:document>`;
}

/** Changes numbers in the first directory record that names `part`: offsets count from the record's start. */
function spoilDirectory(bytes: Uint8Array, part: string, change: (view: DataView, record: number) => void): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  const name = strToU8(part);
  for (let at = 0; at < copy.length - 46; at++) {
    const found =
      view.getUint32(at, true) === 0x02014b50 && name.every((byte, index) => copy[at + 46 + index] === byte);
    if (found) {
      change(view, at);
      return copy;
    }
  }
  throw new RangeError(`no part ${part}`);
}

/** The same container with every size and offset of its directory moved to ZIP64 fields. */
function widened(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const end = bytes.length - 22;
  const start = view.getUint32(end + 16, true);
  const records: Uint8Array[] = [];
  for (let at = start; at < end; ) {
    const head = bytes.slice(at, at + 46 + view.getUint16(at + 28, true));
    at += head.length;
    const old = new DataView(head.buffer);
    const field = new DataView(new ArrayBuffer(28));
    field.setUint16(0, 1, true);
    field.setUint16(2, 24, true);
    [24, 20, 42].forEach((from, index) => {
      field.setUint32(4 + index * 8, old.getUint32(from, true), true);
      old.setUint32(from, 0xffffffff, true);
    });
    old.setUint16(30, 28, true);
    records.push(head, new Uint8Array(field.buffer));
  }
  const size = records.reduce((sum, each) => sum + each.length, 0);
  const tail = new DataView(new ArrayBuffer(56 + 20 + 22));
  tail.setUint32(0, 0x06064b50, true);
  tail.setUint32(32, records.length / 2, true);
  tail.setUint32(40, size, true);
  tail.setUint32(48, start, true);
  tail.setUint32(56, 0x07064b50, true);
  tail.setUint32(64, start + size, true);
  tail.setUint32(76, 0x06054b50, true);
  tail.setUint16(86, 0xffff, true);
  tail.setUint32(92, 0xffffffff, true);
  return Uint8Array.from([
    ...bytes.subarray(0, start),
    ...records.flatMap((each) => [...each]),
    ...new Uint8Array(tail.buffer),
  ]);
}

describe('something else under the name', () => {
  it.each([
    ['nothing', '', 'is empty'],
    ['an older or locked file', '\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1', 'password'],
    ['RTF', '{\\rtf1\\ansi Hello}', 'rich text (RTF)'],
    ['HTML', '\n<!DOCTYPE html><html><p>Hello</p></html>', 'a web page (HTML)'],
    ['XHTML', '<?xml version="1.0"?><html xmlns="http://www.w3.org/1999/xhtml"/>', 'a web page (HTML)'],
    ['XML', '<?xml version="1.0"?><w:wordDocument/>', 'an XML file'],
    ['PDF', '%PDF-1.7', 'a PDF'],
    ['gzip', '\x1f\x8b\x08\0', 'a gzip archive'],
    ['a picture', '\xff\xd8\xff\xe0', 'a picture'],
    ['plain text', 'It was a dark night.', 'plain text'],
    ['noise', '\x01\0\x02', 'is not a .docx file.'],
  ])('%s', (_, content, expected) => {
    const problem = problemOf(bytesOf(content), '/tmp/My novel.docx');
    expect(problem).toContain(expected);
    expect(problem).toMatch(/^“My novel\.docx” .*\.$/);
  });

  it.each([
    ['an OpenDocument text (ODT)', { mimetype: 'application/vnd.oasis.opendocument.text', 'content.xml': '<a/>' }],
    ['an EPUB', { mimetype: 'application/epub+zip' }],
    ['a spreadsheet', { 'xl/workbook.xml': '<a/>' }],
    ['a presentation', { 'ppt/presentation.xml': '<a/>' }],
    ['without a word-processing document', { 'readme.txt': 'Hello' }],
    ['word/document.xml, is missing', { 'word/styles.xml': '<a/>' }],
  ])('%s', (expected, parts: Record<string, string>) => {
    const files = Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)]));
    expect(problemOf(zipSync(files))).toContain(expected);
  });
});

describe('broken containers', () => {
  it('cut short', () => {
    expect(problemOf(good.subarray(0, good.length - 40))).toContain('cut short');
    expect(problemOf(good.subarray(0, 10))).toContain('cut short');
  });

  it('locked', () => {
    const locked = spoilDirectory(good, '_rels/.rels', (view, at) => view.setUint16(at + 8, 1, true));
    expect(problemOf(locked)).toContain('password');
  });

  it('that claim to unpack to more than a book', () => {
    const bomb = spoilDirectory(good, 'word/document.xml', (view, at) => view.setUint32(at + 24, 0xfffffff0, true));
    expect(problemOf(bomb)).toContain('unpacks to far more');
  });

  it('that grow out of all proportion, even in a part that nobody reads', () => {
    const bomb = docx([p('x')], { parts: { 'word/extra.bin': new Uint8Array(5000) } });
    const claim = spoilDirectory(bomb, 'word/extra.bin', (view, at) => view.setUint32(at + 24, 70_000_000, true));
    expect(problemOf(claim)).toContain('unpacks to far more');
  });

  it('that unpack to more than they claim', () => {
    const lie = spoilDirectory(withMain(document(' '.repeat(1_000_000))), 'word/document.xml', (view, at) =>
      view.setUint32(at + 24, 100, true),
    );
    expect(problemOf(lie)).toContain('damaged');
  });

  it('with a wrong checksum, an unknown method or an offset beyond the end', () => {
    const change = (offset: number, value: number) =>
      problemOf(spoilDirectory(good, 'word/document.xml', (view, at) => view.setUint32(at + offset, value, true)));
    expect(change(16, 1)).toContain('damaged');
    expect(change(42, good.length)).toContain('damaged');
    expect(
      problemOf(spoilDirectory(good, 'word/document.xml', (view, at) => view.setUint16(at + 10, 9, true))),
    ).toContain('damaged');
  });

  it('with too many parts', () => {
    const files = Object.fromEntries(Array.from({ length: 10_001 }, (_, index) => [`a${index}`, new Uint8Array(0)]));
    expect(problemOf(zipSync(files))).toContain('10001 parts');
  });

  it('with sizes in 64 bits are read', () => {
    expect(paragraphs(manuscriptOf(widened(good))).map(line)).toEqual(['A fine book']);
  });

  it('with other upper and lower case in part names are read', () => {
    const parts = { 'word/document.xml': null, 'Word/Document.xml': document('<w:p><w:r><w:t>Hi</w:t></w:r></w:p>') };
    expect(paragraphs(readFreely([], { parts })).map(line)).toEqual(['Hi']);
  });
});

describe('broken XML', () => {
  it.each([
    ['unfinished', document('<w:p>').slice(0, -30)],
    ['crossed', document('<w:p><w:r></w:p></w:r>')],
    ['empty', ''],
    ['binary', '\0\0\0\0'],
    ['unknown entity', document('<w:p><w:r><w:t>&boom;</w:t></w:r></w:p>')],
  ])('%s is refused by part', (_, xml) => {
    expect(problemOf(withMain(xml))).toContain('word/document.xml is not well-formed XML');
  });

  it('in the file properties only costs title and author', () => {
    const manuscript = readFreely([p('x')], { parts: { 'docProps/core.xml': '<cp:coreProperties' } });
    expect(manuscript.properties.title).toBeNull();
    expect(manuscript.remarks).toMatchObject([{ kind: 'file-properties' }]);
  });

  it('in another part is refused by that part', () => {
    expect(problemOf(docx([p('x')], { parts: { 'word/styles.xml': '<w:styles' } }))).toContain('word/styles.xml');
  });

  it('with a document type is refused before any entity is looked at', () => {
    const entity = `<!DOCTYPE d [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>${document('<w:p><w:r><w:t>&b;</w:t></w:r></w:p>')}`;
    expect(problemOf(withMain(entity))).toContain('declares a document type');
    const external = `<!DOCTYPE d SYSTEM "file:///etc/passwd">${document('')}`;
    expect(problemOf(withMain(external))).toContain('declares a document type');
  });

  it('that nests too deeply is refused', () => {
    const deep = '<w:sdt><w:sdtContent>'.repeat(5000) + '</w:sdtContent></w:sdt>'.repeat(5000);
    expect(problemOf(withMain(document(deep)))).toContain('nests its elements too deeply');
  });

  it('that holds more paragraphs than any book is refused', () => {
    expect(problemOf(withMain(document('<w:p/>'.repeat(500_001))))).toContain('more paragraphs than any book');
  });

  it('without a body is refused', () => {
    expect(problemOf(withMain('<w:document xmlns:w="urn:other"><w:body/></w:document>'))).toContain('no document text');
  });
});

describe('odd but usable', () => {
  it('an empty body is an empty manuscript', () => {
    expect(readFreely([]).blocks).toEqual([]);
  });

  it('parts that point out of the package are not followed', () => {
    const relationships = '<Relationship Id="up" Type="x/image" Target="../../../../etc/passwd"/>';
    const content = p([r('x'), { write: () => '<w:r><w:drawing><a:blip r:embed="up"/></w:drawing></w:r>' }]);
    expect(readFreely([content], { relationships }).remarks).toMatchObject([{ kind: 'missing-image', count: 1 }]);
  });

  it('marks of fields in any order take no text from paragraphs where no field begins', () => {
    const kinds = fc.constantFrom('begin', 'separate', 'end', 'text');
    const lines = fc.array(fc.array(kinds, { maxLength: 8 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(lines, (all) => {
        const run = (kind: string) =>
          kind === 'text' ? '<w:r><w:t>x</w:t></w:r>' : `<w:r><w:fldChar w:fldCharType="${kind}"/></w:r>`;
        const body = all.map((kinds) => `<w:p>${kinds.map(run).join('')}</w:p>`).join('');
        const shown = paragraphs(readFreely([], { parts: { 'word/document.xml': document(body) } })).map(line);
        all.forEach((kinds, index) => {
          const typed = 'x'.repeat(kinds.filter((each) => each === 'text').length);
          if (kinds.includes('begin')) expect(typed).toContain(shown[index]);
          else expect(shown[index]).toBe(typed);
        });
      }),
    );
  });

  it('any single spoilt byte gives a manuscript or a sentence', () => {
    const file = docx([p([r('A fine '), r('book', { italic: true })], { style: 'Heading1' }), p('x')], {
      parts: { 'word/media/a.png': png(1, 1) },
    });
    fc.assert(
      fc.property(fc.nat(file.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
        const copy = file.slice();
        copy[at] = copy[at]! ^ change;
        const outcome = readDocx(copy, 'a.docx');
        if (!outcome.ok) expect(outcome.problem).toMatch(/^“a\.docx” .*\.$/);
      }),
      { numRuns: 500 },
    );
  });
});
