/** The lines of the printed book, read back from its PDF: what a compositor would be asked for, in every design on a small page. */
import { describe, expect, it } from 'vitest';
import { qualityOf } from '../bench/quality.mjs';
import { demo, freshFolder, reglet } from './command.ts';

interface Made {
  readonly editions: readonly { readonly files: readonly { readonly path: string }[] }[];
}

describe('the demo novel at 5 by 8 inches', () => {
  // The bounds are those of the project's own goals (test/bench/README.md tells how far they hold).
  it.each(['quoin', 'tympan', 'frisket'])('in %s divides few words and leaves no line gaping', (design) => {
    const options = ['--edition', 'print', '--design', design, '--trim', '5x8in', '--out', freshFolder(), '--json'];
    const { editions } = JSON.parse(reglet(['make', demo, ...options]).out) as Made;
    const lines = qualityOf(editions[0]!.files[0]!.path);
    expect(lines.lines).toBeGreaterThan(500);
    expect(lines.hyphenShare).toBeLessThan(0.08);
    expect(lines.hyphenRuns).toBe(0);
    expect(lines.spaceMean).toBeLessThan(1.1);
    expect(lines.looseShare).toBeLessThan(0.02);
    expect(lines.offGrid).toBe(0);
  });
});
