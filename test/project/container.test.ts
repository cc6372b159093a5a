/** The container: pictures go into it as they are in memory, and all that went in comes out. */
import { createHash } from 'node:crypto';
import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { assetIdOf } from '#base';
import type { Asset, Book } from '#book';
import { projectAside, projectOf, projectState, readProject, stateOf, writeProject } from '#project';
import { containerOf, type Entry } from '../../core/project/container.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';

function illustrated(...pictures: readonly Uint8Array[]): Book {
  const assets = pictures.map(
    (bytes): Asset => ({ id: assetIdOf(bytes), bytes, mediaType: 'image/png', name: 'weir.png', pixels: null }),
  );
  return bookValue(book(chapter('One', p('A lamp.'))), { assets: new Map(assets.map((each) => [each.id, each])) });
}

const hash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

test('a picture is neither copied nor changed, and saved again it gives the same bytes', () => {
  const picture = new Uint8Array(100_000).map((_, at) => at * 7);
  const value = illustrated(picture);
  const first = projectOf(value);
  expect(first.parts.filter((part) => part === picture)).toHaveLength(1);
  const again = projectOf({ ...value, metadata: { ...value.metadata } });
  expect(Buffer.concat(again.parts)).toEqual(Buffer.concat(first.parts));
  expect(writeProject(illustrated(picture.slice()))).toEqual(new Uint8Array(Buffer.concat(first.parts)));
});

test('the state is what is found in the file, and every hash is the same hash', () => {
  const value = illustrated(Uint8Array.of(1, 2, 3));
  const bytes = writeProject(value);
  expect(projectState(bytes)).toBe(projectOf(value).state);
  const [ours, theirs] = [readProject(bytes), readProject(bytes, hash)];
  expect(ours.ok && theirs.ok && writeProject(ours.value)).toEqual(theirs.ok && writeProject(theirs.value));
  expect(readProject(bytes, () => 'f'.repeat(64))).toMatchObject({ ok: false });
});

test('packed by a host it is the same book in the same state', async () => {
  const value = illustrated(Uint8Array.of(1, 2, 3));
  const deflate = async (bytes: Uint8Array) => deflateRawSync(bytes);
  const { parts, state } = await projectAside(value, { hash, deflate });
  expect([state, stateOf(value, hash)]).toEqual([projectOf(value).state, projectOf(value).state]);
  const bytes = new Uint8Array(Buffer.concat(parts));
  expect(projectState(bytes)).toBe(state);
  const again = readProject(bytes);
  expect(again.ok && writeProject(again.value)).toEqual(writeProject(value));
});

test('whatever is put in comes out again', () => {
  const bytes = fc.uint8Array({ maxLength: 300 });
  const entries = fc.dictionary(
    fc.stringMatching(/^[a-z]{1,9}$/),
    fc.tuple(bytes, fc.constantFrom('stored', 'deflated', 'packed')),
    { maxKeys: 6 },
  );
  fc.assert(
    fc.property(entries, (wanted) => {
      const list = Object.entries(wanted).map(
        ([name, [bytes, how]]): Entry => ({
          name,
          bytes,
          how: how === 'packed' ? { packed: deflateRawSync(bytes) } : how,
        }),
      );
      const twice = [containerOf(list), containerOf(list)].map((parts) => new Uint8Array(Buffer.concat(parts)));
      expect(twice[1]).toEqual(twice[0]);
      const unpacked = Object.entries(unzipSync(twice[0] ?? new Uint8Array()));
      expect(unpacked).toEqual(list.map(({ name, bytes: content }) => [name, content]));
    }),
  );
});
