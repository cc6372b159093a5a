/** The layout worker without its thread: what it answers, in which order, and that it survives what can't be laid out. */
import { describe, expect, it } from 'vitest';
import { type Book, type Change, type Json, replaceText } from '#book';
import { withPages } from '#engine';
import { messageOfBook } from '#host';
import type { Page } from '#page';
import { loadFontLibrary, loadHyphenator } from '#type';
import type { WorkerReply, WorkerRequest } from '../../renderer/worker/messages.ts';
import { Workroom } from '../../renderer/worker/workroom.ts';
import { book, bookValue, chapter, lang, p } from '../builders/book.ts';
import { fontModules, testLibrary, textFiles } from '../type/fonts.ts';

const LINE = 'The ferry lay on the far bank with its lamp lit, and nobody on this side had brought a horn or a bell. ';

function chapters(): Book {
  const paragraphs = (name: string) => Array.from({ length: 20 }, (_, at) => p(`${name} ${at}. ${LINE.repeat(3)}`));
  return bookValue(book(chapter('One', ...paragraphs('A')), chapter('Two', ...paragraphs('B'))));
}

function sectionOf(value: Book, at: number): string {
  return String(value.text.child(at).attrs['id']);
}

function typed(value: Book, text: string): Change {
  const place = { section: sectionOf(value, 1), block: String(value.text.child(1).child(9).attrs['id']) };
  const change = replaceText(value, { ...place, from: 4, to: 4, text });
  if (!change) throw new RangeError('no such place');
  return change;
}

const FACES = textFiles.map(({ family, weight, italic }) => ({
  family,
  weight,
  italic,
  fallback: false,
  address: `fonts/${family}-${weight}${italic ? '-italic' : ''}.ttf`,
}));

/** A workroom that has the book, and what it says to all of the messages. */
async function roomOf(value: Book, loaded: string[] = []) {
  const replies: WorkerReply[] = [];
  let time = 0;
  let resting = false;
  /** What comes in while the book is checked. */
  const meanwhile: WorkerRequest[] = [];
  const room = new Workroom({
    loadFonts: (faces) => {
      const own = faces
        .filter(({ installed }) => installed)
        .map(({ family }, at) => ({ ...textFiles[at]!, family, installed: true }));
      return own.length > 0 ? loadFontLibrary([...textFiles, ...own], fontModules()) : testLibrary();
    },
    loadHyphenator: (language) => {
      loaded.push(language);
      return loadHyphenator(language);
    },
    turn: async () => {
      if (resting) for (const message of meanwhile.splice(0)) void room.take(message);
    },
    now: () => (time += 40),
    rest: async () => {
      resting = true;
    },
    post: (reply) => replies.push(reply),
  });
  const tell = async (...messages: WorkerRequest[]): Promise<readonly WorkerReply[]> => {
    resting = false;
    await Promise.all(messages.map((message) => room.take(message)));
    expectDrawable(replies);
    return replies.splice(0);
  };
  const outlined = new Map<string, Set<number>>();
  /** Law: no page comes before the outlines of its glyphs, and none is sent twice. */
  const expectDrawable = (sent: readonly WorkerReply[]) => {
    for (const reply of sent) {
      if (reply.kind === 'outlines') {
        const known = outlined.get(reply.face) ?? new Set();
        for (const glyph of reply.glyphs) {
          expect(known.has(glyph)).toBe(false);
          known.add(glyph);
        }
        outlined.set(reply.face, known);
      } else if (reply.kind === 'pages' || reply.kind === 'section') {
        for (const page of reply.changed) expect(glyphsWithout(page, outlined)).toEqual([]);
      }
    }
  };
  const opening = await tell({ kind: 'open', book: messageOfBook(value), faces: FACES, base: 'http://window/' });
  expect(opening).toEqual([{ kind: 'ready' }]);
  return { tell, meanwhile };
}

function glyphsWithout(page: Page, outlined: ReadonlyMap<string, ReadonlySet<number>>): number[] {
  return page.items.flatMap((item) => {
    if (item.kind !== 'glyphs') return [];
    const glyphs = [...page.glyphs.subarray(item.start, item.start + item.count)];
    return glyphs.filter((glyph) => !outlined.get(item.face)?.has(glyph));
  });
}

function pagesIn(replies: readonly WorkerReply[], before: readonly Page[] = []): Page[] {
  let pages = [...before];
  for (const reply of replies) {
    if (reply.kind === 'section' || reply.kind === 'book' || reply.kind === 'pages') pages = withPages(pages, reply);
  }
  return pages;
}

const LAYOUT = { kind: 'layout', edition: 'print', inView: null } as const;

/** All editions take up a design of the book's own. */
function inDesign(value: Book, settings: Json): readonly WorkerRequest[] {
  const changes: readonly Change[] = [
    { kind: 'putDesign', design: 'own', index: 0, settings },
    ...value.editions.map((each, index): Change => {
      return { kind: 'putEdition', index, edition: { ...each, design: 'own' } };
    }),
  ];
  return changes.map((change) => ({ kind: 'change', change }));
}

function facesOn(pages: readonly Page[]): ReadonlySet<string> {
  return new Set(pages.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'glyphs' ? [item.face] : []))));
}

function rulesIn(replies: readonly WorkerReply[]): readonly string[] {
  return replies.flatMap((reply) => (reply.kind === 'checked' ? reply.findings.map(({ rule }) => rule) : []));
}

const kinds = (replies: readonly WorkerReply[]) => [...new Set(replies.map(({ kind }) => kind))];

describe('Workroom', () => {
  it('lays the book out, sends outlines before the pages that need them, and checks it at the end', async () => {
    const { tell } = await roomOf(chapters());
    const replies = await tell({ kind: 'layout', edition: 'print', inView: null });
    const pages = pagesIn(replies);
    expect(replies.find(({ kind }) => kind === 'book')).toMatchObject({ count: pages.length, version: 0 });
    expect(pages.every((page, at) => page.index === at)).toBe(true);
    // Every look at the clock is 40 ms later than the one before: four steps pass between two words.
    expect(replies.filter(({ kind }) => kind === 'progress').length).toBeLessThan(pages.length);
    expect(replies.find(({ kind }) => kind === 'frame')).toMatchObject({ frame: { trim: pages[0]?.size } });
    expect(replies.at(-1)).toMatchObject({ kind: 'checked', version: 0, edition: 'print' });
  });

  it('shows the section in view first, then its screen in the ebook, then the book', async () => {
    const value = chapters();
    const { tell } = await roomOf(value);
    const inView = sectionOf(value, 1);
    await tell({ kind: 'layout', edition: 'print', inView });
    const replies = await tell(
      { kind: 'change', change: typed(value, 'Ink ') },
      { kind: 'layout', edition: 'print', inView },
      { kind: 'ebook', edition: 'ebook', section: inView },
    );
    expect(kinds(replies.filter(({ kind }) => kind !== 'outlines')).slice(0, 3)).toEqual([
      'changed',
      'section',
      'ebook',
    ]);
    const ebook = replies.find((reply) => reply.kind === 'ebook');
    expect(ebook).toMatchObject({ version: 1, section: inView });
    expect(ebook?.proof?.xhtml).toContain('Ink ');
    // The screen carries the folios of the print edition, and the faces where the window has them.
    expect(ebook?.proof?.xhtml).toContain('doc-pagebreak');
    expect(ebook?.proof?.css).toContain('url("fonts/EB Garamond-400.ttf")');
  });

  it('says when an ebook has no such section, or there is no such ebook', async () => {
    const { tell } = await roomOf(chapters());
    const [none] = await tell({ kind: 'ebook', edition: 'ebook', section: 'nowhere' });
    expect(none).toMatchObject({ kind: 'ebook', proof: null });
    const [wrong] = await tell({ kind: 'ebook', edition: 'print', section: 'nowhere' });
    expect(wrong).toEqual({ kind: 'failed', problem: 'The book has no ebook edition "print".' });
  });

  it('learns a language that comes into the book, and counts its versions on', async () => {
    const value = chapters();
    const loaded: string[] = [];
    const { tell } = await roomOf(value, loaded);
    await tell({ kind: 'change', change: typed(value, 'x') });
    const passage = p({ id: 'b-new' }, lang('de', 'Donaudampfschifffahrtsgesellschaft'));
    const section = book(chapter(null, { id: 's-new' }, passage))
      .child(0)
      .toJSON();
    expect(loaded).not.toContain('de');
    await tell({ kind: 'change', change: { kind: 'addSection', index: 2, section } });
    expect(loaded).toContain('de');
    const replies = await tell({ kind: 'layout', edition: 'print', inView: null });
    expect(replies.find(({ kind }) => kind === 'book')).toMatchObject({ version: 2 });
  });

  it('goes on after a design that can not be set', async () => {
    const value = chapters();
    const { tell } = await roomOf(value);
    const odd = await tell(...inDesign(value, { text: { size: 'large' } }), LAYOUT);
    expect(odd.find(({ kind }) => kind === 'failed')).toMatchObject({ problem: expect.stringContaining('text.size') });
    const back = value.editions.map((edition, index): WorkerRequest => {
      return { kind: 'change', change: { kind: 'putEdition', index, edition } };
    });
    const mended = await tell(...back, LAYOUT);
    expect(kinds(mended)).toContain('book');
    expect(kinds(mended)).not.toContain('failed');
  });

  it('lays a book out in another font until its own is there, and says so', async () => {
    const value = chapters();
    const { tell } = await roomOf(value);
    const missing = await tell(...inDesign(value, { text: { family: 'Quayside' } }), LAYOUT);
    expect(facesOn(pagesIn(missing))).toEqual(new Set(['eb-garamond-400']));
    expect(rulesIn(missing)).toContain('fonts/missing');
    const faces = FACES.map((face) => ({ ...face, family: 'Quayside', installed: true, address: 'installed/0' }));
    const there = await tell({ kind: 'faces', faces }, LAYOUT);
    expect(facesOn(pagesIn(there))).toContain('own-quayside-400');
    expect(rulesIn(there)).not.toContain('fonts/missing');
    // Only the ebook hands the font on.
    expect(rulesIn(there).filter((rule) => rule === 'fonts/licence')).toHaveLength(1);
  });

  it('draws the characters of fonts that can stand between scenes', async () => {
    const { tell } = await roomOf(chapters());
    const replies = await tell({ kind: 'marks', families: ['EB Garamond', 'Nowhere'] });
    const marks = replies.flatMap((reply) => (reply.kind === 'marks' ? reply.marks : []));
    expect(marks.map(({ character }) => character)).toEqual(expect.arrayContaining(['❦', '❧', '*']));
    expect(new Set(marks.map(({ family }) => family))).toEqual(new Set(['EB Garamond']));
    for (const { ornament } of marks) expect(ornament.path).toMatch(/^M/);
  });

  it('checks each state of the book once', async () => {
    const value = chapters();
    const { tell } = await roomOf(value);
    const layout = { kind: 'layout', edition: 'print', inView: null } as const;
    expect(kinds(await tell(layout))).toContain('checked');
    expect(kinds(await tell(layout))).not.toContain('checked');
    const replies = await tell({ kind: 'change', change: typed(value, '  two  spaces') }, layout);
    const checked = replies.find((reply) => reply.kind === 'checked');
    expect(checked?.findings.find(({ rule }) => rule === 'text/doubled-space')?.fix).toBeDefined();
  });

  it('checks an edition again that was left before the next one was checked', async () => {
    const value = chapters();
    const { tell, meanwhile } = await roomOf(value);
    const edition = { ...value.editions[0]!, id: 'large' };
    await tell({ kind: 'change', change: { kind: 'putEdition', edition, index: 1 } }, LAYOUT);
    meanwhile.push(LAYOUT);
    const replies = await tell({ ...LAYOUT, edition: 'large' });
    // Its findings were put away when the other was asked for.
    expect(replies.flatMap((reply) => (reply.kind === 'checked' ? [reply.edition] : []))).toEqual(['print']);
  });

  it('takes changes that come in while the book is checked in their order', async () => {
    const value = chapters();
    const { tell, meanwhile } = await roomOf(value);
    const changes = ['1', '2', '3'].map((mark): WorkerRequest => ({ kind: 'change', change: typed(value, mark) }));
    meanwhile.push(...changes, { kind: 'ebook', edition: 'ebook', section: sectionOf(value, 1) });
    const replies = await tell(LAYOUT);
    const proof = replies.find((reply) => reply.kind === 'ebook')?.proof;
    // Each goes before the one that came in before it.
    expect(proof?.xhtml).toContain('321');
  });

  it('checks the other editions too where they are wanted, each state once', async () => {
    const value = chapters();
    const { tell } = await roomOf(value);
    const layout = { kind: 'layout', edition: 'print', inView: null } as const;
    const large = { ...value.editions[0]!, id: 'large', trim: { width: 288, height: 432 } };
    const putting: WorkerRequest = { kind: 'change', change: { kind: 'putEdition', edition: large, index: 1 } };
    const before = await tell(putting, layout);
    expect(kinds(before)).not.toContain('other');
    const replies = await tell({ kind: 'others', wanted: true });
    const others = replies.flatMap((reply) => (reply.kind === 'other' ? [reply] : []));
    expect(others.map(({ edition, version, problem }) => [edition, version, problem])).toEqual([
      ['large', 1, null],
      ['ebook', 1, null],
    ]);
    // Smaller pages are more pages; an ebook has none.
    expect(others[0]!.count).toBeGreaterThan(pagesIn(before).length);
    expect(others[1]!.count).toBeNull();
    // Pages of an edition that nobody looks at are not sent.
    expect(kinds(replies)).toEqual(['other']);
    expect(kinds(await tell({ kind: 'others', wanted: true }))).toEqual([]);
  });
});
