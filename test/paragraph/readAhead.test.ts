/** Paragraphs that were read ahead, their words shaped on another thread, are set as if they had not been. */
import { beforeAll, describe, expect, test } from 'vitest';
import { PageBuilder } from '#page';
import { createSetter, type ParagraphSetter, type StyledText } from '#paragraph';
import { loadFontLibrary, ShapingAside, type ShapingJob, startShapingServer } from '#type';
import { fontModules, hebrewFile, textFiles } from '../type/fonts.ts';
import { mobyDickParagraphs } from './mobyDick.ts';
import { at, finish, openShop, type Shop, styled } from './setting.ts';

let shop: Shop;
/** What was sent and is not done. */
let jobs: ShapingJob[] = [];
let server: Awaited<ReturnType<typeof startShapingServer>>;
const SHAPE = at(270, { indentFirst: 11, hang: true, scaling: 0.01 });

beforeAll(async () => {
  shop = await openShop();
  server = await startShapingServer(fontModules().shaper);
});

/** A setter with a thread that does its jobs when it is told to, and paragraphs in that setter's own fonts. */
async function openAside() {
  jobs = [];
  const aside = new ShapingAside((job) => jobs.push(job));
  const library = await loadFontLibrary([...textFiles, hebrewFile], { ...fontModules(), aside });
  const setter = createSetter({ library, hyphenator: (language) => (language === 'en-US' ? shop.english : null) });
  const style = { ...shop.style, family: library.family('EB Garamond') };
  return {
    library,
    setter,
    texts: (paragraphs: readonly string[]): StyledText[] => paragraphs.map((text) => styled(text, style)),
  };
}

function work(): void {
  for (const job of jobs.splice(0)) server.serve(job);
}

/** A paragraph set with the thread, and without. */
function expectTheSame(setter: ParagraphSetter, text: StyledText): void {
  const own = {
    ...text,
    spans: text.spans.map((span) =>
      'style' in span ? { ...span, style: { ...span.style, family: shop.style.family } } : span,
    ),
  };
  expect(pageOf(setter, text)).toEqual(pageOf(shop.setter, own));
}

function pageOf(setter: ParagraphSetter, text: StyledText) {
  const paragraph = setter.break({ text, shape: SHAPE, looseness: 0 });
  const builder = new PageBuilder();
  paragraph.lines.forEach((_, line) => {
    paragraph.place(line, 0, line * 14, builder);
  });
  return { page: finish(builder), missing: paragraph.missing };
}

const NOVEL = mobyDickParagraphs().slice(0, 160);
const ODD = [
  'A *fine*^a jest, and שָׁלוֹם to you, ' + 'soft\u00adly said; 3,000 fjords|and *so*^b on.',
  'Kindly “read” 漢 and \u{1F40B} aloud.',
];

describe('read ahead', () => {
  test('in any order, with words that others have too', async () => {
    const { setter, texts } = await openAside();
    const all = texts([...NOVEL, ...ODD]);
    setter.readAhead(all);
    expect(jobs.length).toBeGreaterThan(4);
    work();
    for (const text of [...all].reverse()) expectTheSame(setter, text);
  });

  test('a paragraph that was not read ahead waits for the words that it shares, and for no others', async () => {
    const { library, setter, texts } = await openAside();
    const all = texts(NOVEL);
    setter.readAhead(all);
    // The first batch alone is done: who asks for a word of another would wait in vain.
    const [first, ...others] = jobs;
    server.serve(first!);
    const [own] = texts([`${NOVEL[0]} Unheardofness, xylographers!`]);
    expectTheSame(setter, own!);
    expect(library.shapesAside).toBe(true);
    for (const job of others) server.serve(job);
    expectTheSame(setter, all.at(-1)!);
  });

  test('few words are not worth the way', async () => {
    const { setter, texts } = await openAside();
    const [text] = texts(['Call me what you like.']);
    setter.readAhead([text!]);
    expect(jobs).toEqual([]);
    expectTheSame(setter, text!);
  });
});
