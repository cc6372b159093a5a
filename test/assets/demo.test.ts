/** The committed demo is what its script writes from its sources, byte for byte, and is a novel worth setting. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { DemoTruth } from '../../assets/demo/truth.ts';

const committed = resolve(import.meta.dirname, '../../assets/demo');
let written = '';
let truth: DemoTruth;

beforeAll(() => {
  written = mkdtempSync(join(tmpdir(), 'reglet-demo-'));
  execFileSync(process.execPath, [join(committed, 'write-manuscript.mjs'), written]);
  truth = JSON.parse(readFileSync(join(written, 'truth.json'), 'utf8')) as DemoTruth;
});

describe('the demo manuscript', () => {
  it.each(['manuscript.docx', 'truth.json'])('%s is the one that the script writes', (name) => {
    expect(readFileSync(join(written, name)).equals(readFileSync(join(committed, name)))).toBe(true);
  });

  it('shows what manuscripts hold', () => {
    const sum = (field: 'words' | 'sceneBreaks' | 'notes' | 'emphases' | 'images') =>
      truth.sections.reduce((total, section) => total + section[field], 0);
    expect(sum('words')).toBeGreaterThan(12_500);
    expect(sum('notes')).toBe(2);
    expect(sum('images')).toBe(1);
    expect(sum('sceneBreaks')).toBeGreaterThanOrEqual(12);
    const kinds = new Set(truth.sections.map((section) => section.kind));
    for (const kind of [
      'dedication',
      'epigraph',
      'prologue',
      'part',
      'chapter',
      'epilogue',
      'acknowledgments',
      'aboutAuthor',
    ]) {
      expect(kinds).toContain(kind);
    }
  });
});
