/** Designs and large print on the built command: the faces that the files carry, and the sizes of the pages. */
import { describe, expect, it } from 'vitest';
import { demo, freshFolder, outside, reglet } from './command.ts';

interface Made {
  readonly editions: readonly { readonly kind: string; readonly files: readonly { readonly path: string }[] }[];
}

function make(...words: readonly string[]): Made {
  const ran = reglet(['make', demo, '--out', freshFolder(), '--json', ...words]);
  expect(ran.err).toBe('');
  expect(ran.status).toBe(0);
  return JSON.parse(ran.out) as Made;
}

function fileOf(made: Made, kind: string): string {
  return made.editions.find((edition) => edition.kind === kind)?.files[0]?.path ?? '';
}

describe('a design', () => {
  it.each([
    ['tympan', 'Literata'],
    ['frisket', 'Alegreya'],
  ])('%s sets both books in its own face and brings the licence along', (design, face) => {
    const made = make('--design', design);
    const fonts = outside('pdffonts', [fileOf(made, 'print')])
      .trim()
      .split('\n')
      .slice(2);
    const text = fonts.filter((row) => !/Noto/.test(row));
    expect(text.length).toBeGreaterThan(1);
    for (const row of text) expect(row).toContain(face);
    expect(outside('unzip', ['-l', fileOf(made, 'ebook')])).toContain(`${face}-OFL.txt`);
  });
});

describe('large print', () => {
  it('takes a page that has room for its lines, unless another is asked for', () => {
    const pageOf = (...words: readonly string[]) =>
      /Page size: +(\S+) x (\S+) pts/.exec(
        outside('pdfinfo', [fileOf(make('--edition', 'print', ...words), 'print')]),
      )!;
    expect(pageOf('--large-print', '18').slice(1)).toEqual(['504', '720']);
    expect(pageOf('--large-print', '16', '--trim', '5.5x8.5in').slice(1)).toEqual(['396', '612']);
  });

  it('is refused in a size that is not large', () => {
    const ran = reglet(['make', demo, '--large-print', '12']);
    expect(ran.status).toBe(2);
    expect(ran.err).toMatch(/16 to 24 points/);
  });
});
