/** What the proofs know: pages from replies, whom they follow, which findings stay, what an export made. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '#base';
import { type Change, mutedAs } from '#book';
import { type GlyphRun, type Page, pageMark } from '#page';
import { changedPages, nextAfter } from '../../renderer/proof/changedPages.ts';
import { groupFindings } from '../../renderer/proof/findings.ts';
import { EBOOK, follows, PRINT } from '../../renderer/proof/follow.ts';
import { EbookStore, type EbookStoreParts } from '../../renderer/state/ebookStore.ts';
import { ExportedPages } from '../../renderer/state/exportedPages.ts';
import { LayoutStore } from '../../renderer/state/layoutStore.ts';
import type { PressState } from '../../renderer/state/pressStore.ts';
import { type Readable, Store } from '../../renderer/state/store.ts';
import type { WorkerReply } from '../../renderer/worker/index.ts';
import { book as bookNode, bookValue, chapter, p } from '../builders/book.ts';

/** A page with one run at that height. */
function page(index: number, y = 100): Page {
  return {
    index,
    side: index % 2 === 0 ? 'recto' : 'verso',
    folio: { label: String(index + 1), style: 'arabic', value: index + 1, printed: true },
    section: 's1',
    blank: false,
    opener: index === 0,
    size: { width: 396, height: 612 },
    items: [
      { kind: 'glyphs', face: 'f', size: 10, x: 50, y, start: 0, count: 1, text: 'a', at: { block: 'b1', offset: 0 } },
    ],
    glyphs: Uint16Array.of(5),
    advances: Float32Array.of(6),
    offsets: null,
    clusters: Uint16Array.of(0),
  };
}

const ofPrint = { version: 1, edition: 'print' } as const;

function bookReply(count: number): WorkerReply {
  return { kind: 'book', ...ofPrint, count, findings: [], pageStarts: [], outline: [] };
}

describe('LayoutStore', () => {
  it('gathers pages until none is missing, and keeps those of a shorter book only', () => {
    const layout = new LayoutStore();
    layout.begin();
    expect(layout.get().stage).toBe('opening');
    layout.ask('print');
    layout.receive(bookReply(3));
    layout.receive({ kind: 'pages', ...ofPrint, changed: [page(1), page(2)] });
    expect(layout.get()).toMatchObject({ stage: 'working', count: 3 });
    layout.receive({ kind: 'pages', ...ofPrint, changed: [page(0)] });
    expect(layout.get().stage).toBe('resting');
    layout.receive(bookReply(2));
    expect(layout.get().pages.map((each) => each?.index)).toEqual([0, 1]);
    expect(layout.get().stage).toBe('resting');
  });

  it('shows none of another edition’s pages, and has them when it is looked at again, those too that came meanwhile', () => {
    const layout = new LayoutStore();
    layout.ask('print');
    layout.receive(bookReply(1));
    layout.ask('large');
    layout.receive({ kind: 'pages', ...ofPrint, changed: [page(0)] });
    expect(layout.get()).toMatchObject({ edition: 'large', pages: [], count: 0 });
    layout.ask('print');
    expect(layout.get()).toMatchObject({ edition: 'print', pages: [{ index: 0 }], count: 1, stage: 'working' });
    // The worker has sent the page and sends it no more.
    layout.receive(bookReply(1));
    expect(layout.get().stage).toBe('resting');
    layout.begin();
    layout.ask('print');
    expect(layout.get().pages).toEqual([]);
  });

  it('shows why a book can not be set until it can', () => {
    const layout = new LayoutStore();
    layout.ask('print');
    layout.receive({ kind: 'failed', problem: 'No such face.' });
    expect(layout.get().problem).toBe('No such face.');
    layout.receive(bookReply(0));
    expect(layout.get().problem).toBeNull();
  });
});

describe('LayoutStore and what is muted', () => {
  const finding: Finding<Change> = {
    rule: 'text/placeholder',
    severity: 'warning',
    message: 'A placeholder.',
    at: { block: 'b2', offset: 0 },
    section: 's1',
  };
  const plain = bookValue(bookNode(chapter('One', p('TK'))));
  const muted = { ...plain, muted: [mutedAs(plain, finding, 'Meant so.')] };
  const ofPrint = { kind: 'checked', version: 0, edition: 'print', count: 3 } as const;

  it('parts findings when they come, and at once when another is muted', () => {
    let value = plain;
    const layout = new LayoutStore(() => value);
    layout.ask('print');
    layout.receive({ ...ofPrint, findings: [finding] });
    expect([layout.get().findings, layout.get().muted]).toEqual([[finding], []]);
    value = muted;
    layout.judge();
    expect([layout.get().findings, layout.get().muted]).toEqual([[], [{ finding, reason: 'Meant so.' }]]);
    const state = layout.get();
    layout.judge();
    expect(layout.get()).toBe(state);
    value = plain;
    layout.judge();
    expect(layout.get().findings).toEqual([finding]);
  });
});

describe('follows', () => {
  it.each([
    [PRINT, 'editor', false, true],
    [PRINT, PRINT, true, false],
    [PRINT, EBOOK, true, true],
    [PRINT, EBOOK, false, false],
    [EBOOK, PRINT, false, false],
    [EBOOK, 'findings', false, true],
  ] as const)('%s after %s, together %s: %s', (who, by, together, goes) => {
    expect(follows(who, by, together)).toBe(goes);
  });
});

describe('groupFindings', () => {
  const found = (severity: Finding['severity'], block: string): Finding => ({
    rule: 'lines/widow',
    severity,
    message: 'A line stands alone.',
    at: { block, offset: 3 },
  });

  it('puts the gravest first and leaves out severities without any', () => {
    const [note, error] = [found('note', 'b1'), found('error', 'b2')];
    expect(groupFindings([note, error]).map(({ severity, findings }) => [severity, findings.length])).toEqual([
      ['error', 1],
      ['note', 1],
    ]);
    expect(groupFindings([])).toEqual([]);
  });
});

describe('ExportedPages', () => {
  /** A press with one run of the print edition, of these pages. */
  function pressWith(...pages: readonly Page[]): Readable<PressState> {
    const findings = { errors: 0, warnings: 0, notes: 0 };
    const state = { settings: '', sections: [], pages: pages.map(pageMark) };
    const editions = [
      { edition: 'print', findings, muted: 0, state },
      { edition: 'ebook', findings, muted: 0, state: { ...state, pages: null } },
    ];
    return new Store({ running: null, history: [{ job: 'j', at: 0, files: [], findings, editions }], ended: null });
  }

  it('tells pages that look otherwise than any that was made', () => {
    const exported = new ExportedPages({ press: pressWith(page(0), page(1)) });
    expect([exported.has('print'), exported.has('ebook'), exported.has('large')]).toEqual([true, false, false]);
    expect(exported.changed('print', page(0))).toBe(false);
    expect(exported.changed('print', page(1, 300))).toBe(true);
    expect(exported.changed('large', page(1, 300))).toBe(false);
  });

  it('takes a page that only moved on for the page that it was', () => {
    const folio = { label: '9', style: 'arabic', value: 9, printed: true } as const;
    const withFolio = (of: Page, label: string): Page => ({
      ...of,
      folio: { ...folio, label },
      items: [...of.items, { ...(of.items[0] as GlyphRun), y: 580, text: label, furniture: true }],
    });
    const exported = new ExportedPages({ press: pressWith(withFolio(page(0), '7')) });
    expect(exported.changed('print', withFolio(page(2), '9'))).toBe(false);
    // On a verso all stands otherwise.
    expect(exported.changed('print', withFolio(page(1), '8'))).toBe(true);
  });
});

describe('changed pages', () => {
  it('are found one after the other, and from the beginning again', () => {
    const layout = new LayoutStore();
    layout.ask('print');
    layout.receive(bookReply(3));
    layout.receive({ kind: 'pages', ...ofPrint, changed: [page(0), page(1), page(2)] });
    const exported = {
      has: (edition: string) => edition === 'print',
      changed: (_: string, { index }: Page) => index !== 1,
    };
    expect(changedPages({ layout, exported })).toEqual([0, 2]);
    expect([0, 1, 2].map((at) => nextAfter([0, 2], at))).toEqual([1, 1, 0]);
    layout.ask('large');
    expect(changedPages({ layout, exported })).toBeNull();
  });
});

describe('EbookStore', () => {
  function setUp() {
    const asked: string[] = [];
    const timers: (() => void)[] = [];
    let change: () => void = () => undefined;
    let hear: (reply: WorkerReply) => void = () => undefined;
    const place: Readable<unknown> = new (class extends Store<unknown> {
      constructor() {
        super({ ebookEdition: 'ebook', section: 's1' });
      }
    })();
    const parts = {
      books: {
        onChange: (listener: () => void) => {
          change = listener;
        },
        onOpen: () => undefined,
      },
      place,
      link: {
        worker: { ebook: (edition: string, section: string) => asked.push(`${edition} ${section}`) },
        listen: (listener: (reply: WorkerReply) => void) => {
          hear = listener;
        },
      },
      after: (_milliseconds: number, call: () => void) => {
        timers.push(call);
        return () => timers.splice(timers.indexOf(call), 1);
      },
    };
    const store = new EbookStore(parts as unknown as EbookStoreParts);
    return { store, asked, timers, change: () => change(), hear: (reply: WorkerReply) => hear(reply) };
  }

  it('asks while someone looks, once for a run of keys', () => {
    const { store, asked, timers, change } = setUp();
    change();
    expect([asked, timers]).toEqual([[], []]);
    const leave = store.watch();
    expect(asked).toEqual(['ebook s1']);
    for (let key = 0; key < 5; key++) change();
    expect(timers).toHaveLength(1);
    timers[0]?.();
    expect(asked).toEqual(['ebook s1', 'ebook s1']);
    leave();
    change();
    expect(timers).toHaveLength(1);
  });

  it('takes what it asked for, and knows a section that the ebook leaves out', () => {
    const { store, hear } = setUp();
    store.watch();
    hear({ kind: 'ebook', version: 1, edition: 'ebook', section: 'other', proof: null });
    expect(store.get()).toMatchObject({ section: null, absent: false });
    hear({ kind: 'ebook', version: 1, edition: 'ebook', section: 's1', proof: null });
    expect(store.get()).toMatchObject({ section: 's1', absent: true });
  });
});
