/** The text of a section as it is edited: places, levelling with the book, ids, runs of typing, keys, finding and replacing. */
import fc from 'fast-check';
import type { Node } from 'prosemirror-model';
import { EditorState, TextSelection } from 'prosemirror-state';
import { describe, expect, it } from 'vitest';
import { applyChange, type Book, flatText, schema, textOf } from '#book';
import { expressionOf, hitsIn, type Query, replacing, searchedBlocks } from '../../renderer/editor/find/search.ts';
import { stacked } from '../../renderer/editor/margin/stack.ts';
import { TEXT_COMMANDS } from '../../renderer/editor/text/commands.ts';
import { idsPlugin } from '../../renderer/editor/text/ids.ts';
import { plainParagraphs } from '../../renderer/editor/text/paste.ts';
import { anchorOf, blockAt, positionOf } from '../../renderer/editor/text/places.ts';
import { TypingRuns } from '../../renderer/editor/text/runs.ts';
import { levelled } from '../../renderer/editor/text/section.ts';
import { lettersOf, pairsOf } from '../../renderer/importReview/pairs.ts';
import { book, bookValue, chapter, em, note, p } from '../builders/book.ts';

const BOOK = (): Book =>
  bookValue(
    book(
      chapter(
        'One',
        p('The lamp ', em('was'), ' lit', note(p('By the ferryman.')), ' at last.'),
        p('Nobody came. The lamp burnt.'),
      ),
      chapter('Two', p('A lamp again; lamps, lamplight.')),
    ),
  );

function sectionAt(value: Book, at: number): Node {
  return value.text.child(at);
}

/** Every text block of a section, those of notes too. */
function blocksIn(section: Node): readonly Node[] {
  const blocks: Node[] = [];
  section.descendants((node) => {
    if (node.isTextblock) blocks.push(node);
    return true;
  });
  return blocks;
}

describe('places', () => {
  it('lead from the book to the editor and back, everywhere', () => {
    const section = sectionAt(BOOK(), 0);
    let counted = 0;
    for (const block of blocksIn(section)) {
      const id = String(block.attrs['id']);
      for (let offset = 0; offset <= flatText(block).length; offset++) {
        const position = positionOf(section, { block: id, offset });
        if (position === null) throw new RangeError(`no place ${offset} in ${id}`);
        expect(anchorOf(section.resolve(position), section)).toEqual({ block: id, offset });
        counted++;
      }
    }
    expect(counted).toBeGreaterThan(60);
  });

  it('that a section does not hold are none', () => {
    const section = sectionAt(BOOK(), 0);
    expect(positionOf(section, { block: 'nowhere', offset: 0 })).toBeNull();
    expect(positionOf(section, { block: String(section.attrs['id']), offset: 0 })).toBe(0);
    expect(blockAt(section, 'nowhere')).toBeNull();
  });
});

const words = fc.array(fc.constantFrom('lamp', 'ferry', ' ', 'a', '.'), { maxLength: 12 }).map((each) => each.join(''));
const someSection = fc
  .array(words, { minLength: 1, maxLength: 6 })
  .map((paragraphs) => sectionAt(bookValue(book(chapter('One', ...paragraphs.map((each) => p(each))))), 0));

describe('levelling', () => {
  it('makes the editor’s section the book’s, whatever changed', () => {
    fc.assert(
      fc.property(someSection, someSection, (mine, theirs) => {
        const state = EditorState.create({ doc: mine });
        const transaction = levelled(state, theirs);
        const after = transaction ? state.apply(transaction).doc : state.doc;
        expect(after.content.eq(theirs.content)).toBe(true);
        if (!transaction) expect(mine.content.eq(theirs.content)).toBe(true);
      }),
    );
  });
});

/** An editor over the first section, with the cursor at the end of its second paragraph. */
function editing(): EditorState {
  const doc = sectionAt(BOOK(), 0);
  const end = doc.content.size - 1;
  return EditorState.create({
    doc,
    selection: TextSelection.create(doc, end),
    plugins: [idsPlugin((id) => id === 'b5')],
  });
}

function run(state: EditorState, command: keyof typeof TEXT_COMMANDS): EditorState {
  let next = state;
  const done = TEXT_COMMANDS[command]?.(state, (transaction) => {
    next = state.applyTransaction(transaction).state;
  });
  expect(done).toBe(true);
  return next;
}

function idsOf(doc: Node): readonly string[] {
  const ids: string[] = [];
  doc.descendants((node) => {
    if (typeof node.attrs['id'] === 'string') ids.push(node.attrs['id']);
    return true;
  });
  return ids;
}

describe('ids', () => {
  it('are given to what is new and to the second of two', () => {
    const state = editing();
    const split = state.applyTransaction(state.tr.split(state.selection.from - 5)).state;
    const ids = idsOf(split.doc);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).not.toContain('');
    expect(ids.slice(0, 4)).toEqual(idsOf(state.doc).slice(0, 4));
  });

  it('of another section are not taken over', () => {
    const state = editing();
    const pasted = schema.nodes.paragraph.create({ id: 'b5' }, schema.text('From elsewhere.'));
    const after = state.applyTransaction(state.tr.insert(state.doc.content.size, pasted)).state;
    expect(idsOf(after.doc)).not.toContain('b5');
  });
});

describe('commands', () => {
  it.each(['text.quotation', 'text.letter', 'text.bulletList', 'text.verse', 'text.heading2'] as const)(
    '%s leads there and back to a paragraph with the same words',
    (command) => {
      const state = editing();
      const there = run(state, command);
      there.doc.check();
      expect(there.doc.content.eq(state.doc.content)).toBe(false);
      expect(textOf(there.doc)).toBe(textOf(state.doc));
      const back = run(there, command === 'text.bulletList' ? 'text.bulletList' : 'text.paragraph');
      expect(textOf(back.doc)).toBe(textOf(state.doc));
      expect(back.doc.lastChild?.type.name).toBe('paragraph');
    },
  );

  it('a scene break stands between what came before the cursor and what comes after', () => {
    const state = editing();
    const middle = state.apply(state.tr.setSelection(TextSelection.create(state.doc, state.selection.from - 16)));
    const after = run(middle, 'text.sceneBreak');
    expect(after.doc.children.slice(-3).map((block) => [block.type.name, textOf(block)])).toEqual([
      ['paragraph', 'Nobody came.'],
      ['sceneBreak', ''],
      ['paragraph', ' The lamp burnt.'],
    ]);
  });

  it('a note is empty, selected, and never stands in a note', () => {
    const after = run(editing(), 'text.note');
    expect(after.selection.$from.nodeAfter?.type.name).toBe('note');
    const inside = blockAt(after.doc, String(blocksIn(after.doc)[2]?.attrs['id']));
    const within = EditorState.create({
      doc: after.doc,
      selection: TextSelection.create(after.doc, (inside?.at ?? 0) + 1),
    });
    expect(TEXT_COMMANDS['text.note']?.(within)).toBe(false);
  });
});

describe('runs of typing', () => {
  it('end by a pause, elsewhere, and by another kind of edit', () => {
    let now = 0;
    const runs = new TypingRuns(() => now);
    let state = editing();
    const keyOf = (make: (from: EditorState) => EditorState['tr']): string | null => {
      const transaction = make(state);
      const key = runs.keyOf(transaction, state);
      state = state.apply(transaction);
      return key;
    };
    const type = (letter: string) => keyOf((from) => from.tr.insertText(letter, from.selection.from));
    const first = type('a');
    expect(type('b')).toBe(first);
    now += 5000;
    const second = type('c');
    expect(second).not.toBe(first);
    const third = keyOf((from) => from.tr.insertText('x', 3));
    expect(third).not.toBe(second);
    const deleting = keyOf((from) => from.tr.delete(3, 4));
    expect(deleting).not.toBe(third);
    expect(keyOf((from) => from.tr.split(from.selection.from))).toBeNull();
  });
});

const query = (some: Partial<Query>): Query => ({ text: '', words: false, letters: false, pattern: false, ...some });

function found(value: Book, some: Partial<Query>): readonly string[] {
  const expression = expressionOf(query(some));
  if (!expression) throw new RangeError('a bad pattern');
  return hitsIn(searchedBlocks(value.text.children), expression).map((hit) => hit.found[0] ?? '');
}

describe('finding', () => {
  it('finds words, capitals as they are, and patterns, in notes too', () => {
    expect(found(BOOK(), { text: 'lamp' })).toHaveLength(5);
    expect(found(BOOK(), { text: 'lamp', words: true })).toHaveLength(3);
    expect(found(BOOK(), { text: 'The', letters: true })).toHaveLength(2);
    expect(found(BOOK(), { text: 'ferryman' })).toEqual(['ferryman']);
    expect(found(BOOK(), { text: 'l(.)mp', pattern: true })).toHaveLength(5);
    expect(found(BOOK(), { text: '[.' })).toEqual([]);
    expect(expressionOf(query({ text: '(', pattern: true }))).toBeNull();
  });

  it('takes straight marks for curled ones', () => {
    const value = bookValue(book(chapter('One', p('It’s “here”.'))));
    expect(found(value, { text: 'It\'s "here"' })).toEqual(['It’s “here”']);
  });

  it('replaces all places at once, in one change that can be taken back', () => {
    fc.assert(
      fc.property(fc.constantFrom('lamp', 'a', 'e', '. '), words, (text, replacement) => {
        const value = BOOK();
        const expression = expressionOf(query({ text, letters: true }));
        if (!expression) throw new RangeError('a bad pattern');
        const change = replacing(value, hitsIn(searchedBlocks(value.text.children), expression), replacement, false);
        const applied = change && applyChange(value, change);
        if (!applied?.ok) throw new RangeError('the change does not apply');
        const plain = (of: Book): string => of.text.children.flatMap(blocksIn).map(flatText).join('\n');
        expect(plain(applied.value.book)).toBe(plain(value).replaceAll(text, () => replacement));
        const back = applyChange(applied.value.book, applied.value.inverse);
        expect(back.ok && back.value.book.text.eq(value.text)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('puts the brackets of a pattern into the replacement', () => {
    const value = BOOK();
    const expression = expressionOf(query({ text: '(lamp)(s|light)', pattern: true }));
    const hits = hitsIn(searchedBlocks(value.text.children), expression ?? /$^/);
    const change = replacing(value, hits, '$2 of the $1, $$1', true);
    const applied = change && applyChange(value, change);
    expect(applied?.ok && textOf(applied.value.book.text.child(1))).toContain(
      's of the lamp, $1, light of the lamp, $1.',
    );
  });
});

describe('what stands beside', () => {
  it('cards stand in order, none upon another, as near to their lines as can be', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ wish: fc.nat(500), height: fc.integer({ min: 1, max: 90 }) })), (cards) => {
        const sorted = cards.toSorted((one, other) => one.wish - other.wish);
        const tops = stacked(sorted);
        for (const [at, top] of tops.entries()) {
          expect(top).toBeGreaterThanOrEqual(sorted[at]?.wish ?? 0);
          if (at > 0) expect(top).toBeGreaterThan((tops[at - 1] ?? 0) + (sorted[at - 1]?.height ?? 0));
        }
      }),
    );
    expect(
      stacked([
        { wish: 0, height: 10 },
        { wish: 300, height: 10 },
      ]),
    ).toEqual([0, 300]);
  });

  it('lines of a manuscript stand beside the section that they went to, after splits and joins too', () => {
    const line = (text: string, section: string | null) =>
      ({ text, align: 'start', bold: false, italic: false, size: null, pageBreakBefore: false, section }) as const;
    const lines = [
      line('Contents', null),
      line('One', 'a'),
      line('x', 'a'),
      line('Two', 'b'),
      line('y', 'b'),
      line('', null),
    ];
    const shape = (pairs: ReturnType<typeof pairsOf>) =>
      pairs.map(({ section, lines: each }) => `${section ?? '-'}: ${each.map(({ line: one }) => one.text).join(' ')}`);
    expect(shape(pairsOf(lines, ['a', 'b'], []))).toEqual(['-: Contents', 'a: One x', 'b: Two y']);
    expect(shape(pairsOf(lines, ['a'], []))).toEqual(['-: Contents', 'a: One x Two y']);
    const split = [{ at: 2, from: 'a', section: 'c' }];
    expect(shape(pairsOf(lines, ['a', 'c', 'b'], split))).toEqual(['-: Contents', 'a: One', 'c: x', 'b: Two y']);
    expect(shape(pairsOf(lines, ['a', 'b'], split))).toEqual(['-: Contents', 'a: One x', 'b: Two y']);
    expect(lettersOf('“It’s  here” — now…')).toBe(lettersOf('"It\'s here" -- now...'));
  });

  it('pasted plain text becomes paragraphs, wrapped at a measure or not', () => {
    expect(plainParagraphs('One.\r\nTwo.\n\nThree.')).toEqual(['One.', 'Two.', 'Three.']);
    const wrapped = `${'a line of words at a measure\n'.repeat(5)}\n${'another paragraph of lines\n'.repeat(5)}`;
    expect(plainParagraphs(wrapped)).toHaveLength(2);
  });
});
