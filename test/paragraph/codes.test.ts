/**
 * Codes that both sides of a kernel know: what is a flag here is the same flag there. The compiler of neither sees the
 * other's, and a bit that differs may show in nothing but a line now and then.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const CONSTANT = /^(?:export )?const (\w+)(?:: \w+)? = (-?[\dxa-fA-F_.]+(?:e\d+)?);/gm;

/** The constants of a file that are plain numbers. */
function constantsOf(path: string): ReadonlyMap<string, number> {
  const source = readFileSync(fileURLToPath(new URL(`../../core/${path}`, import.meta.url)), 'utf8');
  return new Map([...source.matchAll(CONSTANT)].map(([, name, value]) => [name!, Number(value!.replace(/_/g, ''))]));
}

describe('codes of the kernels', () => {
  test.each([
    ['paragraph/text/traits.ts', 'paragraph/kernel/assembly/traits.ts', 8],
    ['paragraph/text/cutKinds.ts', 'paragraph/kernel/assembly/cutKinds.ts', 7],
    ['paragraph/text/copy.ts', 'paragraph/kernel/assembly/reader.ts', 10],
    ['paragraph/breaker/places.ts', 'paragraph/kernel/assembly/lists.ts', 6],
    ['paragraph/breaker/search.ts', 'paragraph/kernel/assembly/keptLists.ts', 1],
    ['makeup/fill/search.ts', 'makeup/kernel/assembly/rows.ts', 3],
  ])('of %s are those of %s', (here, there, least) => {
    const [ours, theirs] = [constantsOf(here), constantsOf(there)];
    const both = [...ours.keys()].filter((name) => theirs.has(name));
    expect(both.length).toBeGreaterThanOrEqual(least);
    for (const name of both) expect(`${name} ${ours.get(name)}`).toBe(`${name} ${theirs.get(name)}`);
  });
});
