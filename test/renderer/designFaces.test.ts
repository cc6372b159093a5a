/** The choice of fonts, and the author's own mark between scenes: rows, widths, files, what counts as changed. */
import { describe, expect, it } from 'vitest';
import { assetIdOf } from '#base';
import type { Json } from '#book';
import { builtInDesigns, type DesignSettings, type OwnMark, readSettings } from '#design';
import type { BundledFace, InstalledFamily } from '#host';
import { designText, readDesignFile } from '../../renderer/design/designFile.ts';
import { pictureIn, withPicture } from '../../renderer/design/designPicture.ts';
import { familyGroups, inFamily } from '../../renderer/design/familyList.ts';
import { isColoured } from '../../renderer/design/ownPicture.ts';
import { differences } from '../../renderer/design/settings/compare.ts';
import { withSetting } from '../../renderer/design/settings/paths.ts';
import { saySetting } from '../../renderer/design/settings/say.ts';
import { FontStore } from '../../renderer/state/index.ts';

const [quoin] = builtInDesigns;

const BUNDLED: readonly BundledFace[] = [
  { family: 'EB Garamond', weight: 400, italic: false, fallback: false, file: 'a.ttf' },
  { family: 'Noto Sans Symbols 2', weight: 400, italic: false, fallback: true, file: 'b.ttf' },
];

type Embedding = InstalledFamily['faces'][number]['embedding'];

function family(
  name: string,
  more: Partial<InstalledFamily> = {},
  embedding: Embedding = 'installable',
): InstalledFamily {
  return {
    family: name,
    faces: [{ id: `face-${name}`, weight: 400, italic: false, embedding, maySubset: true }],
    permission: 'The font says something.',
    usable: embedding !== 'restricted',
    character: 0.42,
    lacks: [],
    licence: null,
    licenceAddress: null,
    ...more,
  };
}

const withMark = (own: OwnMark | null): DesignSettings => ({ ...quoin, sceneBreak: { ...quoin.sceneBreak, own } });

describe('the families to choose from', () => {
  const installed = [
    family('Harbour', { lacks: ['italic', 'oldStyle'] }),
    family('Quay', {}, 'restricted'),
    family('Reading', {}, 'preview'),
    family('Signs', { character: null }),
  ];

  it('are those of the program, then those of the computer with what is to be known of them', () => {
    const groups = familyGroups(BUNDLED, installed, 'EB Garamond');
    expect(
      groups.map(({ name, rows }) => [name, rows.map((row) => `${row.family}: ${row.usable} ${row.says}`)]),
    ).toEqual([
      ['With the program', ['EB Garamond: true ']],
      [
        'On this computer',
        [
          'Harbour: true Lacks italic and old-style figures',
          'Quay: false May not be embedded',
          'Reading: true Reading and printing only',
          'Signs: false Has no letters of English',
        ],
      ],
    ]);
  });

  it('have the one that the design names among them even where it is not there', () => {
    const [first] = familyGroups(BUNDLED, installed, 'Elsewhere');
    expect(first).toEqual({
      name: 'Not on this computer',
      rows: [{ family: 'Elsewhere', says: 'Not on this computer', usable: false, about: null }],
    });
    expect(familyGroups(BUNDLED, null, 'EB Garamond')).toHaveLength(1);
  });

  it('bring the width of their letters with them, which sizes on other trims are reckoned by', () => {
    const [, tympan] = builtInDesigns;
    if (!tympan) throw new RangeError('no second design');
    const { character, wordSpace } = quoin.text;
    expect(inFamily(tympan, quoin.text.family, null).text).toMatchObject({ character, wordSpace });
    expect(inFamily(quoin, 'Harbour', family('Harbour')).text).toMatchObject({ character: 0.42, wordSpace: 0.29 });
    expect(inFamily(quoin, 'Elsewhere', null).text).toEqual({ ...quoin.text, family: 'Elsewhere' });
  });
});

describe('the fonts that the layout is sent', () => {
  it('are those that a design asks for and the program does not bring', async () => {
    let asked = 0;
    const host = {
      installedFonts: async () => {
        asked++;
        return [family('Harbour'), family('EB Garamond'), family('Quay', {}, 'restricted')];
      },
    };
    const fonts = new FontStore(host, BUNDLED);
    await Promise.all([fonts.load(), fonts.load()]);
    expect(asked).toBe(1);
    // A font of the same name as one of the program's is not looked at.
    expect(fonts.get()?.map((each) => each.family)).toEqual(['Harbour', 'Quay']);
    const designs = ['Harbour', 'Quay', 'EB Garamond'].map((name) => ({
      id: name,
      settings: { text: { family: name } },
    }));
    expect(fonts.wanted(designs)).toEqual(['Harbour', 'Quay']);
    expect(fonts.faces(fonts.wanted(designs))).toEqual([
      { family: 'Harbour', weight: 400, italic: false, address: 'installed/face-Harbour' },
    ]);
    const marked = { ...quoin, sceneBreak: { ...quoin.sceneBreak, own: glyph('Noto Sans Symbols 2') } };
    expect(fonts.wantedBy(marked)).toEqual([]);
    expect(fonts.wantedBy({ ...marked, sceneBreak: { ...quoin.sceneBreak, own: glyph('Harbour') } })).toEqual([
      'Harbour',
    ]);
  });

  it('are asked for again where the host did not answer', async () => {
    let times = 0;
    const host = {
      installedFonts: async () => {
        times++;
        if (times === 1) throw new Error('The program does not answer.');
        return [family('Harbour')];
      },
    };
    const fonts = new FontStore(host, BUNDLED);
    await expect(fonts.load()).rejects.toThrow('does not answer');
    await fonts.load();
    expect(fonts.about('Harbour')?.character).toBe(0.42);
  });
});

const glyph = (name: string): OwnMark => ({ kind: 'glyph', family: name, character: '❦', size: 1.25 });
const picture: OwnMark = { kind: 'picture', asset: 'a'.repeat(64), height: 2, colour: true };

describe('a mark of the author’s own', () => {
  it.each([glyph('Harbour'), picture, null])('is kept with a design (%j)', (own) => {
    const settings = withMark(own);
    expect(readSettings(quoin.id, JSON.parse(JSON.stringify(settings)))).toEqual({ ok: true, value: settings });
  });

  it.each([
    { ...picture, height: 0 },
    { ...picture, height: 9 },
    { ...picture, colour: 'red' },
    { ...glyph('Harbour'), character: '' },
    { ...glyph('Harbour'), character: '**' },
    { ...glyph('Harbour'), size: 40 },
    { kind: 'drawing' },
    'leaf',
    ['leaf'],
  ])('that is none is refused (%j)', (own) => {
    const read = readSettings('x', { sceneBreak: { own: own as Json } });
    expect(read).toEqual({ ok: false, problem: expect.stringMatching(/^sceneBreak\.own can't be /) });
  });

  it('counts as a change, and gives way to a drawn ornament', () => {
    expect(differences(withMark(null))).toEqual([]);
    expect(differences(withMark(picture))).toEqual(['sceneBreak.ornament']);
    expect(saySetting(withMark(picture), 'sceneBreak.ornament')).toBe('a picture of your own');
    expect(saySetting(withMark(glyph('Harbour')), 'sceneBreak.ornament')).toBe('the character ❦');
    expect(saySetting(quoin, 'sceneBreak.ornament')).toBe('Three lozenges');
    expect(withSetting(withMark(picture), 'sceneBreak.ornament', 'lozenges')).toEqual(quoin);
  });

  it('goes into a design file with its picture, and comes back', () => {
    const bytes = Uint8Array.from({ length: 300 }, (_, at) => at % 251);
    const asset = { id: assetIdOf(bytes), bytes, mediaType: 'image/png', name: 'anchor.png', pixels: null };
    const file = new TextEncoder().encode(withPicture(designText(withMark(picture)), asset));
    expect(pictureIn(file)).toEqual({ name: 'anchor.png', bytes });
    const read = readDesignFile({ name: 'a.json', bytes: file }, quoin.id, new Set(['EB Garamond']));
    expect(read).toEqual({ ok: true, value: withMark(picture) });
  });

  it.each(['{', '{}', '[]', 'null', '{"picture":{"name":"a"}}', '{"picture":{"name":"a","base64":"%"}}'])(
    'has no picture in a file that carries none (%s)',
    (text) => {
      expect(pictureIn(new TextEncoder().encode(text))).toBeNull();
    },
  );

  it('has colour only where a reader would see it', () => {
    const pixels = (...all: readonly (readonly [number, number, number, number])[]) =>
      Uint8ClampedArray.from(all.flat());
    expect(isColoured(pixels([0, 0, 0, 255], [128, 130, 126, 255], [255, 255, 255, 255]))).toBe(false);
    expect(isColoured(pixels([255, 0, 0, 0]))).toBe(false);
    expect(isColoured(pixels([0, 0, 0, 255], [180, 20, 20, 255]))).toBe(true);
  });
});
