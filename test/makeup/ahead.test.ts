/** What is read ahead of collecting is what collecting asks for: the same texts, in the order of the book. */
import { expect, it } from 'vitest';
import type { StyledText } from '#paragraph';
import { book, chapter, p, quotation } from '../builders/book.ts';
import { madeUp } from './laws.ts';
import { lines } from './text.ts';
import { typewriter } from './typewriter.ts';

it('reads the running text of all sections ahead, each paragraph once', () => {
  const setter = typewriter();
  const ahead: StyledText[] = [];
  const broken = new Set<StyledText>();
  const watching = {
    ...setter,
    readAhead: (texts: Iterable<StyledText>) => {
      for (const text of texts) ahead.push(text);
    },
    break: (request: Parameters<typeof setter.break>[0]) => {
      broken.add(request.text);
      return setter.break(request);
    },
  };
  const chapters = ['One', 'Two'].map((title) =>
    chapter(
      title,
      p(lines(2, `${title}a`)),
      p(lines(3, `${title}b`)),
      quotation(p('Said so.')),
      p(lines(4, `${title}c`)),
    ),
  );
  madeUp(book(...chapters), { setter: watching });
  expect(ahead.map(({ spans }) => (spans[0]?.kind === 'text' ? spans[0].text.slice(0, 4) : ''))).toEqual([
    'Onea',
    'Oneb',
    'Onec',
    'Twoa',
    'Twob',
    'Twoc',
  ]);
  // The first paragraph of each has the chapter's lead-in, and is set otherwise.
  expect(ahead.map((text) => broken.has(text))).toEqual([false, true, true, false, true, true]);
});
