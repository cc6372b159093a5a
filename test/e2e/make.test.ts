/** The main job from end to end: the demo manuscript to both books, checked by readers that are not ours. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { docx, p as words } from '../builders/docx.ts';
import { demo, freshFolder, outside, reglet } from './command.ts';
import { firstMissingWord, wordsOf } from './words.ts';

interface Made {
  readonly book: { readonly title: string; readonly author: string; readonly language: string; readonly words: number };
  readonly editions: readonly {
    readonly id: string;
    readonly kind: string;
    readonly pages: number | null;
    readonly files: readonly { readonly path: string; readonly bytes: number; readonly sha256: string }[];
  }[];
  readonly findings: readonly { readonly rule: string; readonly severity: string; readonly message: string }[];
}

function make(folder: string, ...more: string[]): Made {
  const ran = reglet(['make', demo, '--out', folder, '--json', ...more]);
  expect(ran.err).toBe('');
  expect(ran.status).toBe(0);
  return JSON.parse(ran.out) as Made;
}

let folder = '';
let made: Made;
let pdf = '';
let epub = '';

beforeAll(() => {
  folder = freshFolder();
  made = make(folder);
  const paths = made.editions.flatMap((edition) => edition.files.map((file) => file.path));
  pdf = paths.find((path) => path.endsWith('.pdf')) ?? '';
  epub = paths.find((path) => path.endsWith('.epub')) ?? '';
});

describe('reglet make', () => {
  it('reports the files that it wrote, with their sizes and hashes', () => {
    expect(made.editions.map((edition) => [edition.id, edition.kind])).toEqual([
      ['print', 'print'],
      ['ebook', 'ebook'],
    ]);
    for (const file of made.editions.flatMap((edition) => edition.files)) {
      const bytes = readFileSync(file.path);
      expect(bytes.length).toBe(file.bytes);
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(file.sha256);
    }
    expect(readdirSync(folder).sort()).toEqual([epub, pdf].map((path) => path.slice(folder.length + 1)).sort());
  });

  it('gives the same bytes on a second run', () => {
    const again = make(freshFolder());
    const hashes = (run: Made) => run.editions.flatMap((edition) => edition.files.map((file) => file.sha256));
    expect(hashes(again)).toEqual(hashes(made));
  });

  it('finds no error in the demo', () => {
    expect(made.findings.filter((finding) => finding.severity === 'error')).toEqual([]);
  });

  it('makes only the edition that is asked for', () => {
    const only = freshFolder();
    expect(make(only, '--edition', 'ebook').editions.map((edition) => edition.id)).toEqual(['ebook']);
    expect(readdirSync(only).every((name) => name.endsWith('.epub'))).toBe(true);
  });

  it('takes another trim', () => {
    const small = make(freshFolder(), '--edition', 'print', '--trim', '129x198mm');
    const path = small.editions[0]?.files[0]?.path ?? '';
    expect(outside('pdfinfo', [path])).toMatch(/Page size:\s+365\.6\d+ x 561\.2\d+ pts/);
    expect(small.editions[0]?.pages).toBeGreaterThan(made.editions[0]?.pages ?? 0);
  });
});

describe('the print interior', () => {
  it('passes qpdf', () => {
    expect(outside('qpdf', ['--check', pdf])).toContain('No syntax or stream encoding errors found');
  });

  it('has every font embedded and subset', () => {
    const rows = outside('pdffonts', [pdf]).trim().split('\n').slice(2);
    expect(rows.length).toBeGreaterThanOrEqual(2);
    for (const row of rows) expect(row).toMatch(/^[A-Z]{6}\+\S+\s+CID TrueType\s+Identity-H\s+yes yes yes\s/);
  });

  it('has pages of the trimmed size, an even number of them', () => {
    const info = outside('pdfinfo', ['-box', pdf]);
    expect(info).toMatch(/TrimBox:\s+0\.00\s+0\.00\s+396\.00\s+612\.00/);
    expect(info).toMatch(/MediaBox:\s+0\.00\s+0\.00\s+396\.00\s+612\.00/);
    const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
    expect(pages).toBe(made.editions[0]?.pages);
    expect(pages % 2).toBe(0);
  });

  it('says every word of the manuscript in order', () => {
    const outline = JSON.parse(reglet(['outline', demo, '--json', '--text']).out) as {
      sections: { kind: string; title: string; text: string }[];
    };
    // In its other mode pdftotext joins words at any hyphen that ends a line, also at the author's own.
    const found = wordsOf(outside('pdftotext', ['-raw', '-enc', 'UTF-8', pdf, '-']));
    const body = outline.sections.filter((section) => section.text !== '');
    expect(body.length).toBeGreaterThan(10);
    for (const section of body) {
      const words = wordsOf(section.text);
      const start = findStart(words, found);
      expect(start, `start of ${section.kind} ${section.title}`).toBeGreaterThanOrEqual(0);
      expect(firstMissingWord(words, found.slice(start)), `${section.kind} ${section.title}`).toBeNull();
    }
  });
});

/** Where the first words of a section stand among the words found. */
function findStart(words: readonly string[], found: readonly string[]): number {
  const head = words.slice(0, Math.min(4, words.length)).join(' ');
  return found.findIndex((_, index) => found.slice(index, index + Math.min(4, words.length)).join(' ') === head);
}

/** A file that is no manuscript, under a manuscript's name. */
function badFile(name: string, bytes: Uint8Array): string {
  const path = join(freshFolder(), name);
  writeFileSync(path, bytes);
  return path;
}

describe('bad input', () => {
  const cases: readonly [string, readonly string[], number, RegExp][] = [
    ['no such file', ['make', join(demo, '../none.docx')], 1, /none\.docx was not found\.$/],
    ['an empty file', ['make', badFile('empty.docx', new Uint8Array())], 1, /empty\.docx is empty\.$/],
    [
      'a manuscript without words',
      ['make', badFile('blank.docx', docx([words('')]))],
      1,
      /blank\.docx.? holds no text/,
    ],
    [
      'half a file',
      ['make', badFile('half.docx', readFileSync(demo).subarray(0, 40_000))],
      1,
      /half\.docx.? is cut short/,
    ],
    [
      'a locked file',
      ['make', badFile('locked.docx', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1))],
      1,
      /locked\.docx.? is either locked with a password/,
    ],
    ['no command', [], 2, /a command is missing/],
    ['an unknown command', ['print', demo], 2, /"print" is not a command/],
    ['an unknown option', ['make', demo, '--fast'], 2, /--fast/],
    ['an unknown edition', ['make', demo, '--edition', 'hardcover'], 2, /hardcover/],
    ['an unknown design', ['make', demo, '--design', 'none'], 2, /none/],
    ['an odd number of pages', ['make', demo, '--pages', '65'], 2, /64 or 66/],
    ['a trim without a unit', ['make', demo, '--trim', '5x8'], 2, /5\.5x8\.5in/],
  ];
  it('a file where the folder should be: one sentence and its status', () => {
    const ran = reglet(['make', demo, '--edition', 'print', '--out', demo]);
    expect([ran.status, ran.out]).toEqual([1, '']);
    expect(ran.err).toMatch(/^reglet: .*manuscript\.docx is not a folder\.\n$/);
  });

  it.each(cases)('%s: one sentence and its status', (_, words, status, sentence) => {
    const out = join(freshFolder(), 'made');
    const ran = reglet(words[0] === 'make' ? [...words, '--out', out] : words);
    expect(ran.status).toBe(status);
    expect(ran.out).toBe('');
    expect(ran.err.split('\n')[0]).toMatch(sentence);
    expect(() => readdirSync(out)).toThrow();
  });
});

describe('a wish for pages', () => {
  it('is met by the smallest change, and said', () => {
    const wanted = make(freshFolder(), '--edition', 'print', '--pages', 'x8');
    const pages = wanted.editions[0]?.pages ?? 0;
    expect(pages % 8).toBe(0);
    expect(wanted.findings.filter((finding) => finding.rule.startsWith('fit/'))).toHaveLength(1);
  });
});
