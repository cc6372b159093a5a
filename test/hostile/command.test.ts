/**
 * Hostile and broken files through the built command: no crash, no hang, one sentence, and nothing written outside the
 * chosen folder. The product’s bound is five seconds (alone, each takes less than two, and a word of a million letters six);
 * the test only tells a hang from an end, so that a busy machine does not fail it.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { freshFolder, root } from '../e2e/command.ts';
import { BOOKS, type HostileFile, MANUSCRIPTS } from './corpus.ts';

/** Seconds after which a command counts as hanging. */
const HANGS = 60;

interface Ended {
  readonly status: number | null;
  readonly signal: string | null;
  readonly out: string;
  readonly err: string;
}

/** Runs `reglet` with the memory that the product allows itself, and stops it when it hangs. */
function reglet(words: readonly string[], folder: string): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--max-old-space-size=1000', join(root, 'dist/reglet.mjs'), ...words], {
      cwd: folder,
      timeout: HANGS * 1000,
    });
    const said = { out: '', err: '' };
    child.stdout.on('data', (data) => (said.out += String(data)));
    child.stderr.on('data', (data) => (said.err += String(data)));
    child.on('error', reject);
    child.on('close', (status, signal) => resolve({ status, signal, ...said }));
  });
}

/** What is owed whatever the file: the command ends by itself, and a refusal is one sentence that names the file. */
function checkEnd(ended: Ended, { name, owes }: HostileFile): void {
  expect(ended).toMatchObject({
    signal: null,
    status: owes === 'either' ? expect.any(Number) : owes === 'refused' ? 1 : 0,
  });
  expect([0, 1]).toContain(ended.status);
  expect(ended.err).not.toMatch(/\n\s+at |node:internal|Error:/);
  if (ended.status !== 1) return;
  expect(ended.err).toContain(name);
  expect(ended.err.trim().split('\n')).toHaveLength(1);
  expect(ended.err.trim()).toMatch(/[.]$/);
}

const CASES: readonly HostileFile[] = [...MANUSCRIPTS, ...BOOKS];

describe('hostile files', () => {
  let folder: string;

  beforeAll(() => {
    folder = freshFolder();
    for (const file of CASES) writeFileSync(join(folder, file.name), file.bytes());
  }, 60_000);

  it('are some forty', () => {
    expect(CASES.length).toBeGreaterThanOrEqual(40);
    expect(new Set(CASES.map(({ name }) => name)).size).toBe(CASES.length);
  });

  describe.concurrent('are outlined or refused, and made or refused', () => {
    it.for(CASES)('$name', { timeout: 150_000 }, async (file) => {
      const work = join(folder, `${file.name}.work`);
      mkdirSync(work);
      checkEnd(await reglet(['outline', join(folder, file.name), '--json'], work), file);
      const made = await reglet(['make', join(folder, file.name), '--out', 'out'], work);
      checkEnd(made, file);
      expect(readdirSync(work)).toEqual(made.status === 0 ? ['out'] : []);
    });
  });

  it('leave the chosen folder alone', () => {
    const known = new Set(CASES.flatMap(({ name }) => [name, `${name}.work`]));
    expect(readdirSync(folder).filter((name) => !known.has(name))).toEqual([]);
  });
});

describe('what is no file', () => {
  it.each([
    ['a folder', (folder: string) => folder],
    ['a file that is not there', (folder: string) => join(folder, 'missing.docx')],
    ['a path with a NUL', (folder: string) => join(folder, 'a%00b.docx')],
    ['a device without end', () => '/dev/zero'],
    ['a name as long as no disk allows', (folder: string) => join(folder, `${'a'.repeat(5000)}.docx`)],
    [
      'a pipe that nobody writes to',
      (folder: string) => {
        const pipe = join(folder, 'pipe.docx');
        spawnSync('mkfifo', [pipe]);
        return pipe;
      },
    ],
  ])('%s is refused in one sentence', async (_what, pathIn) => {
    const folder = freshFolder();
    for (const words of [['outline'], ['check'], ['make', '--out', 'out'], ['keep', '--to', 'kept.reglet']]) {
      const [command = '', ...rest] = words;
      const ended = await reglet([command, pathIn(folder), ...rest], folder);
      expect(ended).toMatchObject({ status: 1, signal: null, out: '' });
      expect(ended.err.trim().split('\n')).toHaveLength(1);
      expect(ended.err).not.toMatch(/\n\s+at |Error:/);
    }
    expect(readdirSync(folder).filter((name) => name !== 'pipe.docx')).toEqual([]);
  });
});
