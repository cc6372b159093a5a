import { describe, expect, it } from 'vitest';
import { book, chapter, p } from '../builders/book.ts';
import { madeUp } from './laws.ts';
import { lines } from './text.ts';
import { typewriter } from './typewriter.ts';

const chapters = (edited = '') =>
  Array.from({ length: 5 }, (_, index) =>
    chapter(
      `Title ${'abcde'[index]}`,
      ...Array.from({ length: 8 }, (_unused, at) => p(lines(7, `${'abcde'[index]}${'abcdefgh'[at]}`) + edited)),
    ),
  );

describe('making up again', () => {
  it('breaks nothing anew where nothing changed', () => {
    const setter = typewriter();
    const text = book(...chapters());
    madeUp(text, { setter });
    const before = setter.asked();
    madeUp(text, { setter });
    expect(setter.asked()).toBe(before);
  });

  it('keeps the other chapters where one changed', () => {
    const setter = typewriter();
    const text = book(...chapters());
    const first = madeUp(text, { setter });
    const before = setter.asked();
    const changed = text.copy(text.content.replaceChild(2, book(...chapters(' more')).child(2)));
    const second = madeUp(changed, { setter, previous: first });
    // Eight paragraphs and what only openers and variants ask.
    expect(setter.asked() - before).toBeLessThan(30);
    expect(second.pages[0]).toEqual(first.pages[0]);
  });
});
