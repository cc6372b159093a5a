/** Words shaped on another thread have the very glyphs that they have when shaped here; where the thread fails, they still do. */
import { beforeAll, describe, expect, test } from 'vitest';
import {
  type FontFace,
  type FontLibrary,
  loadFontLibrary,
  type ShapeSetting,
  ShapingAside,
  type ShapingJob,
  startShapingServer,
} from '#type';
import { fontModules, hebrewFile, textFiles } from './fonts.ts';
import { glyphsByWord, stretches } from './stretches.ts';

const ENGLISH: ShapeSetting = { features: 'onum,pnum', language: 'en-US', direction: 'ltr' };
const HEBREW: ShapeSetting = { features: '', language: 'he', direction: 'rtl' };
const WORDS = ['“fjord', 'AVATAR', '1860;', 'offi\u0301ce', 'cœur', 'x', '—', 'th\u0323e', 'waistcoat.”'];

type Serve = (job: ShapingJob) => void;

let serve: Serve;

/** Fonts with a thread that does with a job whatever a test wants. */
async function libraryWith(post: Serve): Promise<{ library: FontLibrary; aside: ShapingAside }> {
  const aside = new ShapingAside(post);
  return { library: await loadFontLibrary([...textFiles, hebrewFile], { ...fontModules(), aside }), aside };
}

beforeAll(async () => {
  const server = await startShapingServer(fontModules().shaper);
  serve = (job) => server.serve(job);
});

/** Where the glyphs come from: what the thread shaped lies in shared memory. */
type Source = 'thread' | 'here';

function expectTheSame(face: FontFace, words: readonly string[], setting: ShapeSetting, from: Source = 'thread'): void {
  const shaped = face.beginWords(stretches(words), setting)!.take();
  expect(shaped.glyphs.buffer instanceof SharedArrayBuffer ? 'thread' : 'here').toBe(from);
  const taken = glyphsByWord(shaped, words.length);
  expect(taken).toEqual(glyphsByWord(face.shapeWords(stretches(words), setting), words.length));
  expect(taken.some(({ glyphs }) => glyphs.length > 0)).toBe(true);
}

describe('words shaped aside', () => {
  test('in several faces and settings, the font sent once for each', async () => {
    const fonts: string[] = [];
    const { library } = await libraryWith((job) => {
      if (job.font) fonts.push(job.face);
      serve(job);
    });
    const { regular, italic } = library.family('EB Garamond');
    expect(library.shapesAside).toBe(true);
    expectTheSame(regular, WORDS, ENGLISH);
    expectTheSame(regular, WORDS, { ...ENGLISH, features: 'onum,smcp' });
    expectTheSame(italic, WORDS, ENGLISH);
    expectTheSame(library.fallbacks[0]!, ['שָׁלוֹם', 'אב'], HEBREW);
    expect(fonts).toEqual([regular.id, italic.id, library.fallbacks[0]!.id]);
  });

  test('several batches under way, each out of the middle of a text', async () => {
    const jobs: ShapingJob[] = [];
    const { library } = await libraryWith((job) => jobs.push(job));
    const { regular } = library.family('EB Garamond');
    const all = stretches(WORDS);
    const parts = [0, 3, 6].map((first) => ({
      ...all,
      bounds: all.bounds.subarray(first * 2, first * 2 + 6),
      count: 3,
    }));
    const begun = parts.map((part) => regular.beginWords(part, ENGLISH)!);
    for (const job of jobs) serve(job);
    begun.forEach(({ take }, index) => {
      const own = regular.shapeWords(stretches(WORDS.slice(index * 3, index * 3 + 3)), ENGLISH);
      const expected = glyphsByWord(own, 3);
      const shaped = take();
      expect(shaped.glyphs.buffer).toBeInstanceOf(SharedArrayBuffer);
      expect(glyphsByWord(shaped, 3)).toEqual(expected);
    });
  });

  test('no words at all', async () => {
    const { library } = await libraryWith(serve);
    const begun = library.family('EB Garamond').regular.beginWords(stretches([]), ENGLISH);
    expect(glyphsByWord(begun!.take(), 0)).toEqual([]);
  });
});

describe('a thread that fails', () => {
  test('at a job: the words are shaped here', async () => {
    // The thread never gets the font.
    const { library } = await libraryWith((job) => serve({ ...job, face: 'unknown', font: null }));
    expectTheSame(library.family('EB Garamond').regular, WORDS, ENGLISH, 'here');
  });

  test('for good: what is under way is shaped here, and nothing more is sent', async () => {
    const { library, aside } = await libraryWith(() => undefined);
    const { regular } = library.family('EB Garamond');
    const begun = regular.beginWords(stretches(WORDS), ENGLISH)!;
    aside.giveUp();
    const own = glyphsByWord(regular.shapeWords(stretches(WORDS), ENGLISH), WORDS.length);
    expect(glyphsByWord(begun.take(), WORDS.length)).toEqual(own);
    expect(regular.beginWords(stretches(WORDS), ENGLISH)).toBeNull();
    expect(library.shapesAside).toBe(false);
  });

  test('fonts without one begin nothing', async () => {
    const library = await loadFontLibrary(textFiles, fontModules());
    expect(library.shapesAside).toBe(false);
    expect(library.family('EB Garamond').regular.beginWords(stretches(WORDS), ENGLISH)).toBeNull();
  });
});
