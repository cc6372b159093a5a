/**
 * The fonts of a book, ready to work. In: font files and the bytes of the two HarfBuzz modules; out: families, faces and
 * the chain of fallback faces. After loading everything is synchronous.
 */
import type { FontFace, FontFamily, FontFile, FontLibrary } from './face.ts';
import { LoadedFace } from './loaded.ts';
import { Shaper } from './shaper.ts';
import { Subsetter } from './subsetter.ts';
import { readFontTables } from './tables.ts';

/** The bytes of harfbuzz.wasm and harfbuzz-subset.wasm. */
export interface FontModules {
  readonly shaper: Uint8Array;
  readonly subsetter: Uint8Array;
}

const REGULAR = 400;
const BOLD = 700;

/**
 * Loads fonts. A file that is no usable font is a RangeError that names it: check files from outside with
 * `checkFontFile` first.
 */
export async function loadFontLibrary(files: readonly FontFile[], modules: FontModules): Promise<FontLibrary> {
  const shaper = await Shaper.start(modules.shaper);
  const subsetter = new Subsetter(modules.subsetter);
  const faces = new Map<string, FontFace>();
  const texts = new Map<string, FontFace[]>();
  const fallbacks: FontFace[] = [];
  for (const file of files) {
    const face = loadFace(file, shaper, subsetter);
    faces.set(face.id, face);
    if (file.fallback) fallbacks.push(face);
    else texts.set(file.family, [...(texts.get(file.family) ?? []), face]);
  }
  return new LoadedLibrary(faces, familiesOf(texts), fallbacks);
}

class LoadedLibrary implements FontLibrary {
  constructor(
    private readonly faces: ReadonlyMap<string, FontFace>,
    private readonly families: ReadonlyMap<string, FontFamily>,
    readonly fallbacks: readonly FontFace[],
  ) {}

  family(name: string): FontFamily {
    const family = this.families.get(name);
    if (!family) throw new RangeError(`font family "${name}" was not loaded`);
    return family;
  }

  face(id: string): FontFace {
    const face = this.faces.get(id);
    if (!face) throw new RangeError(`font face "${id}" was not loaded`);
    return face;
  }
}

function loadFace(file: FontFile, shaper: Shaper, subsetter: Subsetter): FontFace {
  const tables = readFontTables(file.bytes);
  if (!tables.ok) throw new RangeError(`${file.family} ${file.weight}: ${tables.problem}`);
  const { family, weight, italic } = file;
  return new LoadedFace({ id: faceId(file), family, weight, italic, tables: tables.value, shaper, subsetter });
}

/** `EB Garamond`, 400, italic -> `eb-garamond-400-italic`. */
export function faceId(file: Pick<FontFile, 'family' | 'weight' | 'italic'>): string {
  const slug = file.family
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  return `${slug}-${file.weight}${file.italic ? '-italic' : ''}`;
}

function familiesOf(texts: ReadonlyMap<string, readonly FontFace[]>): ReadonlyMap<string, FontFamily> {
  const families = new Map<string, FontFamily>();
  for (const [name, faces] of texts) {
    const regular = nearest(faces, REGULAR, false);
    families.set(name, {
      name,
      regular,
      italic: nearest(faces, REGULAR, true),
      bold: nearest(faces, BOLD, false),
      boldItalic: nearest(faces, BOLD, true),
    });
  }
  return families;
}

/** The face that comes closest: the slope counts more than the weight. */
function nearest(faces: readonly FontFace[], weight: number, italic: boolean): FontFace {
  const cost = (face: FontFace) => Math.abs(face.weight - weight) + (face.italic === italic ? 0 : 10_000);
  return faces.reduce((best, face) => (cost(face) < cost(best) ? face : best));
}
