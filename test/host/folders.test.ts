/** Folders that are made before something is written there, and sentences where they can't be. */
import { statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeTogether } from '../../electron/host/writeTogether.ts';
import { writeWhole } from '../../electron/services/files.ts';
import { makeFolder } from '../../electron/services/folders.ts';
import { freshFolder } from './hosting.ts';

const BYTES = Uint8Array.of(1, 2, 3);

/** A folder in which nothing can be made, and of which the system says that it is not there: on Linux, one below /proc. */
function nowhere(): string {
  if (process.platform === 'linux') return '/proc/reglet/books';
  const file = join(freshFolder(), 'file');
  writeFileSync(file, BYTES);
  return join(file, 'books');
}

test('folders are made as deep as they are wished, by several at once, and left alone where they are', async () => {
  const deep = join(freshFolder(), 'a', 'b', 'c');
  await Promise.all([makeFolder(deep, 0o700), makeFolder(deep, 0o700), makeFolder(join(deep, 'd'))]);
  expect(statSync(join(deep, 'd')).isDirectory()).toBe(true);
  await makeFolder(deep);
});

test('a file in the way is said to be in the way', async () => {
  const file = join(freshFolder(), 'file');
  writeFileSync(file, BYTES);
  await expect(makeFolder(file)).rejects.toMatchObject({ code: 'ENOTDIR' });
  await expect(makeFolder(join(file, 'deeper'))).rejects.toMatchObject({ code: 'ENOTDIR' });
  await expect(writeWhole(join(file, 'x.pdf'), BYTES)).rejects.toThrow('is not a folder.');
});

test('where no folder can be made, one sentence says so and nothing waits for ever', async () => {
  const folder = nowhere();
  await expect(writeWhole(join(folder, 'x.pdf'), BYTES)).rejects.toThrow(
    /^\S+books (is not there and can't be made|is not a folder)\.$/,
  );
  const together = await writeTogether([{ path: join(folder, 'x.pdf'), bytes: BYTES }]);
  expect(together).toMatchObject({ ok: false, problem: expect.stringMatching(/Nothing was written\.$/) });
});
