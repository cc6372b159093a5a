/** What each setting of a design does to pages, where no other test says so. Grid: 14 points; text: 11.5, from x = 45. */
import { describe, expect, it } from 'vitest';
import type { DesignSettings } from '#design';
import type { Page, RuleItem } from '#page';
import {
  attribution,
  book,
  cell,
  chapter,
  em,
  h,
  item,
  list,
  p,
  part,
  quotation,
  row,
  sceneBreak,
  section,
  stanza,
  table,
  verse,
} from '../builders/book.ts';
import { madeUp, quoin, runsOf } from './laws.ts';
import { lines } from './text.ts';

const LEADING = 14;

function withText(some: Partial<DesignSettings['text']>): DesignSettings {
  return { ...quoin, text: { ...quoin.text, ...some } };
}

/** The run that begins with some words. */
function run(page: Page, words: string) {
  const found = runsOf(page).find((each) => each.text.startsWith(words));
  if (!found) throw new Error(`no run begins with ${words}`);
  return found;
}

function rules(page: Page): readonly RuleItem[] {
  return page.items.filter((each) => each.kind === 'rule');
}

/** The first page of a chapter with these blocks. */
function pageOf(settings: DesignSettings, ...blocks: Parameters<typeof chapter>[1][]): Page {
  return madeUp(book(chapter('One', ...blocks)), { settings }).pages[0]!;
}

describe('paragraphs', () => {
  it('told apart by white have a line of it between them and no indent; a break has a line more', () => {
    const blocks = [p('Alpha.'), p('Bravo.'), sceneBreak({ mark: 'space' }), p('Charlie.')];
    const page = pageOf(withText({ paragraphs: 'spaced' }), ...blocks);
    const [alpha, bravo, charlie] = ['Alpha', 'Bravo', 'Charlie'].map((words) => run(page, words));
    expect([alpha!.x, bravo!.x, charlie!.x]).toEqual([45, 45, 45]);
    expect(bravo!.y - alpha!.y).toBeCloseTo(2 * LEADING);
    expect(charlie!.y - bravo!.y).toBeCloseTo(3 * LEADING);
  });

  it('of a list keep together, as its items do', () => {
    const items = list(item(p('Alpha.')), item(p('Bravo.'), p('Charlie.')), item(p('Delta.')));
    const page = pageOf(withText({ paragraphs: 'spaced' }), p('Text.'), items, p('After.'));
    const places = ['Text', 'Alpha', 'Bravo', 'Charlie', 'Delta', 'After'].map((words) => run(page, words).y / LEADING);
    const steps = places.slice(1).map((place, at) => Math.round(place - (places[at] ?? 0)));
    expect(steps).toEqual([2, 1, 2, 1, 2]);
  });

  it('right below a subhead keep to it', () => {
    const page = pageOf(withText({ paragraphs: 'spaced' }), p('Alpha.'), h({ level: 2 }, 'Head'), p('Bravo.'));
    expect(run(page, 'Bravo').y - run(page, 'Head').y).toBeCloseTo(LEADING);
  });

  it('are indented after an opening where the design wants all of them to be', () => {
    expect(run(pageOf(withText({ flushFirst: false }), p('Alpha.')), 'Alpha').x).toBeCloseTo(45 + 11.5);
    expect(run(pageOf(quoin, p('Alpha.')), 'Alpha').x).toBe(45);
  });
});

describe('first words', () => {
  const opening = 'The boat came in before the tide, and nobody on the quay had looked for it until the bell.';
  const leadIn = (some: Partial<DesignSettings['leadIn']>): DesignSettings => ({
    ...quoin,
    leadIn: { ...quoin.leadIn, ...some },
  });

  /** Where the small capitals end, in characters of the paragraph: they stand apart from the text by their spacing. */
  function smallCapitals(page: Page): number {
    const first = runsOf(page).filter((each) => each.size === 11.5 && each.at?.block === 'lead');
    const letters = first.filter(({ start, count }) => count > 0 && page.advances[start]! > (300 / 65) * 1.01);
    const last = letters.at(-1);
    return last ? last.at!.offset + last.text.length : 0;
  }

  it('stand in small capitals to the very end of the first line', () => {
    const page = pageOf(leadIn({ kind: 'firstLine' }), p({ id: 'lead' }, `${opening} ${opening} ${opening}`));
    const runs = runsOf(page).filter((each) => each.at?.block === 'lead');
    const second = runs.find((each) => each.y > runs[0]!.y + 1)!;
    // The break's space belongs to neither line.
    expect(smallCapitals(page)).toBe(second.at!.offset - 1);
  });

  it('lead over from a drop cap where the design wants it', () => {
    const text = p({ id: 'lead' }, `${opening} ${opening} ${opening}`);
    expect(smallCapitals(pageOf(leadIn({ kind: 'dropCap' }), text))).toBeGreaterThan(5);
    expect(smallCapitals(pageOf(leadIn({ kind: 'dropCap', afterDrop: false }), text))).toBe(0);
  });
});

it('subheads have the white that the design gives them', () => {
  const settings = { ...quoin, subheadSpace: { above: 3, below: 2 } };
  const page = pageOf(settings, p('Alpha.'), h({ level: 1 }, 'Major'), p('Bravo.'), h({ level: 2 }, 'Minor'), p('C.'));
  const y = (words: string): number => run(page, words).y;
  expect(y('Major') - y('Alpha')).toBeCloseTo(4 * LEADING);
  expect(y('Bravo') - y('Major')).toBeCloseTo(3 * LEADING);
  expect(y('Minor') - y('Bravo')).toBeCloseTo(3 * LEADING);
});

describe('heads and folios', () => {
  const furniture = (page: Page) => page.items.filter((each) => each.kind === 'glyphs' && each.furniture === true);
  const text = book(chapter('One', p(lines(60))));

  it('stand at the distance of the design, over a rule as long as the lines', () => {
    const heads = { ...quoin.heads, distance: 1.2, rule: true };
    const page = madeUp(text, { settings: { ...quoin, heads } }).pages[1]!;
    const [head] = furniture(page);
    if (head?.kind !== 'glyphs') throw new Error('no head');
    expect(runsOf(page)[0]!.y - head.y).toBeCloseTo(1.2 * LEADING);
    const [rule] = rules(page);
    expect(rule).toMatchObject({ x: 51, width: 300 });
    expect(rule!.y).toBeGreaterThan(head.y);
    expect(rule!.y).toBeLessThan(runsOf(page)[0]!.y - 11.5 * 0.65);
    expect(rules(madeUp(text, { settings: { ...quoin, heads } }).pages[0]!)).toEqual([]);
  });

  it('are none where the design has none', () => {
    const heads = { ...quoin.heads, verso: 'none', recto: 'none' } as const;
    const { pages } = madeUp(text, { settings: { ...quoin, heads, folios: { ...quoin.folios, place: 'none' } } });
    expect(pages.flatMap(furniture)).toEqual([]);
  });
});

it('pages that stand alone are sunk as the design says', () => {
  const text = book(
    section('titlePage', null),
    section('dedication', null, p('For Ada.')),
    part('North', p('Text.')),
    chapter('One', p('Text.')),
  );
  const titlePage = { ...quoin.titlePage, sink: 0.5 };
  const dedication = { ...quoin.dedication, sink: 0.1 };
  const first = (settings: DesignSettings, at: number): number => {
    const { pages } = madeUp(text, { settings });
    return runsOf(pages.filter((page) => runsOf(page).length > 0)[at]!)[0]!.y;
  };
  // 36 lines: from 19 to 50 per cent is 11 lines, from 25 to 10 per cent 5.
  expect(first({ ...quoin, titlePage }, 0) - first(quoin, 0)).toBeCloseTo(11 * LEADING);
  expect(first({ ...quoin, dedication }, 1) - first(quoin, 1)).toBeCloseTo(-5 * LEADING);
});

it('the copyright text stands at the end of the page that the design names', () => {
  const text = book(section('copyright', null, p('All rights reserved.')), chapter('One', p('Text.')));
  const y = (place: 'head' | 'foot'): number => {
    const { pages } = madeUp(text, { settings: { ...quoin, imprint: { ...quoin.imprint, place } } });
    const page = pages.find((each) => runsOf(each).some((one) => one.text.startsWith('All')));
    return run(page!, 'All').y;
  };
  expect(y('foot')).toBeGreaterThan(450);
  expect(y('head')).toBeLessThan(120);
});

describe('blocks', () => {
  it('quotations and verse take slope and size from the design, and turn what is italic upright', () => {
    const settings = {
      ...quoin,
      quotation: { ...quoin.quotation, italic: true },
      verse: { ...quoin.verse, size: 0.9, italic: true },
    };
    const { pages, design } = madeUp(
      book(chapter('One', p('A.'), quotation(p('Said ', em('so'), '.')), verse(stanza('A line')))),
      { settings },
    );
    expect(design.quotation.look.italic).toBe(true);
    expect(design.verse.look).toMatchObject({ italic: true, size: 11.5 * 0.9 });
    expect(run(pages[0]!, 'A line').size).toBeCloseTo(11.5 * 0.9);
  });

  it('sources stand where the design has them', () => {
    const blocks = [p('A.'), quotation(p('Quoted words.'), attribution('The source'))];
    const at = (align: 'start' | 'end'): number =>
      run(pageOf({ ...quoin, attribution: { ...quoin.attribution, align } }, ...blocks), 'The source').x;
    expect(at('start')).toBeCloseTo(45 + 1.5 * 11.5);
    expect(at('end')).toBeGreaterThan(200);
  });

  it('lists are indented by the design', () => {
    const page = pageOf({ ...quoin, lists: { indent: 3 } }, p('A.'), list(item(p('Item.'))));
    expect(run(page, 'Item').x).toBeCloseTo(45 + 3 * 11.5);
  });

  it('tables have the size and the rules of the design', () => {
    const rowsOf = [
      row({ header: true }, cell(p('Cask')), cell(p('Year'))),
      row(cell(p('Oil')), cell(p('1894'))),
      row(cell(p('Salt')), cell(p('1895'))),
      row(cell(p('Tar')), cell(p('1896'))),
    ];
    const page = (tables: DesignSettings['tables']): Page => pageOf({ ...quoin, tables }, p('A.'), table(...rowsOf));
    expect(rules(page({ size: 1, rules: 'ends' }))).toHaveLength(3);
    expect(rules(page({ size: 1, rules: 'rows' }))).toHaveLength(5);
    expect(rules(page({ size: 1, rules: 'none' }))).toHaveLength(0);
    expect(run(page({ size: 0.9, rules: 'ends' }), 'Salt').size).toBeCloseTo(11.5 * 0.9);
  });
});
