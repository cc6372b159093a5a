/** Papers: spines as printers' own worked examples have them. */
import { expect, test } from 'vitest';
import { POINTS_PER_INCH } from '#base';
import { readEdition } from '#book';
import { paperOf, papers, spineThickness } from '#design';

function spine(paper: string, pages: number): number {
  return spineThickness(pages, paperOf({ paper })) / POINTS_PER_INCH;
}

test('spines are as thick as published examples say', () => {
  // FACTS 4.4, worked examples: published figures use 0.002252 in a page for white.
  expect(spine('white', 130)).toBeCloseTo(0.29276, 3);
  expect(spine('white', 170)).toBeCloseTo(0.38284, 3);
  expect(spine('cream', 120)).toBeCloseTo(0.3, 6);
  expect(spine('cream', 158)).toBeCloseTo(0.395, 6);
  expect(spine('colour', 300)).toBeCloseTo(0.7041, 3);
  // That table rounds the caliper of a sheet, 0.0039 in.
  expect(spine('offset-50', 128)).toBeCloseTo(0.2496, 2);
});

test('an edition of no or of an unknown paper is on cream', () => {
  expect(paperOf({}).id).toBe('cream');
  expect(paperOf({ paper: 'vellum' }).id).toBe('cream');
  expect(new Set(papers.map((each) => each.id)).size).toBe(papers.length);
});

test('an edition keeps its paper through JSON, and is refused with one that is no name', () => {
  const edition = { id: 'p', kind: 'print', name: 'P', design: 'quoin', isbn: null, notes: 'foot' };
  const trim = { width: 396, height: 612 };
  const read = readEdition(JSON.parse(JSON.stringify({ ...edition, trim, paper: 'white' })));
  expect(read).toMatchObject({ ok: true, value: { paper: 'white' } });
  expect(readEdition({ ...edition, trim, paper: 7 }).ok).toBe(false);
});
