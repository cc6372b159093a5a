import fc from 'fast-check';
import { Fragment, type Node, Slice } from 'prosemirror-model';
import { AddMarkStep, AttrStep, ReplaceStep } from 'prosemirror-transform';
import { expect, test } from 'vitest';
import { assetIdOf } from '#base';
import {
  type Asset,
  applyChange,
  assetRecord,
  type Book,
  type Change,
  type Json,
  replaceText,
  schema,
  textOf,
} from '#book';
import {
  book,
  bookValue,
  chapter,
  EBOOK,
  em,
  figure,
  note,
  PRINT,
  p,
  part,
  sceneBreak,
  section,
  subtitle,
} from '../builders/book.ts';

const PICTURE: Asset = asset([137, 80, 78, 71, 0], 'weir.png');

function asset(bytes: readonly number[], name: string): Asset {
  const data = Uint8Array.from(bytes);
  return { id: assetIdOf(data), bytes: data, mediaType: 'image/png', name, pixels: { width: 4, height: 3 } };
}

function sample(): Book {
  const text = book(
    section('dedication', null, { editions: ['print'] }, p('for you')),
    part('North', { restart: true }),
    chapter(['The ', em('Weir')], subtitle('or, Water'), p('One ', em('two'), note('n')), sceneBreak(), p('Three')),
    chapter(null, p('Four'), figure(PICTURE.id, { alt: 'a weir' }), p('Five')),
    section('aboutAuthor', 'About', p('Six')),
  );
  return bookValue(text, {
    assets: new Map([[PICTURE.id, PICTURE]]),
    designs: [
      { id: 'mine', settings: { size: 11 } },
      { id: 'other', settings: null },
    ],
    muted: [MUTED, { ...MUTED, id: 'm2', at: 's3' }],
    remarks: [
      { id: 'r1', block: 's3', kind: 'section', message: 'Taken as a chapter.' },
      { id: 'r2', block: 'b7', kind: 'blank-scene-break', message: 'Taken as a scene break.' },
      { id: 'r3', block: 's4', kind: 'section', message: 'Taken as a chapter.' },
    ],
  });
}

const MUTED = { id: 'm1', rule: 'text/x', says: 'x', edition: null, at: 'b1', text: 'abc', reason: 'meant so' };

/** A book as plain data, for comparing. */
function plain(value: Book): unknown {
  const assets = [...value.assets.values()].map(assetRecord).sort((one, other) => (one.id < other.id ? -1 : 1));
  return { ...value, assets, text: value.text.toJSON() };
}

/** Applies a change and holds it to its laws; gives the next book. */
function apply(before: Book, change: Change): Book {
  const outcome = applyChange(before, change);
  if (!outcome.ok) throw new Error(outcome.problem);
  const { book: after, inverse } = outcome.value;
  after.text.check();
  expectUntouched(before, after, change);
  const back = applyChange(after, JSON.parse(JSON.stringify(inverse)) as Change);
  if (!back.ok) throw new Error(back.problem);
  expect(plain(back.value.book)).toEqual(plain(before));
  const again = applyChange(before, JSON.parse(JSON.stringify(change)) as Change);
  expect(again.ok && plain(again.value.book)).toEqual(plain(after));
  const forward = applyChange(back.value.book, back.value.inverse);
  expect(forward.ok && plain(forward.value.book)).toEqual(plain(after));
  return after;
}

/** Sections that the change does not name are the very same nodes. */
function expectUntouched(before: Book, after: Book, change: Change): void {
  if (change.kind === 'group') return;
  const named = 'section' in change ? change.section : null;
  for (const section of after.text.children) {
    const old = before.text.children.find((each) => each.attrs['id'] === section.attrs['id']);
    if (old && section.attrs['id'] !== named) expect(section).toBe(old);
  }
}

function problemOf(change: Change): string {
  const outcome = applyChange(sample(), change);
  return outcome.ok ? 'done' : outcome.problem;
}

function outline(value: Book): readonly string[] {
  return value.text.children.map((each) => `${each.attrs['id']}: ${textOf(each).replaceAll('\n', ' | ')}`);
}

test('text steps change their section and no other node', () => {
  const before = sample();
  const step = new ReplaceStep(1, 1, new Slice(Fragment.from(schema.text('In ')), 0, 0));
  const after = apply(before, { kind: 'editText', section: 's5', steps: [step.toJSON() as Json] });
  expect(outline(after)[4]).toBe('s5: In About | Six');
  for (const index of [0, 1, 2, 3]) expect(after.text.child(index)).toBe(before.text.child(index));
  expect(after.text.child(4).child(1)).toBe(before.text.child(4).child(1));
});

test('sections are added, dropped, moved and set', () => {
  const added = schema.nodes.section.create({ id: 'new', kind: 'epilogue' }, [p({ id: 'new1' }, 'Last')]);
  let value = apply(sample(), { kind: 'addSection', index: 4, section: added.toJSON() as Json });
  expect(outline(value)[4]).toBe('new: Last');
  value = apply(value, { kind: 'moveSection', section: 'new', index: 0 });
  value = apply(value, { kind: 'moveSection', section: 's1', index: 5 });
  value = apply(value, { kind: 'dropSection', section: 's3' });
  expect(value.text.children.map((each) => each.attrs['id'])).toEqual(['new', 's2', 's4', 's5', 's1']);
  value = apply(value, {
    kind: 'setSection',
    section: 's4',
    set: { kind: 'interlude', numbered: false, editions: ['print'] },
  });
  expect(value.text.child(2).attrs).toMatchObject({ kind: 'interlude', numbered: false, label: 'Chapter' });
});

test('a section is split before a block and joined again', () => {
  const before = sample();
  const block = String(before.text.child(2).lastChild?.attrs['id']);
  const split = apply(before, { kind: 'splitSection', section: 's3', block, added: 'x', set: { label: null } });
  expect(outline(split).slice(2, 4)).toEqual(['s3: The Weir | or, Water | One two', 'x: Three']);
  expect(split.text.child(3).attrs).toMatchObject({ kind: 'chapter', numbered: true, label: null });
  const joined = apply(split, { kind: 'joinSections', section: 's3' });
  expect(joined.text.eq(before.text)).toBe(true);
});

test('title and subtitle become paragraphs where sections are joined', () => {
  const value = apply(sample(), { kind: 'joinSections', section: 's2' });
  const names = value.text.child(1).children.map((each) => each.type.name);
  expect(names).toEqual(['sectionTitle', 'paragraph', 'paragraph', 'paragraph', 'sceneBreak', 'paragraph']);
  expect(outline(value)[1]).toBe('s2: North | The Weir | or, Water | One two | Three');
});

test('metadata, editions, designs and assets are set', () => {
  const other = asset([1, 2, 3, 4], 'other.png');
  let value = apply(sample(), {
    kind: 'setMetadata',
    set: { title: 'New', year: null, series: { name: 'S', number: '2' } },
  });
  expect(value.metadata).toMatchObject({ title: 'New', year: null, language: 'en-GB' });
  value = apply(value, { kind: 'putEdition', edition: { ...PRINT, id: 'large', name: 'Large print' }, index: 1 });
  value = apply(value, { kind: 'putEdition', edition: { ...EBOOK, isbn: '9780306406157' }, index: 0 });
  value = apply(value, { kind: 'dropEdition', edition: 'print' });
  expect(value.editions.map((each) => each.id)).toEqual(['ebook', 'large']);
  value = apply(value, { kind: 'putDesign', design: 'other', settings: { size: 12 }, index: 0 });
  value = apply(value, { kind: 'dropDesign', design: 'mine' });
  value = apply(value, { kind: 'putDesign', design: 'third', settings: [1, null], index: 1 });
  expect(value.designs.map((each) => each.id)).toEqual(['other', 'third']);
  value = apply(value, { kind: 'putAsset', asset: assetRecord(other) });
  value = apply(value, { kind: 'dropAsset', asset: PICTURE.id });
  expect([...value.assets.keys()]).toEqual([other.id]);
});

test('a mirror without the bytes of pictures puts a dropped one back by its facts alone', () => {
  const facts = { ...PICTURE, bytes: new Uint8Array(0) };
  const mirror = { ...sample(), assets: new Map([[facts.id, facts]]) };
  const dropped = applyChange(mirror, { kind: 'dropAsset', asset: facts.id });
  if (!dropped.ok) throw new RangeError(dropped.problem);
  expect(apply(dropped.value.book, dropped.value.inverse).assets.get(facts.id)).toEqual(facts);
});

test('a group is one change, and fails as one', () => {
  const rename: Change = { kind: 'setMetadata', set: { title: 'New' } };
  const group: Change = { kind: 'group', changes: [rename, { kind: 'dropSection', section: 's1' }, rename] };
  expect(apply(sample(), group).text.childCount).toBe(4);
  expect(problemOf({ kind: 'group', changes: [rename, { kind: 'dropSection', section: 'none' }] })).toBe(
    'The book has no section "none".',
  );
});

test('what can’t be done is said in a sentence', () => {
  const clash = schema.nodes.section.create({ id: 's1' }).toJSON() as Json;
  const nameless = schema.nodes.section.create({ id: 'fresh' }, [p('x')]).toJSON() as Json;
  const far = new ReplaceStep(9000, 9001, Slice.empty).toJSON() as Json;
  const tearing = new ReplaceStep(1, 7, Slice.empty).toJSON() as Json;
  const double = new ReplaceStep(0, 0, new Slice(Fragment.from(p({ id: 's1' }, 'x')), 0, 0)).toJSON() as Json;
  const problems = [
    problemOf({ kind: 'editText', section: 'none', steps: [] }),
    problemOf({ kind: 'editText', section: 's4', steps: [far] }),
    problemOf({ kind: 'editText', section: 's4', steps: [tearing] }),
    problemOf({ kind: 'editText', section: 's4', steps: [{ stepType: 'unheard' }] }),
    problemOf({ kind: 'editText', section: 's4', steps: [double] }),
    problemOf({ kind: 'editText', section: 's4', steps: [{ stepType: 'docAttr', attr: 'id', value: 'z' }] }),
    problemOf({ kind: 'editText', section: 's4', steps: [new AttrStep(0, 'align', 'left').toJSON() as Json] }),
    problemOf({ kind: 'addSection', index: 99, section: clash }),
    problemOf({ kind: 'addSection', index: 0, section: clash }),
    problemOf({ kind: 'addSection', index: 0, section: nameless }),
    problemOf({ kind: 'addSection', index: 0, section: { type: 'paragraph' } }),
    problemOf({ kind: 'moveSection', section: 's1', index: 5 }),
    problemOf({ kind: 'setSection', section: 's1', set: { kind: 'chapbook' as 'chapter' } }),
    problemOf({ kind: 'setSection', section: 's1', set: { id: 'x' } as object }),
    problemOf({ kind: 'splitSection', section: 's3', block: 'none', added: 'x', set: {} }),
    problemOf({ kind: 'splitSection', section: 's5', block: 'b14', added: 's1', set: {} }),
    problemOf({ kind: 'splitSection', section: 's5', block: 'b14', added: 's5', set: {} }),
    problemOf({ kind: 'joinSections', section: 's5' }),
    problemOf({ kind: 'joinSections', section: 's1' }),
    problemOf({ kind: 'setMetadata', set: { year: 'soon' as unknown as number } }),
    problemOf({ kind: 'setMetadata', set: { colour: 'red' } as object }),
    problemOf({ kind: 'putEdition', edition: { ...EBOOK, notes: 'foot' as 'chapter' }, index: 0 }),
    problemOf({ kind: 'putEdition', edition: { ...PRINT, trim: { width: 0, height: 1 } }, index: 0 }),
    problemOf({ kind: 'putEdition', edition: { ...PRINT, id: 'new' }, index: 3 }),
    problemOf({ kind: 'dropEdition', edition: 'none' }),
    problemOf({ kind: 'putDesign', design: 'new', settings: null, index: -1 }),
    problemOf({ kind: 'dropDesign', design: 'none' }),
    problemOf({ kind: 'putAsset', asset: { ...assetRecord(PICTURE), base64: 'AAAA' } }),
    problemOf({ kind: 'putAsset', asset: { ...assetRecord(PICTURE), base64: '!' } }),
    problemOf({ kind: 'dropAsset', asset: 'none' }),
    problemOf({ kind: 'putMuted', muted: { ...MUTED, reason: 5 as unknown as string }, index: 0 }),
    problemOf({ kind: 'putMuted', muted: MUTED, index: 9 }),
    problemOf({ kind: 'dropMuted', muted: 'none' }),
    problemOf({ kind: 'putRemark', remark: { id: '', block: 's1', kind: 'x', message: 'x' }, index: 0 }),
    problemOf({ kind: 'putRemark', remark: { id: 'r', block: 's1', kind: 'x', message: 'x' }, index: -1 }),
    problemOf({ kind: 'dropRemark', remark: 'none' }),
  ];
  expect(problems).not.toContain('done');
  for (const problem of problems) expect(problem).toMatch(/^[A-Z"].*\.$/);
});

test('text is replaced by flat offsets, in the marks of what it replaces', () => {
  const before = sample();
  const block = String(before.text.child(2).child(2).attrs['id']);
  const change = replaceText(before, { section: 's3', block, from: 4, to: 6, text: 'TW' });
  const after = apply(before, change!);
  expect(textOf(after.text.child(2).child(2))).toBe('One TWo');
  expect(after.text.child(2).child(2).child(1).marks[0]?.type.name).toBe('emphasis');
  expect(replaceText(before, { section: 's3', block: 'none', from: 0, to: 0, text: '' })).toBeNull();
});

/** Takes a block out of its section. */
function dropped(section: Node, block: Node): Change {
  let from = 0;
  for (const each of section.children) {
    if (each === block) break;
    from += each.nodeSize;
  }
  const step = new ReplaceStep(from, from + block.nodeSize, Slice.empty);
  return { kind: 'editText', section: String(section.attrs['id']), steps: [step.toJSON() as Json] };
}

test('what was decided about a place goes with it, and comes back with it', () => {
  const before = sample();
  const third = before.text.child(2);
  const sceneBreak = third.child(3);
  expect(sceneBreak.attrs['id']).toBe('b7');
  const without = apply(before, dropped(third, sceneBreak));
  expect(without.remarks.map((each) => each.id)).toEqual(['r1', 'r3']);
  expect(without.muted).toEqual(before.muted);
  const shorter = apply(before, { kind: 'dropSection', section: 's3' });
  expect(shorter.remarks.map((each) => each.id)).toEqual(['r3']);
  expect(shorter.muted.map((each) => each.id)).toEqual(['m1']);
  // A block that only moves to another section keeps what stands beside it.
  const joined = apply(before, { kind: 'joinSections', section: 's3' });
  expect(joined.remarks.map((each) => each.id)).toEqual(['r1', 'r2']);
  const split = apply(before, { kind: 'splitSection', section: 's3', block: 'b7', added: 'x', set: {} });
  expect(split.remarks).toEqual(before.remarks);
});

test('findings are muted and heard again, remarks dismissed', () => {
  const said = { ...MUTED, id: 'm3', at: null };
  let value = apply(sample(), { kind: 'putMuted', muted: said, index: 2 });
  expect(value.muted.map((each) => each.id)).toEqual(['m1', 'm2', 'm3']);
  value = apply(value, { kind: 'putMuted', muted: { ...MUTED, reason: 'for another reason' }, index: 0 });
  expect(value.muted[0]?.reason).toBe('for another reason');
  value = apply(value, { kind: 'dropMuted', muted: 'm2' });
  value = apply(value, { kind: 'dropRemark', remark: 'r2' });
  expect([value.muted.map((each) => each.id), value.remarks.map((each) => each.id)]).toEqual([
    ['m1', 'm3'],
    ['r1', 'r3'],
  ]);
});

test('what was decided about a place that came and went within a group goes with it', () => {
  const before = sample();
  const added = schema.nodes.section.create({ id: 'x', kind: 'note' }, [p({ id: 'xp' }, 'new')]).toJSON() as Json;
  const changes: readonly Change[] = [
    { kind: 'addSection', index: 0, section: added },
    { kind: 'putMuted', muted: { ...MUTED, id: 'mx', at: 'xp' }, index: 0 },
    { kind: 'putRemark', remark: { id: 'rx', block: 'x', kind: 'section', message: 'x' }, index: 0 },
    { kind: 'dropSection', section: 'x' },
  ];
  const after = apply(before, { kind: 'group', changes });
  expect(plain(after)).toEqual(plain(before));
});

/** Some change that the book allows, chosen by numbers. */
function someChange(value: Book, [which, a, b]: readonly [number, number, number], fresh: string): Change {
  const sections = value.text.children;
  const at = a % sections.length;
  const here = sections[at]!;
  const id = String(here.attrs['id']);
  const blocks = here.children.filter((each) => each.type.isInGroup('block'));
  const added = schema.nodes.section
    .create({ id: fresh, kind: 'note' }, [p({ id: `${fresh}p` }, 'new')])
    .toJSON() as Json;
  const insert = (position: number) =>
    new ReplaceStep(position, position, new Slice(Fragment.from(schema.text('ab ')), 0, 0)).toJSON() as Json;
  const positions: number[] = [];
  here.descendants((node, position) => {
    if (node.isTextblock) positions.push(position + 1);
  });
  const choices: readonly (Change | null)[] = [
    positions.length > 0 ? { kind: 'editText', section: id, steps: [insert(positions[b % positions.length]!)] } : null,
    {
      kind: 'editText',
      section: id,
      steps: [new AddMarkStep(0, here.content.size, schema.mark('strong')).toJSON() as Json],
    },
    { kind: 'addSection', index: b % (sections.length + 1), section: added },
    sections.length > 1 ? { kind: 'dropSection', section: id } : null,
    { kind: 'moveSection', section: id, index: b % sections.length },
    { kind: 'setSection', section: id, set: { label: `L${b}`, startNumber: b, numbered: b % 2 === 0 } },
    blocks.length > 0
      ? {
          kind: 'splitSection',
          section: id,
          block: String(blocks[b % blocks.length]!.attrs['id']),
          added: fresh,
          set: {},
        }
      : null,
    sections[at + 1]?.attrs['editions'] === null && here.attrs['editions'] === null
      ? { kind: 'joinSections', section: id }
      : null,
    { kind: 'setMetadata', set: { title: `T${a}`, modified: b } },
    { kind: 'putEdition', edition: { ...PRINT, id: `e${b % 3}` }, index: a % Math.max(1, value.editions.length) },
    { kind: 'putDesign', design: `d${b % 3}`, settings: { a }, index: 0 },
    { kind: 'putAsset', asset: assetRecord(asset([a % 256, b % 256], 'x')) },
    { kind: 'putMuted', muted: { ...MUTED, id: `m${b % 3}`, at: id, reason: `because ${a}` }, index: 0 },
    { kind: 'putRemark', remark: { id: fresh, block: id, kind: 'section', message: 'x' }, index: 0 },
    blocks.length > 1 ? dropped(here, blocks[b % blocks.length]!) : null,
    value.remarks.length > 0 ? { kind: 'dropRemark', remark: value.remarks[a % value.remarks.length]!.id } : null,
    value.muted.length > 0 ? { kind: 'dropMuted', muted: value.muted[a % value.muted.length]!.id } : null,
  ];
  return choices[which % choices.length] ?? { kind: 'group', changes: [] };
}

test('every sequence of changes keeps the laws', () => {
  const numbers = fc.tuple(fc.nat(16), fc.nat(50), fc.nat(50));
  fc.assert(
    fc.property(fc.array(numbers, { minLength: 1, maxLength: 12 }), (choices) => {
      const first = sample();
      const done: Change[] = [];
      let value = first;
      choices.forEach((choice, index) => {
        const change = someChange(value, choice, `f${index}`);
        done.push(change);
        value = apply(value, change);
      });
      expect(plain(apply(first, { kind: 'group', changes: done }))).toEqual(plain(value));
    }),
    { numRuns: 150 },
  );
});

test('assets keep their bytes through base64', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
      const picture = asset([...bytes], 'x');
      const record = assetRecord(picture);
      expect(record.base64).toBe(Buffer.from(bytes).toString('base64'));
      const after = apply(bookValue(book()), { kind: 'putAsset', asset: record });
      expect(after.assets.get(picture.id)?.bytes).toEqual(bytes);
    }),
  );
});
