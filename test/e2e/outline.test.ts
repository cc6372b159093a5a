/** What an import of the demo manuscript understands, against the truth that is written with it. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { DemoTruth } from '../../assets/demo/truth.ts';
import { demo, freshFolder, reglet, root } from './command.ts';

interface Outline {
  readonly title: string;
  readonly author: string;
  readonly sections: readonly {
    readonly kind: string;
    readonly heading: string | null;
    readonly title: string;
    readonly words: number;
    readonly sceneBreaks: number;
    readonly emphases: number;
    readonly notes: number;
    readonly images: number;
    readonly text?: string;
  }[];
  readonly notices: readonly { readonly kind: string; readonly count: number; readonly message: string }[];
}

const truth = JSON.parse(readFileSync(join(root, 'assets/demo/truth.json'), 'utf8')) as DemoTruth;

function outline(path: string, ...more: string[]): Outline {
  const ran = reglet(['outline', path, '--json', ...more]);
  expect(ran.status).toBe(0);
  return JSON.parse(ran.out) as Outline;
}

/** Titles differ in capitals where the manuscript shouts. */
const plain = (text: string | null): string => (text ?? '').toLowerCase();

describe('reglet outline', () => {
  it('finds the sections of the demo as they were written', () => {
    const found = outline(demo);
    expect([found.title, found.author]).toEqual([truth.title, truth.author]);
    expect(
      found.sections.map(({ kind, title, words, sceneBreaks, notes, emphases, images }) => ({
        kind,
        title: plain(title),
        words,
        sceneBreaks,
        notes,
        emphases,
        images,
      })),
    ).toEqual(
      truth.sections.map(({ kind, title, words, sceneBreaks, notes, emphases, images }) => ({
        kind,
        title: plain(title),
        words,
        sceneBreaks,
        notes,
        emphases,
        images,
      })),
    );
  });

  it('gives the text of each section when asked, and only then', () => {
    expect(outline(demo).sections.some((section) => 'text' in section)).toBe(false);
    const texts = outline(demo, '--text').sections.map((section) => section.text ?? '');
    expect(texts.join('\n')).toContain('\u201cNo,\u201d said Judith.');
  });

  it('says what was decided', () => {
    const { notices } = outline(demo);
    expect(notices.find((notice) => notice.kind === 'tracked-deletion')?.count).toBeGreaterThan(0);
    expect(notices.every((notice) => notice.message.length > 0)).toBe(true);
  });

  it('ends quietly when its reader is gone', () => {
    const script = join(root, 'dist/reglet.mjs');
    const piped = spawnSync(
      'sh',
      ['-c', `("$0" "$1" outline "$2"; echo $? >&2) | true`, process.execPath, script, demo],
      {
        encoding: 'utf8',
      },
    );
    expect(piped.stderr).toBe('0\n');
  });

  it('reads a kept book as it read the manuscript', () => {
    const book = join(freshFolder(), 'book.reglet');
    expect(reglet(['keep', demo, '--to', book]).status).toBe(0);
    const manuscript = outline(demo);
    const kept = outline(book);
    const own = new Set(['halfTitle', 'titlePage', 'contents']);
    expect(kept.sections.filter((section) => !own.has(section.kind))).toEqual(manuscript.sections);
    expect([kept.title, kept.author]).toEqual([manuscript.title, manuscript.author]);
  });
});
