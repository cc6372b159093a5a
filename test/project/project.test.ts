import fc from 'fast-check';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { assetIdOf, sha256Hex } from '#base';
import { type Asset, applyChange, type Book, type Change, furnish, mutedAs } from '#book';
import { readProject, writeProject } from '#project';
import {
  book,
  bookValue,
  chapter,
  em,
  figure,
  lang,
  link,
  note,
  PRINT,
  p,
  sceneBreak,
  section,
  stanza,
  verse,
} from '../builders/book.ts';

function picture(bytes: readonly number[]): Asset {
  const data = Uint8Array.from(bytes);
  return {
    id: assetIdOf(data),
    bytes: data,
    mediaType: 'image/png',
    name: 'weir.png',
    pixels: { width: 4, height: 3 },
  };
}

const ABOUT = { id: 'm0', rule: 'text/x', says: 'x', edition: null, at: 's2', text: 'abc', reason: 'meant so' };

function sample(): Book {
  const assets = [picture([3, 2, 1]), picture([1, 2, 3])];
  const text = book(
    section('dedication', null, { editions: ['print'] }, p({ align: 'center' }, 'for “you”')),
    chapter(
      'Ørsted',
      p('One ', em('two'), note('n'), lang('fr', 'été'), link('https://example.org/', 'x')),
      sceneBreak(),
    ),
    chapter(null, verse(stanza('a', 'b')), figure(assets[0]!.id, { alt: 'a weir', width: 0.5 })),
  );
  return furnish(
    bookValue(text, {
      assets: new Map(assets.map((each) => [each.id, each])),
      designs: [{ id: 'mine', settings: { size: 11, family: ['a', null] } }],
      muted: [{ ...ABOUT, id: 'm1', at: null, edition: 'print' }, ABOUT],
      remarks: [{ id: 'r1', block: 'b4', kind: 'blank-scene-break', message: 'Taken as a scene break.' }],
      metadata: { modified: 1_600_000_000, series: { name: 'S', number: '2' } },
    }),
  );
}

function plain(value: Book): unknown {
  return { ...value, assets: [...value.assets.values()].map((each) => each.id).sort(), text: value.text.toJSON() };
}

function read(bytes: Uint8Array): Book {
  const outcome = readProject(bytes);
  if (!outcome.ok) throw new Error(outcome.problem);
  return outcome.value;
}

function problemOf(bytes: Uint8Array): string {
  const outcome = readProject(bytes);
  return outcome.ok ? 'read' : outcome.problem;
}

/** A project file put together by hand from a good one; content given as an object is hashed into the manifest. */
function forged(change: { manifest?: object; content?: (record: Record<string, unknown>) => unknown; extra?: object }) {
  const entries = unzipSync(writeProject(sample()));
  const record = JSON.parse(Buffer.from(entries['book.json']!).toString()) as Record<string, unknown>;
  const content = strToU8(JSON.stringify(change.content ? change.content(record) : record));
  const manifest = { format: 'reglet', version: 1, book: sha256Hex(content), ...change.manifest };
  return zipSync({
    ...entries,
    'book.json': content,
    'manifest.json': strToU8(JSON.stringify(manifest)),
    ...(change.extra as Record<string, Uint8Array>),
  });
}

test('a book survives being written and read', () => {
  const value = sample();
  const again = read(writeProject(value));
  expect(plain(again)).toEqual(plain(value));
  expect(again.text.eq(value.text)).toBe(true);
  for (const [id, asset] of value.assets) expect(again.assets.get(id)).toEqual(asset);
  expect(writeProject(again)).toEqual(writeProject(value));
});

test('a book without muted findings and remarks, as older programs wrote it, is read; places that are gone are not kept', () => {
  const older = read(forged({ content: ({ muted: _, remarks: __, ...record }) => record }));
  expect([older.muted, older.remarks]).toEqual([[], []]);
  const lost = read(forged({ content: (record) => ({ ...record, muted: [{ ...ABOUT, at: 'gone' }] }) }));
  expect(lost.muted).toEqual([]);
});

test('the bytes depend on nothing but the book', () => {
  const value = sample();
  const bytes = writeProject(value);
  const reversed = { ...value, assets: new Map([...value.assets].reverse()) };
  expect(writeProject(reversed)).toEqual(bytes);
  const zone = process.env['TZ'];
  const offsets = new Set<number>();
  for (const name of ['UTC', 'Asia/Kathmandu', 'America/St_Johns']) {
    process.env['TZ'] = name;
    offsets.add(new Date(0).getTimezoneOffset());
    expect(writeProject(value)).toEqual(bytes);
  }
  if (zone === undefined) delete process.env['TZ'];
  else process.env['TZ'] = zone;
  expect(offsets.size).toBe(3);
});

test('pictures are stored as they are', () => {
  const infos: string[] = [];
  unzipSync(writeProject(sample()), {
    filter: (entry) => {
      infos.push(`${entry.name.replace(/[0-9a-f]{64}/, '<id>')} ${entry.compression}`);
      return false;
    },
  });
  expect(infos).toEqual(['manifest.json 0', 'book.json 8', 'assets/<id> 0', 'assets/<id> 0']);
});

test('a newer version is refused with its number', () => {
  expect(problemOf(forged({ manifest: { version: 2 } }))).toBe(
    'This book was saved by a newer version of Reglet (format 2; this version reads up to 1).',
  );
});

test('what is no project file is refused', () => {
  const other = zipSync({ 'word/document.xml': strToU8('<w/>') });
  expect(problemOf(new Uint8Array())).toMatch(/no zip container/);
  expect(problemOf(strToU8('hello'))).toMatch(/no zip container/);
  expect(problemOf(strToU8('PK'))).toMatch(/can’t be unpacked/);
  expect(problemOf(other)).toMatch(/no manifest/);
  expect(problemOf(forged({ manifest: { format: 'other' } }))).toMatch(/says something else/);
  expect(problemOf(forged({ manifest: { version: 0 } }))).toMatch(/says something else/);
});

test('damage is found: hashes, ids, schema, settings', () => {
  const content = (edit: (record: Record<string, unknown>) => object) =>
    problemOf(forged({ content: (record) => ({ ...record, ...edit(record) }) }));
  const text = (edit: (json: string) => string) =>
    content((record) => ({ text: JSON.parse(edit(JSON.stringify(record['text']))) as unknown }));
  const problems = [
    problemOf(forged({ manifest: { book: 'f'.repeat(64) } })),
    problemOf(forged({ manifest: { book: null } })),
    problemOf(forged({ extra: { [`assets/${picture([1, 2, 3]).id}`]: strToU8('swapped') } })),
    problemOf(forged({ content: () => [] })),
    text((json) => json.replace('"id":"s2"', '"id":"s1"')),
    text((json) => json.replace('"kind":"dedication"', '"kind":"chapbook"')),
    text((json) => json.replace('"type":"sceneBreak"', '"type":"script"')),
    text((json) => json.replace('"align":"center"', '"align":5')),
    text((json) => json.replace('"type":"book"', '"type":"section"')),
    text(() => '5'),
    content((record) => ({ metadata: { ...(record['metadata'] as object), year: '1999' } })),
    content(() => ({ metadata: null })),
    content(() => ({ editions: [PRINT, PRINT] })),
    content(() => ({ editions: [{ ...PRINT, trim: { width: -1, height: 2 } }] })),
    content(() => ({ editions: {} })),
    content(() => ({ designs: [{ settings: {} }] })),
    content(() => ({ muted: [{ ...ABOUT, reason: null }] })),
    content(() => ({ muted: [ABOUT, ABOUT] })),
    content(() => ({ remarks: [{ id: 'r1', block: 's1', kind: 'x' }] })),
    content(() => ({ remarks: 'none' })),
    content(() => ({ assets: [{ ...picture([9]), bytes: undefined }] })),
    content(() => ({ assets: [{ ...picture([1, 2, 3]), pixels: { width: 0, height: 1 } }] })),
  ];
  for (const problem of problems) expect(problem).toMatch(/^This (is not a )?Reglet book.*\.$/);
  expect(new Set(problems).size).toBeGreaterThan(12);
});

test('bombs are refused before they are unpacked', () => {
  const zeros = new Uint8Array(130 * 1024 * 1024);
  expect(problemOf(zipSync({ 'book.json': [zeros, { level: 1 }] }))).toMatch(/larger than any book needs/);
  const many = Object.fromEntries(Array.from({ length: 5001 }, (_, index) => [`e${index}`, new Uint8Array()]));
  expect(problemOf(zipSync(many))).toMatch(/more than 5000 entries/);
  const deep = '['.repeat(300) + ']'.repeat(300);
  expect(problemOf(forged({ content: (record) => ({ ...record, designs: JSON.parse(deep) as unknown }) }))).toMatch(
    /can’t be read/,
  );
});

test('a small file that unpacks to millions of values, or to far larger pictures, is refused before it is read', () => {
  const editions = Array.from({ length: 2_000_001 }, () => ({}));
  expect(problemOf(forged({ content: (record) => ({ ...record, editions }) }))).toMatch(/can’t be read/);
  const name = `assets/${'0'.repeat(64)}`;
  expect(problemOf(zipSync({ [name]: [new Uint8Array(2 ** 20), { level: 9 }] }))).toMatch(/larger than any book needs/);
});

test('whatever is decided at places of the book is kept, and undone in the book that is opened again', () => {
  const { text } = sample();
  const places = text.children.flatMap((each) => [each, ...each.children]).map((each) => String(each.attrs['id']));
  const words = fc.string({ unit: 'grapheme' });
  const finding = fc.record({ rule: fc.constantFrom('a/b', 'c/d'), message: words, at: fc.constantFrom(...places) });
  const decisions = fc.array(fc.tuple(finding, words, fc.nat(9)), { maxLength: 8 });
  fc.assert(
    fc.property(decisions, (made) => {
      let value = sample();
      const back: Change[] = [];
      for (const [at, [{ at: block, ...said }, reason, index]] of made.entries()) {
        const muted = mutedAs(value, { ...said, severity: 'note', at: { block, offset: 0 } }, reason);
        const others = value.muted.filter(({ id }) => id !== muted.id).length;
        const remark = { id: `new${at}`, block, kind: 'section', message: reason };
        for (const change of [
          { kind: 'putMuted', muted, index: Math.min(index, others) },
          { kind: 'putRemark', remark, index: 0 },
        ] as const) {
          const applied = applyChange(value, change);
          if (!applied.ok) throw new Error(applied.problem);
          value = applied.value.book;
          back.unshift(applied.value.inverse);
        }
      }
      const again = read(writeProject(value));
      expect([again.muted, again.remarks]).toEqual([value.muted, value.remarks]);
      const undone = applyChange(again, { kind: 'group', changes: back });
      expect(undone.ok && plain(undone.value.book)).toEqual(plain(sample()));
    }),
    { numRuns: 60 },
  );
});

test('whatever stands in the book, it is read or refused in a sentence', () => {
  const record = JSON.parse(Buffer.from(unzipSync(writeProject(sample()))['book.json']!).toString()) as object;
  const places = placesIn(record);
  fc.assert(
    fc.property(fc.constantFrom(...places), strange, (place, value) => {
      const outcome = readProject(forged({ content: () => withValueAt(record, place, value) as object }));
      if (!outcome.ok) expect(outcome.problem).toMatch(/^This Reglet book is damaged.*\.$/s);
    }),
    { numRuns: 300 },
  );
});

/** Values that a member may have in a file that someone spoilt. */
const strange = fc.oneof(
  fc.jsonValue({ maxDepth: 2 }),
  fc.constantFrom(null, [], {}, '', 0, -1, 1e308, true, '__proto__', 'constructor', 'text', { type: 'note' }, [
    { type: 'book' },
  ]),
);

type Place = readonly (string | number)[];

/** The ways to each value inside a value. */
function placesIn(value: unknown): readonly Place[] {
  if (typeof value !== 'object' || value === null) return [];
  const keys = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return keys.flatMap((key) => {
    const inner = (value as Record<string | number, unknown>)[key];
    return [[key], ...placesIn(inner).map((place) => [key, ...place])];
  });
}

function withValueAt(value: unknown, [key, ...rest]: Place, replacement: unknown): unknown {
  if (key === undefined) return replacement;
  const copy = (Array.isArray(value) ? [...value] : { ...(value as object) }) as Record<string | number, unknown>;
  copy[key] = withValueAt(copy[key], rest, replacement);
  return copy;
}

test('no size in a header is believed', () => {
  const bytes = zipSync({ 'manifest.json': [new Uint8Array(60_000), { level: 9 }] });
  const lying = bytes.slice();
  const view = new DataView(lying.buffer);
  const directory = view.getUint32(lying.length - 22 + 16, true);
  view.setUint32(directory + 24, 10, true);
  expect(problemOf(lying)).not.toBe('read');
});

test('truncated and altered files never throw and never pass for another book', () => {
  const bytes = writeProject(sample());
  const before = plain(sample());
  const edit = fc.tuple(fc.nat(bytes.length - 1), fc.nat(255));
  fc.assert(
    fc.property(fc.nat(bytes.length), fc.array(edit, { maxLength: 4 }), (length, edits) => {
      const altered = bytes.slice(0, length < bytes.length / 2 ? bytes.length : length);
      for (const [at, value] of edits) altered[at] = value;
      const outcome = readProject(altered);
      if (outcome.ok) expect(plain(outcome.value)).toEqual(before);
      else expect(outcome.problem).toMatch(/\.$/);
    }),
    { numRuns: 1500 },
  );
});
