import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Hyphenator, loadHyphenator } from '#type';

let english: Hyphenator;

beforeAll(async () => {
  english = (await loadHyphenator('en-US'))!;
});

/** The word with its hyphens; checks that the places rise and lie inside, and are the same inside a longer text. */
function divided(word: string, hyphenator = english): string {
  const around = Uint16Array.from({ length: word.length + 2 }, (_, i) => `x${word}y`.charCodeAt(i));
  const count = hyphenator.divide(around, 1, word.length + 1);
  expect([...hyphenator.places.subarray(0, count)]).toEqual(hyphenator.breaks(word));
  let text = '';
  let from = 0;
  for (const place of hyphenator.breaks(word)) {
    expect(place).toBeGreaterThan(from);
    expect(place).toBeLessThan(word.length);
    text += `${word.slice(from, place)}-`;
    from = place;
  }
  return text + word.slice(from);
}

function expectDivided(expected: string, hyphenator = english): void {
  expect(divided(expected.replaceAll('-', ''), hyphenator)).toBe(expected);
}

describe('American English', () => {
  test.each([
    // D. E. Knuth, The TeXbook, appendix H; the second from memory.
    'hy-phen-ation',
    'su-per-cal-ifrag-ilis-tic-ex-pi-ali-do-cious',
    // Another implementation's output with the same 4938 patterns and minimums 2 and 3.
    ...'con-cate-na-tion demon-stra-tion demon-stra-tive al-go-rithm uni-ver-sity type-set-ting'.split(' '),
    ...'man-u-script chap-ter para-graph com-puter pub-lisher'.split(' '),
    // The fourteen exceptions of plain TeX (hyphen.tex, from memory).
    ...'as-so-ciate as-so-ciates dec-li-na-tion oblig-a-tory phil-an-thropic present presents project'.split(' '),
    ...'projects reci-procity re-cog-ni-zance ref-or-ma-tion ret-ri-bu-tion ta-ble'.split(' '),
  ])('%s', (word) => expectDivided(word));

  test('two letters before, three after', () => {
    // Hart's Rules for Compositors and Readers, word division.
    expect(english.breaks('elegantly')).toContain(3);
    expect(english.breaks('elegantly')).not.toContain(7);
    expectDivided('women');
    expectDivided('again');
    fc.assert(
      fc.property(fc.stringMatching(/^[a-z]{1,20}$/), (word) => {
        for (const place of english.breaks(word)) {
          expect(place).toBeGreaterThanOrEqual(2);
          expect(word.length - place).toBeGreaterThanOrEqual(3);
        }
      }),
    );
  });

  test('punctuation, capitals and accents do not matter', () => {
    expectDivided('“Hy-phen-ation!”');
    expectDivided('Pub-lisher’s');
    expectDivided('ré-sumés');
    expect(divided('re\u0301sume\u0301s')).toBe('re\u0301-sume\u0301s');
  });

  test('a contraction is not torn at its apostrophe', () => {
    for (const word of ['couldn’t', "wouldn't", 'they’ve', 'o’clock']) expect(divided(word)).toBe(word);
  });

  test('what is not divided', () => {
    // Words in capitals; compounds, which divide at their own hyphen; numbers.
    for (const word of ['HYPHENATION', 'university-educated', 'university—educated', '123456', '']) {
      expect(english.breaks(word)).toEqual([]);
    }
  });

  test('the author’s soft hyphens take the place of the patterns', () => {
    expect(english.breaks('hyphena\u00adtion')).toEqual([7]);
  });

  test('an exception is one with capitals and marks around it too', () => {
    expect(english.breaks('“Associates,')).toEqual(english.breaks('associates').map((place) => place + 1));
    expect(english.breaks('“Table.”')).toEqual([3]);
  });
});

describe('other languages', () => {
  test.each([
    ['en-GB', 'uni-ver-sity how-ever through-out some-thing'],
    ['fr', 'au-jourd’hui l’an-ti-cons-ti-tu-tion-nel-le-ment qu’elle'],
    ['de', 'Do-nau-dampf-schiff-fahrts-ge-sell-schaft Stra-ße'],
    ['es', 'cons-ti-tu-ción ca-rre-te-ra'],
    ['it', 'pre-ci-pi-te-vo-lis-si-me-vol-men-te dell’ac-qua'],
    ['pt', 'co-ra-ção'],
    ['nl', 'aan-dachts-trek-kers'],
    ['ru', 'до-сто-при-ме-ча-тель-ность'],
  ])('%s', async (language, words) => {
    // Divisions of the hyph-utf8 patterns, compared with a second implementation (fr, nl, it) or a dictionary.
    const hyphenator = (await loadHyphenator(language))!;
    for (const word of words.split(' ')) expectDivided(word, hyphenator);
  });

  test('regions choose between the two Englishes', async () => {
    const tags = ['en', 'en-US', 'en-CA', 'en-GB', 'en-AU', 'en_IE', 'de-AT', 'pt-BR'];
    const found = await Promise.all(tags.map(async (tag) => (await loadHyphenator(tag))?.language));
    expect(found).toEqual(['en-US', 'en-US', 'en-US', 'en-GB', 'en-GB', 'en-GB', 'de', 'pt']);
  });

  test('a language without patterns', async () => {
    expect(await loadHyphenator('tlh')).toBeNull();
  });
});
