/** The manuscript line by line beside what was made of it: every line, and the section that it went to. */
import { describe, expect, it } from 'vitest';
import { importManuscript } from '#engine';
import { switchOf } from '#manuscript';
import { docx, p } from '../builders/docx.ts';

const CHAPTER = 'The rain had come down all night on the slates, and nobody in the house had slept at all.';

function imported(pieces: Parameters<typeof docx>[0], without: readonly string[] = []) {
  const outcome = importManuscript(docx(pieces), 'novel.docx', { without });
  if (!outcome.ok) throw new RangeError(outcome.problem);
  return outcome.value;
}

const NOVEL = [
  p('Chapter One', { style: 'Heading1' }),
  p(CHAPTER),
  p(''),
  p('"A  Weir," she said.'),
  p('Chapter Two', { style: 'Heading1' }),
  p(CHAPTER),
  p('THE END', { align: 'center' }),
];

describe('the lines of a manuscript', () => {
  it('are all there, with the section that each went to', () => {
    const { book, lines } = imported(NOVEL);
    const ids: (string | null)[] = [];
    book.text.forEach((section) => {
      ids.push(section.attrs['id'] as string);
    });
    const [one = null, two = null] = ids;
    expect(lines().map((line) => [line.text, line.section])).toEqual([
      ['Chapter One', one],
      [CHAPTER, one],
      ['', null],
      ['"A  Weir," she said.', one],
      ['Chapter Two', two],
      [CHAPTER, two],
      ['THE END', null],
    ]);
  });

  it('say how a line looked', () => {
    const { lines } = imported([
      p('Chapter One', { align: 'center', pageBreakBefore: true, run: { bold: true, size: 18 } }),
      p(CHAPTER, { run: { italic: true } }),
    ]);
    expect(lines()[0]).toMatchObject({ align: 'center', bold: true, italic: false, size: 18, pageBreakBefore: true });
    expect(lines()[1]).toMatchObject({ bold: false, italic: true, pageBreakBefore: false });
  });
});

describe('a clean-up that is switched off', () => {
  it('leaves the text as it was typed, and is not reported', () => {
    const tidied = imported(NOVEL);
    const kept = imported(NOVEL, ['quote', 'double-space', 'end-marker']);
    expect(tidied.book.text.textContent).toContain('“A Weir,” she said.');
    expect(kept.book.text.textContent).toContain('"A  Weir," she said.');
    expect(kept.book.text.textContent).toContain('THE END');
    const kinds = kept.report.notices.map((notice) => notice.kind);
    expect(kinds).not.toContain('quote');
    expect(kinds).not.toContain('end-marker');
  });

  it('is one that the report names', () => {
    const { report } = imported(NOVEL);
    for (const { kind } of report.notices) {
      const name = switchOf(kind);
      if (name === null) continue;
      expect(imported(NOVEL, [name]).report.notices.map((each) => each.kind)).not.toContain(kind);
    }
    expect(switchOf('tab')).toBeNull();
  });
});
