import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Page } from '#page';
import {
  type Aside,
  type Batch,
  embeddingProblem,
  momentOf,
  type OutlineEntry,
  type Pack,
  type PrintRequest,
  writePdf,
  writePdfAside,
} from '#print';
import type { FontFace, FontLibrary } from '#type';
import { testLibrary } from '../type/fonts.ts';
import { document, fontLines, type LineLook, page, print, request, setLine } from './press.ts';

let library: FontLibrary;
let look: LineLook;

beforeAll(async () => {
  library = await testLibrary();
  look = { face: library.family('EB Garamond').regular };
});

function textPage(index: number, text: string, frame: Partial<Page> = {}): Page {
  return page(index, (to) => setLine(to, text, [45, 60], { ...look, block: `b${index}` }), frame);
}

/** The objects of the file as another program sees them. */
function objects(made: ReturnType<typeof print>): Record<string, unknown> {
  return JSON.parse(made.run('qpdf', '--json=1', 'FILE', '-')) as Record<string, unknown>;
}

/** A box of each page as numbers. */
function boxes(made: ReturnType<typeof print>, kind: string, pages: number): number[][] {
  const info = made.run('pdfinfo', '-box', '-f', '1', '-l', String(pages), 'FILE');
  return [...info.matchAll(new RegExp(`^Page +\\d+ ${kind}: +(.*)$`, 'gm'))].map((line) =>
    line[1]!.trim().split(/ +/).map(Number),
  );
}

describe('page boxes', () => {
  const size = { width: 432, height: 648 };

  test('without bleed the sheet is the trimmed page', () => {
    const made = print(request(library, [textPage(0, 'one', { size }), textPage(1, 'two', { size })]));
    for (const kind of ['MediaBox', 'CropBox', 'BleedBox', 'TrimBox']) {
      expect(boxes(made, kind, 2)).toEqual([
        [0, 0, 432, 648],
        [0, 0, 432, 648],
      ]);
    }
  });

  test('with bleed on three edges the trim leaves the spine side alone', () => {
    // A print-on-demand service's rule for 6 x 9 in: the sheet is 6.125 x 9.25 in.
    const made = print(request(library, [textPage(0, 'one', { size }), textPage(1, 'two', { size })], { bleed: 9 }));
    expect(boxes(made, 'MediaBox', 2)).toEqual([
      [0, 0, 441, 666],
      [0, 0, 441, 666],
    ]);
    expect(boxes(made, 'TrimBox', 2)).toEqual([
      [0, 9, 432, 657],
      [9, 9, 441, 657],
    ]);
  });
});

describe('finding one’s way', () => {
  test('page labels follow the folios', () => {
    const folio = (value: number, style: 'roman' | 'arabic', label: string) => ({ label, style, value, printed: true });
    const pages = [
      textPage(0, 'a', { folio: folio(1, 'roman', 'i') }),
      textPage(1, 'b', { folio: folio(2, 'roman', 'ii') }),
      textPage(2, 'c', { folio: folio(1, 'arabic', '1') }),
      textPage(3, 'd', { folio: folio(2, 'arabic', '2') }),
      textPage(4, 'e', { folio: folio(7, 'arabic', '7') }),
      textPage(5, 'f', { folio: folio(8, 'arabic', 'A-8') }),
    ];
    const found = objects(print(request(library, pages)))['pagelabels'];
    expect(found).toEqual(
      [
        { index: 0, label: { '/S': '/r', '/St': 1 } },
        { index: 2, label: { '/S': '/D', '/St': 1 } },
        { index: 4, label: { '/S': '/D', '/St': 7 } },
        { index: 5, label: { '/P': 'A-8', '/St': 1 } },
      ].map((one) => expect.objectContaining({ index: one.index, label: expect.objectContaining(one.label) })),
    );
  });

  test('the outline nests and leads to pages', () => {
    const entry = (title: string, at: number, children: readonly OutlineEntry[] = []) => ({
      title,
      page: at,
      y: 100,
      children,
    });
    const outline = [
      entry('Part One', 0, [entry('1. The Weir — “Still”', 1), entry('2', 2)]),
      entry('Acknowledgments', 3),
    ];
    const pages = [0, 1, 2, 3].map((index) => textPage(index, 'text'));
    const found = objects(print(request(library, pages, { outline })))['outlines'] as readonly Outline[];
    expect(titles(found)).toEqual([
      [
        'Part One',
        1,
        [
          ['1. The Weir — “Still”', 2, []],
          ['2', 3, []],
        ],
      ],
      ['Acknowledgments', 4, []],
    ]);
  });

  interface Outline {
    readonly title: string;
    readonly destpageposfrom1: number;
    readonly kids: readonly Outline[];
  }

  function titles(entries: readonly Outline[]): unknown[] {
    return entries.map((one) => [one.title, one.destpageposfrom1, titles(one.kids)]);
  }

  test('links lead outside and inside', () => {
    const at = (y: number) => ({ x: 45, y, width: 100, height: 12 });
    const pages = [
      page(0, (to) => {
        setLine(to, 'see there', [45, 60], look);
        to.add({ kind: 'link', ...at(50), target: { url: 'https://example.org/a(b)?q=é' } });
        to.add({ kind: 'link', ...at(70), target: { at: { block: 'b1', offset: 3 } } });
        to.add({ kind: 'link', ...at(90), target: { at: { block: 'nowhere', offset: 0 } } });
      }),
      textPage(1, 'there'),
    ];
    const made = print(request(library, pages));
    const urls = made.run('pdfinfo', '-url', 'FILE');
    expect(urls).toContain('https://example.org/a%28b%29?q=%C3%A9');
    const annotations = made.run('mutool', 'show', 'FILE', 'pages/1/Annots/2');
    expect(annotations).toMatch(/\/Rect ?\[ ?45 530 145 542 ?\]/);
    expect(annotations).toMatch(/\/Border ?\[ ?0 0 0 ?\]/);
    expect(annotations).toMatch(/\/Dest ?\[ ?\d+ 0 R ?\/XYZ null 563 null ?\]/);
    expect(made.run('mutool', 'show', 'FILE', 'pages/1/Annots').match(/\d+ 0 R/g)).toHaveLength(2);
    const plain = print(request(library, pages, { links: false }));
    expect(plain.run('mutool', 'show', 'FILE', 'pages/1/Annots').trim()).toBe('null');
  });
});

describe('what the file says of itself', () => {
  test('information, metadata, language', () => {
    const made = print(
      request(library, [textPage(0, 'text')], { document: { ...document, title: 'Weir & Œuvre <1>' } }),
    );
    const info = made.run('pdfinfo', '-isodates', 'FILE');
    for (const line of [
      /^Title: +Weir & Œuvre <1>$/m,
      /^Author: +Nell Harrow$/m,
      /^Subject: +A novel$/m,
      /^Keywords: +river, mill$/m,
      /^Creator: +Reglet$/m,
      // 1,700,000,000 seconds after the epoch.
      /^CreationDate: +2023-11-14T22:13:20Z$/m,
      /^PDF version: +1\.6$/m,
    ]) {
      expect(info).toMatch(line);
    }
    const xmp = made.run('pdfinfo', '-meta', 'FILE');
    expect(xmp).toContain('<rdf:li xml:lang="x-default">Weir &amp; Œuvre &lt;1&gt;</rdf:li>');
    expect(xmp).toContain('<xmp:CreateDate>2023-11-14T22:13:20Z</xmp:CreateDate>');
    const trailer = made.run('mutool', 'show', 'FILE', 'trailer');
    expect(trailer).toMatch(/\/ID ?\[ ?<([0-9A-F]{32})> ?<\1> ?\]/);
    const catalog = made.run('mutool', 'show', 'FILE', 'trailer/Root');
    expect(catalog).toMatch(/\/Lang ?\(en-GB\)/);
    expect(catalog).toMatch(/\/DisplayDocTitle true/);
  });

  test('no date, no dates', () => {
    const made = print(request(library, [textPage(0, 'text')], { document: { ...document, date: null } }));
    expect(made.run('pdfinfo', 'FILE')).not.toMatch(/Date/);
  });

  test('another text, another identifier', () => {
    const id = (text: string) =>
      print(request(library, [textPage(0, text)])).run('mutool', 'show', 'FILE', 'trailer/ID');
    expect(id('one')).not.toBe(id('two'));
  });

  test('calendar dates', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 253_402_300_799 }), (seconds) => {
        const date = new Date(seconds * 1000);
        const found = momentOf(seconds);
        expect([found.year, found.month, found.day]).toEqual([
          date.getUTCFullYear(),
          date.getUTCMonth() + 1,
          date.getUTCDate(),
        ]);
        expect([found.hour, found.minute, found.second]).toEqual([
          date.getUTCHours(),
          date.getUTCMinutes(),
          date.getUTCSeconds(),
        ]);
      }),
    );
  });
});

describe('fonts', () => {
  test('each face is embedded once, under a name that its glyphs decide', () => {
    const names = (...texts: readonly string[]) =>
      fontLines(
        print(
          request(
            library,
            texts.map((text, i) => textPage(i, text)),
          ),
        ),
      ).map((line) => line.split(' ')[0]);
    const [first] = names('abc', 'cab');
    expect(first).toMatch(/^[A-Z]{6}\+EBGaramond-Regular$/);
    expect(names('bca')).toEqual([first]);
    expect(names('abcd')).not.toEqual([first]);
  });

  test('a font that may not be embedded is named', () => {
    const face: FontFace = { ...look.face, family: 'Locked', embedding: 'restricted' };
    expect(embeddingProblem(face)).toContain('Locked');
    expect(embeddingProblem(look.face)).toBeNull();
  });
});

test('a book without pages is a mistake of the caller', () => {
  expect(() => writePdf(request(library, []))).toThrow(RangeError);
});

test('packing pages and cutting fonts elsewhere, in whatever order they come back, gives the same file', async () => {
  const made = request(
    library,
    Array.from({ length: 60 }, (_, index) => textPage(index, `page ${index}`)),
  );
  const batches: number[] = [];
  const pack: Pack = async (batch) => {
    batches.push(batch.ends.length);
    // The first batch comes last.
    for (let turns = 60 - batches.length; turns > 0; turns--) await Promise.resolve();
    return packed(batch, made.deflate);
  };
  const asked: string[] = [];
  const cut: Aside['cut'] = async (face, glyphs) => {
    asked.push(face.id);
    return face.subset(glyphs);
  };
  const bytes = await writePdfAside(made, { pack, cut });
  expect(Buffer.compare(bytes, writePdf(made))).toBe(0);
  expect(batches.length).toBeGreaterThan(1);
  expect(batches.reduce((sum, count) => sum + count, 0)).toBe(60);
  expect(asked).toEqual([look.face.id]);
  const fails = () => Promise.reject(new Error('no room'));
  await expect(writePdfAside(made, { pack: fails, cut })).rejects.toThrow('no room');
  await expect(writePdfAside(made, { pack, cut: fails })).rejects.toThrow('no room');
});

function packed({ bytes, ends }: Batch, deflate: PrintRequest['deflate']): Batch {
  const streams = ends.map((end, index) => deflate(bytes.slice(ends[index - 1] ?? 0, end)));
  let size = 0;
  return { bytes: Buffer.concat(streams), ends: streams.map((stream) => (size += stream.length)) };
}
