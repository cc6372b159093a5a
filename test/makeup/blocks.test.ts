import type { Node } from 'prosemirror-model';
import { describe, expect, it } from 'vitest';
import { assetIdOf } from '#base';
import type { Asset } from '#book';
import { type ImageItem, needBleed, type Page } from '#page';
import {
  attribution,
  book,
  caption,
  cell,
  chapter,
  em,
  epigraph,
  figure,
  h,
  item,
  letter,
  line,
  list,
  note,
  p,
  quotation,
  row,
  section,
  stanza,
  table,
  verse,
} from '../builders/book.ts';
import { linesOf, madeUp, quoin, runsOf } from './laws.ts';
import { lines, short } from './text.ts';

describe('verse', () => {
  it('keeps the poet’s lines and steps, centred on the longest', () => {
    const poem = verse(
      stanza('The tide comes in,', line({ indent: 1 }, 'the tide goes out'), 'and leaves a line.'),
      stanza('No more.'),
    );
    const { pages } = madeUp(book(chapter('One', p(lines(3)), poem, p(lines(3, 'b')))));
    const page = pages[0]!;
    expect(linesOf(page).slice(5, 9)).toEqual([
      'The tide comes in,',
      'the tide goes out',
      'and leaves a line.',
      'No more.',
    ]);
    const [first, second, , last] = runsOf(page).slice(5, 9);
    expect(second!.x - first!.x).toBeCloseTo(1.5 * 11.5);
    expect(last!.y - first!.y).toBeCloseTo(4 * 14);
    const longest = 17 * (300 / 65) + 17.25;
    expect(first!.x - 45).toBeCloseTo((300 - longest) / 2, 0);
  });

  it('keeps a stanza together where the page has room elsewhere', () => {
    const poem = verse(stanza('one', 'two', 'three', 'four'), stanza('five', 'six', 'seven', 'eight'));
    const { pages } = madeUp(book(chapter('One', p(lines(16)), poem, p(lines(6, 'b')))));
    expect(linesOf(pages[1]!)).toContain('five');
    expect(linesOf(pages[0]!)).toContain('four');
  });

  it('turns a long line over with an indent', () => {
    const poem = verse(stanza(`${'long '.repeat(14)}end`, 'short'));
    const { pages } = madeUp(book(chapter('One', p(lines(3)), poem)));
    const [head, turned, next] = runsOf(pages[0]!).slice(5);
    expect(turned!.x - head!.x).toBeCloseTo(3 * 11.5);
    expect(next!.x).toBeCloseTo(head!.x);
  });
});

describe('set-apart text', () => {
  it('stands in a narrower column with a line of white around it', () => {
    const { pages } = madeUp(
      book(chapter('One', p(lines(2, 'a')), quotation(p('He said so.'), attribution('The log')), p(lines(2, 'b')))),
    );
    const page = pages[0]!;
    expect(linesOf(page).slice(2, -1).map(short)).toEqual(['a1', 'a2', 'He said so.', 'The log', 'b1', 'b2']);
    const [, , , a2, quote, source, b1] = runsOf(page);
    expect(quote!.y - a2!.y).toBeCloseTo(28);
    expect(quote!.x - a2!.x).toBeCloseTo(1.5 * 11.5);
    expect(source!.y - quote!.y).toBeCloseTo(14);
    expect(b1!.y - source!.y).toBeCloseTo(28);
  });

  it('never leaves one of its lines alone at an edge of a page', () => {
    const sayings = ['One.', 'Two.', 'Three.', 'Four.'].map((each) => p(each));
    for (const before of [17, 18, 19, 20, 21, 22, 23]) {
      const { pages } = madeUp(book(chapter('One', p(lines(before, 'a')), quotation(...sayings), p(lines(9, 'b')))));
      const shown = pages.map(
        (page) => linesOf(page).filter((each) => sayings.some((one) => one.textContent === each)).length,
      );
      expect(shown.filter((count) => count > 0)).not.toContain(1);
    }
  });

  it('drops its white at the head of a page', () => {
    const { pages, design } = madeUp(
      book(chapter('One', p(lines(23, 'a')), letter(p(lines(2, 'd')), p({ align: 'end' }, 'Yours')), p(lines(4, 'b')))),
    );
    expect(runsOf(pages[1]!)[0]!.y).toBeCloseTo(design.frame.firstBaseline);
  });

  it('lets a chapter begin after its epigraph as if it were the first text', () => {
    const { pages } = madeUp(book(chapter('One', epigraph(p('So far.'), attribution('A log')), p(lines(2, 'a')))));
    const page = pages[0]!;
    const a1 = runsOf(page).find((run) => short(run.text) === 'a1')!;
    expect(a1.x).toBe(45);
  });
});

describe('lists', () => {
  it('put figures and bullets beside their items', () => {
    const nested = list(
      { ordered: true, start: 3 },
      item(p('Salt')),
      item(p('Rope'), list(item(p('thin')), item(p('thick')))),
    );
    const { pages } = madeUp(book(chapter('One', p(lines(2)), nested)));
    expect(linesOf(pages[0]!).slice(4, -1)).toEqual(['3. | Salt', '4. | Rope', '\u2013 | thin', '\u2013 | thick']);
  });
});

describe('tables', () => {
  it('set cells in columns under a rule', () => {
    const goods = table(row({ header: true }, cell(p('Goods')), cell(p('Price'))), row(cell(p('Salt')), cell(p('2'))));
    const { pages } = madeUp(book(chapter('One', p(lines(2)), goods)));
    expect(linesOf(pages[0]!).slice(4, -1)).toEqual(['---', 'Goods | Price', '---', 'Salt | 2', '---']);
  });
});

describe('a table near the foot of a page', () => {
  const rows = (count: number) =>
    Array.from({ length: count }, (_, index) => row(cell(p(`good ${index}`)), cell(p(String(index)))));

  it.each([16, 18, 20, 22])(
    'of a few rows stays whole, and the text goes on before it (%i lines above it)',
    (before) => {
      const goods = table(row({ header: true }, cell(p('Goods')), cell(p('Price'))), ...rows(4));
      const { pages } = madeUp(
        book(chapter('One', p(lines(before, 'a')), goods, ...'bcdefg'.split('').map((each) => p(lines(4, each))))),
      );
      const shown = pages.map((page) => linesOf(page).filter((each) => each.startsWith('good')).length);
      expect(shown.filter((count) => count > 0)).toEqual([4]);
      expect(linesOf(pages[0]!).length).toBeGreaterThan(20);
    },
  );

  it.each([8, 9, 10])('of many rows leaves none of them alone (%i lines above it)', (before) => {
    for (const count of [24, 25, 26, 36, 37]) {
      const { pages } = madeUp(book(chapter('One', p(lines(before, 'a')), table(...rows(count)), p(lines(9, 'z')))));
      const shown = pages.map((page) => linesOf(page).filter((each) => each.startsWith('good')).length);
      expect(shown.filter((each) => each > 0)).not.toContain(1);
    }
  });
});

describe('what no page can hold as it is', () => {
  it('a table of very high rows runs on as text', () => {
    const wide = table(row(cell(p(lines(30, 'x'))), cell(p(lines(30, 'y')))), row(cell(p('z')), cell(p('w'))));
    const { pages } = madeUp(book(chapter('One', p(lines(2)), wide)));
    expect(pages.length).toBeGreaterThan(2);
  });

  it('a table of very many columns too', () => {
    const many = table(row(...Array.from({ length: 40 }, (_, index) => cell(p(`cell ${index}`)))));
    madeUp(book(chapter('One', p(lines(2)), many)));
  });

  it('a list of many depths stays readable', () => {
    let inner = list(item(p('bottom')));
    for (let depth = 0; depth < 15; depth++) inner = list(item(p('deep down'), inner));
    madeUp(book(chapter('One', p(lines(2)), inner)));
  });

  it('a title of many lines, a note of many pages, a heading of a page', () => {
    const words = (count: number) => Array.from({ length: count }, () => 'word').join(' ');
    const long = chapter(words(400), p('Here', note(p(lines(120, 'n'))), ' it is.'), h(words(600)), p(lines(3)));
    madeUp(book(long, section('titlePage', words(300)), section('dedication', null, p(words(900)))));
  });
});

describe('figures', () => {
  const bytes = new Uint8Array([1, 2, 3]);
  const picture: Asset = {
    id: assetIdOf(bytes),
    bytes,
    mediaType: 'image/png',
    name: 'x.png',
    pixels: { width: 1200, height: 900 },
  };
  const assets = new Map([[picture.id, picture]]);
  const drawing = (attributes = {}) => figure(picture.id, { alt: 'A weir', ...attributes }, caption('The weir in May'));

  it('are scaled to the measure, stand on whole lines, and keep their caption', () => {
    const { pages } = madeUp(book(chapter('One', p(lines(9, 'a')), drawing(), p(lines(9, 'b')))), { assets });
    const page = pages.find((each) => each.items.some((one) => one.kind === 'image'))!;
    const image = page.items.find((one) => one.kind === 'image')!;
    expect(image).toMatchObject({ alt: 'A weir' });
    expect(image.width).toBeCloseTo(288); // 1200 pixels at 300 to the inch
    expect(image.height).toBeCloseTo(216);
    expect(linesOf(page)).toContain('The weir in May');
  });

  it('let the text after them fill a page that they do not fit on', () => {
    const text = book(chapter('One', p(lines(14, 'a')), drawing(), p(lines(30, 'b')), p(lines(9, 'c'))));
    const { pages } = madeUp(text, { assets });
    expect(linesOf(pages[0]!).map(short)).toContain('b5');
    expect(linesOf(pages[1]!)[1]).toBe('[picture]');
    expect(short(linesOf(pages[1]!)[3]!)).toMatch(/^b(8|9|10)$/);
  });

  it('leave their caption where the picture is missing', () => {
    const { pages } = madeUp(book(chapter('One', p(lines(4)), drawing())));
    expect(linesOf(pages[0]!)).toContain('The weir in May');
  });

  it('shrink to the height of a page', () => {
    const tall = { ...picture, pixels: { width: 900, height: 4000 } };
    const { pages, design } = madeUp(book(chapter('One', drawing({ width: 1 }))), {
      assets: new Map([[tall.id, tall]]),
    });
    const image = pages.flatMap((each) => each.items).find((one) => one.kind === 'image')!;
    expect(image.height).toBeLessThan(design.frame.lines * design.frame.leading);
    expect(image.width / image.height).toBeCloseTo(900 / 4000);
  });
});

describe('plates', () => {
  const shapes = { tall: { width: 1000, height: 1800 }, wide: { width: 1800, height: 1000 } };
  const made = (shape: keyof typeof shapes, before: number, ...content: readonly Node[]) => {
    const asset: Asset = {
      id: 'e'.repeat(64),
      bytes: new Uint8Array(),
      mediaType: 'image/png',
      name: 'x.png',
      pixels: shapes[shape],
    };
    const plate = figure(asset.id, { alt: 'The flood', place: 'bleed' }, ...content);
    const text = book(chapter('One', p(lines(before, 'a')), plate, p(lines(60, 'b'))));
    const { pages } = madeUp(text, { assets: new Map([[asset.id, asset]]) });
    const page = pages.find((each) => each.items.some((one) => one.kind === 'image'))!;
    return { page, image: page.items.find((one): one is ImageItem => one.kind === 'image')!, pages };
  };

  it.each([
    ['tall', 23],
    ['wide', 59],
  ] as const)('run over the edges of a page of their own, cut evenly, without head and folio (%s)', (shape, before) => {
    const { page, image } = made(shape, before);
    expect(page.items).toHaveLength(1);
    // FACTS P-04: an eighth of an inch beyond the trim, and nothing at the spine.
    const left = page.side === 'recto' ? 0 : -9;
    expect(image.clip).toEqual({ x: left, y: -9, width: 405, height: 630 });
    expect(image.width / image.height).toBeCloseTo(shapes[shape].width / shapes[shape].height);
    expect(image.x).toBeLessThanOrEqual(left + 1e-6);
    expect(image.y).toBeLessThanOrEqual(-9 + 1e-6);
    expect(image.x + image.width).toBeGreaterThanOrEqual(left + 405 - 1e-6);
    expect(image.y + image.height).toBeGreaterThanOrEqual(621 - 1e-6);
    expect(page.folio.printed).toBe(false);
    expect(needBleed([page])).toBe(true);
  });

  it('let the text go on to the page before them', () => {
    const { page, pages } = made('tall', 10);
    expect(lastLine(pages[page.index - 1]!)).toMatch(/^b\d/);
    expect(needBleed(pages.filter((each) => each !== page))).toBe(false);
  });

  it('leave room for their caption at the foot', () => {
    const { page, image } = made('tall', 23, caption('The flood of May'));
    const words = runsOf(page);
    expect(words.map((run) => run.text)).toEqual(['The flood of May']);
    expect(image.clip!.y + image.clip!.height).toBeLessThan(words[0]!.y - 14);
  });

  it('may also stand inside the text block, as large as that allows', () => {
    const asset: Asset = {
      id: 'e'.repeat(64),
      bytes: new Uint8Array(),
      mediaType: 'image/png',
      name: 'x.png',
      pixels: shapes.wide,
    };
    const plate = figure(asset.id, { alt: 'The flood', place: 'page' }, caption('The flood'));
    const text = book(chapter('One', p(lines(9, 'a')), plate, p(lines(60, 'b'))));
    const { pages } = madeUp(text, { assets: new Map([[asset.id, asset]]) });
    const page = pages.find((each) => each.items.some((one) => one.kind === 'image'))!;
    expect(page.items.find((one) => one.kind === 'image')).toMatchObject({ width: 300 });
    expect(runsOf(page).map((run) => run.text)).toEqual(['The flood']);
  });
});

/** The last line of text on a page, in short. */
function lastLine(page: Page): string {
  return short(runsOf(page).at(-1)!.text);
}

describe('notes', () => {
  const noted = (...before: number[]) => book(notedChapter(...before));
  const notedChapter = (...before: number[]) =>
    chapter(
      'One',
      ...before.map((count, index) => p(lines(count, 'abcdef'[index]!))),
      p('A sentence with a note', note(p('The note itself, ', em('short'), '.')), ' in it.'),
      p(lines(5, 'z')),
    );

  it('stand at the foot of the page of their reference, under a rule, numbered', () => {
    const { pages, design } = madeUp(noted(4));
    const shown = linesOf(pages[0]!);
    expect(shown.slice(-3)).toEqual(['---', expect.stringContaining('The note itself'), '1']);
    const { firstBaseline, lines: count, leading } = design.frame;
    const last = runsOf(pages[0]!).find((run) => run.text.startsWith('The note'))!;
    expect(last.y).toBeCloseTo(firstBaseline + (count - 1) * leading);
    expect(last.size).toBeCloseTo(9.2);
  });

  it('move with a reference that moves to the next page', () => {
    const { pages } = madeUp(noted(22));
    expect(linesOf(pages[0]!).join()).not.toContain('note');
    expect(linesOf(pages[1]!).join()).toContain('The note itself');
  });

  it('run on under the next page where they are too long', () => {
    const long = p('Here', note(p(lines(40, 'n'))), ' it is.');
    const { pages } = madeUp(book(chapter('One', p(lines(8, 'a')), long, p(lines(40, 'b')))));
    const notes = pages.map((page) =>
      linesOf(page)
        .map((each) => short(each.split(' | ').at(-1)!))
        .filter((each) => /^n\d/.test(each)),
    );
    expect(notes[0]!.length).toBeGreaterThan(1);
    expect(notes[1]!.length).toBeGreaterThan(1);
    expect(notes.flat()).toHaveLength(40);
  });

  it('stand below the note that refers to them', () => {
    const nested = p('Here', note(p('Outer', note(p('Inner.')), ' note.')), ' it is.');
    const { pages } = madeUp(book(chapter('One', p(lines(4)), nested)));
    const shown = linesOf(pages[0]!);
    expect(shown.slice(-3, -1)).toEqual([expect.stringContaining('Outer'), expect.stringContaining('Inner.')]);
  });

  it('stand at the end of the chapter where the edition wants them there', () => {
    const { pages } = madeUp(noted(4), { edition: { notes: 'chapter' } });
    const shown = linesOf(pages[0]!);
    expect(shown.indexOf('Notes')).toBeGreaterThan(shown.findIndex((each) => short(each) === 'z5'));
    expect(shown).not.toContain('---');
    expect(shown).toContainEqual(expect.stringMatching(/^1\. \| The note itself/));
  });

  it('stand in a section of their own at the end of the book where the edition wants that', () => {
    const { pages } = madeUp(book(notedChapter(4), section('aboutAuthor', 'About', p(lines(2)))), {
      edition: { notes: 'book' },
    });
    const shown = pages.map((page) => linesOf(page));
    const at = shown.findIndex((each) => each[0] === 'Notes');
    expect(at).toBe(2);
    expect(shown[at]!.join()).toContain('The note itself');
    expect(shown[at]!.join()).toContain('Chapter One');
  });

  it.each([
    ['en-GB', /^Notes to pages? (\S+?)(?:\u2013(\S+))?$/],
    ['de', /^Anmerkungen zu (?:Seite|den Seiten) (\S+?)(?:\u2013(\S+))?$/],
  ])('have running heads that name the pages they belong to (%s)', (language, wording) => {
    const referring = Array.from({ length: 24 }, (_, index) =>
      p(`Here ${letterOf(index)}`, note(p(lines(5, `${letterOf(index)}n`))), ` it is, ${lines(6, letterOf(index))}`),
    );
    const { pages } = madeUp(book(chapter('One', ...referring)), {
      edition: { notes: 'book' },
      metadata: { language },
    });
    const folioOf = (words: string) => pages.find((page) => linesOf(page).join().includes(words))!.folio.label;
    const noted = pages.filter((page) => page.section === pages.at(-2)!.section && !page.opener && !page.blank);
    expect(noted.length).toBeGreaterThan(1);
    for (const page of noted) {
      const shown = linesOf(page);
      const letters = shown.flatMap((each) => /([a-z])n\d+x/.exec(each)?.[1] ?? []);
      const [first, last] = [folioOf(`Here ${letters[0]}`), folioOf(`Here ${letters.at(-1)}`)];
      const [, one, other] = wording.exec(shown[0]!)!;
      expect([one, other ?? one]).toEqual([first, last]);
    }
  });
});

/** a, b, c, ... */
function letterOf(index: number): string {
  return String.fromCharCode(97 + index);
}

describe('a chapter’s first words', () => {
  const opening = 'The boat came in before the light, and nobody on the quay had seen it leave.';

  it('stand in small capitals as typed', () => {
    const { pages } = madeUp(
      book(chapter('One', p(opening, ' It was grey. It was cold, and it went on for a while.'))),
    );
    const text = runsOf(pages[0]!)
      .slice(2)
      .map((run) => run.text)
      .join(' ');
    expect(text.startsWith('The boat came in before')).toBe(true);
  });

  it.each(['\u201C', '\u00AB\u202F'])('hang an opening mark beside a drop cap (%s)', (mark) => {
    const settings = { ...quoin, leadIn: { ...quoin.leadIn, kind: 'dropCap' as const, dropLines: 3 } };
    const words = `${mark}${opening} ${opening} ${opening} ${opening}`;
    const { pages } = madeUp(book(chapter('One', p(words))), { settings });
    const runs = runsOf(pages[0]!).slice(2);
    const cap = runs.find((run) => run.size > 30)!;
    expect(runs.find((run) => run.text.startsWith(mark.charAt(0)))!.x).toBeLessThan(cap.x);
  });

  it('may begin with a drop cap that stands on the third baseline', () => {
    const settings = { ...quoin, leadIn: { ...quoin.leadIn, kind: 'dropCap' as const, dropLines: 3 } };
    const { pages } = madeUp(book(chapter('One', p(`${opening} ${opening} ${opening} ${opening} ${opening}`))), {
      settings,
    });
    const runs = runsOf(pages[0]!).slice(2);
    const cap = runs.find((run) => run.size > 30)!;
    const [first, second, third] = runs.filter((run) => run.size === 11.5);
    expect(cap.text).toBe('');
    expect(cap.y).toBeCloseTo(third!.y);
    // FACTS T-24: the cap's height is two lines and the capitals of the text (0.65 em in the typewriter).
    expect(cap.size * 0.65).toBeCloseTo(28 + 11.5 * 0.65);
    expect(first!.text.startsWith('The boat')).toBe(true);
    expect(second!.x).toBeGreaterThan(45 + 10);
  });
});
