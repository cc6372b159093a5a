/** The fore-edge as figures: bands as thick as sections, and the place of the cursor among them. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Band, bandAt, bandsOf, shareInSection } from '../../renderer/frame/foreEdge/bands.ts';
import { book, chapter, p } from '../builders/book.ts';

type Row = Parameters<typeof bandsOf>[0][number];

function row(id: string, pages: number | null, some: Partial<Row> = {}): Row {
  const usual = { kind: 'chapter', matter: 'body', words: 0, errors: 0, warnings: 0, changed: false } as const;
  return { ...usual, id, pages, ...some };
}

/** Bands as letters: tone and thickness in hundredths. */
function picture(bands: readonly Band[]): string {
  return bands.map((band) => `${band.tone} ${Math.round((band.to - band.from) * 100)}`).join(', ');
}

test('bands are as thick as their pages; chapters alternate, matter and parts are apart', () => {
  const rows = [
    row('t', 2, { kind: 'titlePage', matter: 'front' }),
    row('p', 1, { kind: 'part' }),
    row('a', 10),
    row('b', 5),
    row('n', 2, { kind: 'aboutAuthor', matter: 'back' }),
  ];
  expect(picture(bandsOf(rows))).toBe('matter 10, part 5, one 50, two 25, matter 10');
});

test('until pages are known, words tell the thickness', () => {
  expect(picture(bandsOf([row('a', null, { words: 2800 }), row('b', null, { words: 8400 })]))).toBe('one 25, two 75');
});

test('bands lie edge to edge from 0 to 1, and every height falls on the right one', () => {
  const pages = fc.array(fc.option(fc.nat(400)), { minLength: 1, maxLength: 80 });
  fc.assert(
    fc.property(pages, fc.double({ min: 0, max: 1, noNaN: true }), (counts, share) => {
      const bands = bandsOf(counts.map((count, at) => row(String(at), count)));
      expect(bands[0]?.from).toBe(0);
      expect(bands.at(-1)?.to).toBeCloseTo(1, 9);
      for (const [at, band] of bands.entries()) {
        expect(band.to).toBeGreaterThan(band.from);
        if (at > 0) expect(band.from).toBe(bands[at - 1]?.to);
      }
      const hit = bandAt(bands, share);
      expect(hit !== null && (hit.from <= share || hit === bands[0])).toBe(true);
    }),
  );
  expect(bandAt([], 0.5)).toBe(null);
});

test('the cursor stands as far into a section as its characters say', () => {
  const section = book(chapter('1234', p('123456'), p('1234567890'))).child(0);
  const [title, first, second] = section.children.map((each) => String(each.attrs['id']));
  expect(shareInSection(section, { block: title!, offset: 0 })).toBe(0);
  expect(shareInSection(section, { block: first!, offset: 6 })).toBe(0.5);
  expect(shareInSection(section, { block: second!, offset: 99 })).toBe(1);
  expect(shareInSection(section, { block: 'none', offset: 3 })).toBe(0);
});
