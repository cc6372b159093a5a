/** A corrected manuscript in a book that exists: the text is the manuscript's, all else stays the book's. */
import fc from 'fast-check';
import type { Node } from 'prosemirror-model';
import { describe, expect, it } from 'vitest';
import { applyChange, type Book, correctedText, textOf } from '#book';
import { book, bookValue, chapter, em, note, p, section } from '../builders/book.ts';

let count = 0;
const freshId = (): string => `fresh${++count}`;

const of = (...sections: Node[]): Book => bookValue(book(...sections));

function taken(old: Book, manuscript: Book) {
  const corrected = correctedText(old, manuscript, freshId);
  if (!corrected.change) return { corrected, after: old };
  const applied = applyChange(old, corrected.change);
  if (!applied.ok) throw new RangeError(applied.problem);
  const back = applyChange(applied.value.book, applied.value.inverse);
  expect(back.ok && back.value.book.text.eq(old.text)).toBe(true);
  return { corrected, after: applied.value.book };
}

const texts = (value: Book): readonly string[] => value.text.children.map(textOf);

describe('a corrected manuscript', () => {
  const before = of(
    chapter('One', p('The lamp was lit.'), p('Nobody ', em('came'), '.'), p('The end of it.')),
    chapter('Two', p('The ferry lay there.')),
  );

  it('changes what it changes, and leaves every other block the block that it was', () => {
    const manuscript = of(
      chapter(
        'One',
        p('The lamp was lit.'),
        p('Nobody ', em('came'), ' at all', note(p('So they say.')), '.'),
        p('The end of it.'),
      ),
      chapter('Two', p('The ferry lay there.')),
    );
    const { corrected, after } = taken(before, manuscript);
    expect(texts(after)).toEqual(texts(manuscript));
    expect(corrected).toMatchObject({ added: [], missing: [], unchanged: 1 });
    expect(corrected.changed).toEqual([
      {
        section: before.text.child(0).attrs['id'],
        corrections: [{ before: 'Nobody came.', after: 'Nobody came at all.' }],
      },
    ]);
    const ids = (value: Book) => value.text.child(0).children.map((block) => block.attrs['id'] as string);
    expect(ids(after)).toEqual(ids(before));
  });

  it('brings what the import did where its text comes in, and leaves what stands beside the rest', () => {
    const remark = (id: string, block: string, message: string) => ({ id, block, kind: 'soft-return', message });
    const old = {
      ...before,
      remarks: [remark('r1', 'b2', 'old'), remark('r2', 'b3', 'old'), remark('r3', 's1', 'old')],
    };
    const manuscript = of(
      chapter('One', p('The lamp was lit.'), p('Nobody came at all.'), p('The end of it.'), p('And more.')),
      chapter('Two', p('The ferry lay there.')),
    );
    const remarks = ['b2', 'b3', 'b5', 's1'].map((block, at) => remark(`r${at}`, block, 'new'));
    const { after } = taken(old, { ...manuscript, remarks });
    const last = after.text.child(0).lastChild?.attrs['id'] as string;
    expect(after.remarks.map(({ block, message }) => [block, message])).toEqual([
      ['b2', 'old'],
      ['s1', 'old'],
      ['b3', 'new'],
      [last, 'new'],
    ]);
    expect(new Set(after.remarks.map(({ id }) => id)).size).toBe(4);
  });

  it('that says the same changes nothing', () => {
    expect(taken(before, of(...before.text.children)).corrected).toMatchObject({
      change: null,
      changed: [],
      unchanged: 2,
    });
  });

  it('keeps the order, the editions and the sections that the author set', () => {
    const [one, two] = before.text.children;
    if (!one || !two) throw new RangeError('two chapters are wanted');
    const limited = two.type.create({ ...two.attrs, editions: ['print'] }, two.content);
    const turned: Book = {
      ...before,
      text: before.text.copy(before.text.content.cut(0, 0).addToEnd(limited).addToEnd(one)),
    };
    const { after } = taken(
      turned,
      of(chapter('One', p('The lamp was out.')), chapter('Two', p('The ferry had gone.'))),
    );
    expect(texts(after)).toEqual(['Two\nThe ferry had gone.', 'One\nThe lamp was out.']);
    expect(after.text.child(0).attrs['editions']).toEqual(['print']);
  });

  it('brings new sections to their place and drops none', () => {
    const manuscript = of(
      chapter('One', p('The lamp was lit.'), p('Nobody ', em('came'), '.'), p('The end of it.')),
      chapter('Between', p('New here.')),
    );
    const { corrected, after } = taken(before, manuscript);
    expect(after.text.children.map((section) => section.firstChild?.textContent)).toEqual(['One', 'Between', 'Two']);
    expect(corrected).toMatchObject({ added: [expect.any(String)], missing: [before.text.child(1).attrs['id']] });
  });

  it('leaves the pages that a book makes of its details alone', () => {
    const imprint = (text: string): Node => section('copyright', null, p(text));
    const old = of(imprint('All rights reserved.'), chapter('One', p('The lamp was lit.')));
    const { corrected, after } = taken(old, of(imprint('Made anew.'), chapter('One', p('The lamp was out.'))));
    expect(texts(after)).toEqual(['All rights reserved.', 'One\nThe lamp was out.']);
    expect(corrected).toMatchObject({ added: [], missing: [] });
  });

  it('finds a section whose title was changed by its paragraphs', () => {
    const manuscript = of(
      chapter('The First', p('The lamp was lit.'), p('Nobody ', em('came'), '.'), p('The end of it.')),
      chapter('Two', p('The ferry lay there.')),
    );
    const { corrected, after } = taken(before, manuscript);
    expect(texts(after)).toEqual(texts(manuscript));
    expect([corrected.added, corrected.missing]).toEqual([[], []]);
  });

  it('is in the book afterwards, whatever it says', () => {
    const paragraph = fc.constantFrom('The lamp.', 'A ferry.', 'The weir was low.', 'Salt.', 'Nobody.', 'Nobody came.');
    const sections = fc.array(fc.array(paragraph, { minLength: 1, maxLength: 7 }), { minLength: 1, maxLength: 3 });
    const made = (chapters: readonly (readonly string[])[]): Book =>
      of(...chapters.map((each, at) => chapter(`Title ${at}`, ...each.map((text) => p(text)))));
    fc.assert(
      fc.property(sections, sections, (one, other) => {
        const { after, corrected } = taken(made(one), made(other));
        const wanted = texts(made(other));
        expect(texts(after).slice(0, wanted.length)).toEqual(wanted);
        expect(corrected.missing).toHaveLength(Math.max(0, one.length - other.length));
      }),
      { numRuns: 80 },
    );
  });
});
