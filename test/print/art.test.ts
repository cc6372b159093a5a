import fc from 'fast-check';
import { encode } from 'fast-png';
import { beforeAll, describe, expect, test } from 'vitest';
import type { PageItem } from '#page';
import { imageProblem, type PrintAsset } from '#print';
import type { FontLibrary } from '#type';
import { testLibrary } from '../type/fonts.ts';
import { jpeg } from './jpeg.ts';
import { page, picture, print, request } from './press.ts';

let library: FontLibrary;

beforeAll(async () => {
  library = await testLibrary();
});

/** Path data painted on a page of its own size. */
function paint(data: string): string[] {
  const box = { width: 40, height: 40 };
  const set = page(0, (to) => to.add({ kind: 'path', path: data, viewBox: box, x: 0, y: 0, ...box }), { size: box });
  return picture(print(request(library, [set])));
}

type Item = Exclude<PageItem, { readonly kind: 'glyphs' }>;

/** A page of 12 by 8 points with these items. */
function small(items: readonly Item[], asset?: PrintAsset) {
  const set = page(0, (to) => items.forEach((item) => void to.add(item)), { size: { width: 12, height: 8 } });
  return print(request(library, [set], { asset: () => asset }));
}

function image(asset: PrintAsset, box = { x: 2, y: 1, width: 8, height: 4 }) {
  return small([{ kind: 'image', asset: 'a1', alt: '', at: { block: 'b1', offset: 0 }, ...box }], asset);
}

describe('rules and outlines', () => {
  test('a rule stands where the page has it', () => {
    expect(
      picture(
        small([
          { kind: 'rule', x: 2, y: 1, width: 5, height: 2 },
          { kind: 'rule', x: 3, y: 5, width: 8, height: 1, grey: 0.5 },
        ]),
      ),
    ).toEqual([
      '............',
      '..#####.....',
      '..#####.....',
      '............',
      '............',
      '...++++++++.',
      '............',
      '............',
    ]);
  });

  test('an outline is scaled to its box, y down', () => {
    // A triangle with its right angle at the top left, in a box of its own units.
    const path = {
      kind: 'path',
      path: 'M0 0H10V2L0 2z',
      viewBox: { width: 10, height: 4 },
      x: 1,
      y: 2,
      width: 10,
      height: 4,
    } as const;
    expect(picture(small([path]))).toEqual([
      '............',
      '............',
      '.##########.',
      '.##########.',
      '............',
      '............',
      '............',
      '............',
    ]);
  });

  test('all commands, absolute and relative, paint the same', () => {
    const pairs = [
      ['M5 5L35 5 35 35 5 35Z', 'm5,5l30 0 0,30-30 0z'],
      ['M5 20C5 5 35 5 35 20S35 35 20 35Z', 'm5 20c0-15 30-15 30 0s0 15-15 15z'],
      ['M5 20Q20 0 35 20T35 38L5 38Z', 'm5 20q15-20 30 0t0 18l-30 0z'],
      ['M20 5A15 15 0 1 1 19.9 5Z', 'm20 5a15 15 0 11-.1 0z'],
    ] as const;
    for (const [absolute, relative] of pairs) {
      const painted = paint(absolute);
      expect(painted.join('')).toMatch(/#{5}/);
      expect(paint(relative)).toEqual(painted);
    }
  });

  test('a circle of arcs covers what a circle covers', () => {
    fc.assert(
      fc.property(fc.integer({ min: 4, max: 18 }), (radius) => {
        const data = `M${20 - radius} 20a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0z`;
        const inked = paint(data).join('').replaceAll('.', '').length;
        // Pixels along the edge are inked whole or not at all: an error of the order of the circumference.
        expect(Math.abs(inked - Math.PI * radius ** 2)).toBeLessThan(2 * Math.PI * radius);
      }),
      { numRuns: 6 },
    );
  });

  test('path data that is none is a mistake of the caller', () => {
    for (const bad of ['10 10', 'M10', 'M0 0L1']) {
      const path = {
        kind: 'path',
        path: bad,
        viewBox: { width: 1, height: 1 },
        x: 0,
        y: 0,
        width: 1,
        height: 1,
      } as const;
      expect(() => small([path])).toThrow(RangeError);
    }
  });
});

describe('PNG pictures', () => {
  const png = (data: number[] | Uint16Array, channels: number, depth: 8 | 16 = 8): PrintAsset => ({
    mediaType: 'image/png',
    bytes: encode({
      width: 2,
      height: 2,
      channels,
      depth,
      data: depth === 16 ? Uint16Array.from(data) : Uint8Array.from(data),
    }),
  });
  const painted = [
    '............',
    '..####......',
    '..####......',
    '......####..',
    '......####..',
    '............',
    '............',
    '............',
  ];
  const listing = (asset: PrintAsset) =>
    image(asset).run('pdfimages', '-list', 'FILE').split('\n')[2]!.trim().split(/ +/).slice(2, 9);

  test.each([
    ['grey', png([0, 255, 255, 0], 1), ['image', '2', '2', 'gray', '1', '1', 'image']],
    ['grey of 16 bits', png([0, 65535, 65535, 0], 1, 16), ['image', '2', '2', 'gray', '1', '1', 'image']],
    [
      'grey in colour',
      png([0, 0, 0, 255, 255, 255, 255, 255, 255, 0, 0, 0], 3),
      ['image', '2', '2', 'gray', '1', '1', 'image'],
    ],
    ['grey with alpha', png([0, 255, 9, 0, 9, 0, 0, 255], 2), ['image', '2', '2', 'gray', '1', '1', 'image']],
    [
      'colour with alpha',
      png([0, 0, 0, 255, 9, 9, 9, 0, 200, 0, 0, 0, 0, 0, 0, 255], 4),
      ['image', '2', '2', 'gray', '1', '1', 'image'],
    ],
    ['halftone', png([3, 255, 254, 0], 1), ['image', '2', '2', 'gray', '1', '8', 'image']],
  ])('%s', (_, asset, listed) => {
    expect(listing(asset)).toEqual(listed);
    expect(picture(image(asset))).toEqual(painted);
  });

  test('a picture may be cut off', () => {
    const clip = { x: 2, y: 1, width: 4, height: 3 };
    const box = { x: 2, y: 1, width: 8, height: 4 };
    const item = { kind: 'image', asset: 'a1', alt: '', at: { block: 'b1', offset: 0 }, ...box, clip } as const;
    expect(picture(small([item], png([0, 255, 255, 0], 1)))).toEqual([
      ...painted.slice(0, 3),
      ...Array.from({ length: 5 }, () => '............'),
    ]);
  });

  test('real colour stays colour', () => {
    expect(listing(png([200, 0, 0, 255, 255, 255, 255, 255, 255, 0, 0, 0], 3))).toEqual([
      'image',
      '2',
      '2',
      'rgb',
      '3',
      '8',
      'image',
    ]);
  });

  test('palettes of few bits', () => {
    expect(listing({ mediaType: 'image/png', bytes: palettePng() })).toEqual([
      'image',
      '2',
      '2',
      'gray',
      '1',
      '1',
      'image',
    ]);
    expect(picture(image({ mediaType: 'image/png', bytes: palettePng() }))).toEqual(painted);
  });

  test('a picture used twice is written once', () => {
    const asset = png([0, 255, 255, 0], 1);
    const item = {
      kind: 'image',
      asset: 'a1',
      alt: '',
      at: { block: 'b1', offset: 0 },
      y: 0,
      width: 4,
      height: 4,
    } as const;
    const made = small(
      [
        { ...item, x: 0 },
        { ...item, x: 6 },
      ],
      asset,
    );
    expect(made.run('mutool', 'show', 'FILE', 'grep').match(/\/Subtype\/Image/g)).toHaveLength(1);
  });
});

describe('JPEG pictures', () => {
  const listing = (bytes: Uint8Array) =>
    image({ mediaType: 'image/jpeg', bytes })
      .run('pdfimages', '-list', 'FILE')
      .split('\n')[2]!
      .trim()
      .split(/ +/)
      .slice(2, 9);

  test.each([
    ['grey', 1, false, 'gray'],
    ['colour', 3, false, 'rgb'],
    ['CMYK', 4, false, 'cmyk'],
    ['CMYK the other way round', 4, true, 'cmyk'],
  ] as const)('%s is carried as it is', (_, components, adobe, space) => {
    const bytes = jpeg(components, adobe);
    expect(listing(bytes)).toEqual(['image', '8', '8', space, String(components), '8', 'jpeg']);
    expect(Buffer.from(image({ mediaType: 'image/jpeg', bytes }).bytes).includes(Buffer.from(bytes))).toBe(true);
  });

  test('a middle grey comes out as one', () => {
    expect(picture(image({ mediaType: 'image/jpeg', bytes: jpeg(1, false) }))[2]).toBe('..++++++++..');
  });
});

describe('pictures that cannot be printed', () => {
  test('are named, and left out', () => {
    const bad: readonly PrintAsset[] = [
      { mediaType: 'image/svg+xml', bytes: new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>') },
      {
        mediaType: 'image/png',
        bytes: encode({ width: 2, height: 2, channels: 1, data: new Uint8Array(4) }).slice(0, 40),
      },
      { mediaType: 'image/jpeg', bytes: Uint8Array.of(0xff, 0xd8, 0xff, 0xe0) },
    ];
    for (const asset of bad) {
      expect(imageProblem(asset)).toMatch(/\.$/);
      expect(image(asset).run('pdfimages', '-list', 'FILE').trim().split('\n')).toHaveLength(2);
    }
    expect(imageProblem({ mediaType: 'image/jpeg', bytes: jpeg(1, false) })).toBeNull();
  });
});

/** Two by two pixels of a palette of black and white, one bit each, written by hand. */
function palettePng(): Uint8Array {
  return Uint8Array.from(Buffer.from(PALETTE_PNG, 'base64'));
}
const PALETTE_PNG =
  'iVBORw0KGgoAAAANSUhEUgAAAAIAAAACAQMAAABIeJ9nAAAABlBMVEX///8AAABVwtN+AAAADElEQVR4nGNoYHAAAAHEAMGYZjUWAAAAAElFTkSuQmCC';
