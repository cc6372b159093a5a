import { describe, expect, it } from 'vitest';
import { type Filler, fillPages } from '#makeup';
import { book, chapter, p, section } from '../builders/book.ts';
import { madeUp, quoin } from './laws.ts';
import { lines } from './text.ts';
import { typewriter } from './typewriter.ts';

const chapters = (edited = '') =>
  Array.from({ length: 5 }, (_, index) =>
    chapter(
      `Title ${'abcde'[index]}`,
      ...Array.from({ length: 8 }, (_unused, at) => p(lines(7, `${'abcde'[index]}${'abcdefgh'[at]}`) + edited)),
    ),
  );

describe('a book that does not come to rest', () => {
  it('is made up all the same, and says so', () => {
    let calls = 0;
    // A filler that can't make up its mind: the foreword takes two pages more at every other pass.
    const filler: Filler = (request) => {
      const pages = fillPages(request);
      const isForeword = request.flow.items.length === 3;
      const more = { ...pages[0]!, rows: [], first: false };
      return isForeword && calls++ % 2 === 1 ? [...pages, more, more] : pages;
    };
    const foreword = section('foreword', 'Foreword', p(lines(2, 'f')));
    const second = section('preface', 'Preface', p(lines(2, 'g')), p(lines(2, 'h')));
    const text = book(section('contents', null), foreword, second, ...chapters());
    const result = madeUp(text, { filler });
    expect(result.settled).toBe(false);
    expect(result.findings.map((finding) => finding.rule)).toContain('makeup/unsettled');
  });
});

describe('making up again', () => {
  it('breaks nothing anew where nothing changed', () => {
    const setter = typewriter();
    const text = book(...chapters());
    madeUp(text, { setter });
    const before = setter.asked();
    madeUp(text, { setter });
    expect(setter.asked()).toBe(before);
  });

  it('breaks no line of the text anew where only the leading changed', () => {
    const setter = typewriter();
    const text = book(...chapters());
    const { design } = madeUp(text, { setter });
    const before = setter.asked();
    const leading = design.frame.leading + 0.5;
    const airier = madeUp(text, { setter, settings: { ...quoin, text: { ...quoin.text, leading } } });
    expect(airier.design.frame.leading).toBe(leading);
    expect(airier.design.frame.lines).toBeLessThan(design.frame.lines);
    expect(setter.asked()).toBe(before);
  });

  it('keeps the other chapters where one changed', () => {
    const setter = typewriter();
    const text = book(...chapters());
    const first = madeUp(text, { setter });
    const before = setter.asked();
    const changed = text.copy(text.content.replaceChild(2, book(...chapters(' more')).child(2)));
    const second = madeUp(changed, { setter });
    // Eight paragraphs and what only openers and variants ask.
    expect(setter.asked() - before).toBeLessThan(30);
    expect(second.pages[0]).toBe(first.pages[0]);
    expect(second.pages.at(-2)).toBe(first.pages.at(-2));
  });
});
