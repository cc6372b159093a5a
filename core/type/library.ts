/**
 * The fonts of a book, ready to work. In: font files and the bytes of the two HarfBuzz modules; out: families, faces and
 * the chain of fallback faces. After loading everything is synchronous.
 */
import type { FamilyFacts, FontFace, FontFamily, FontFile, FontLibrary, UnreadFontFile } from './face.ts';
import { type FaceParts, LoadedFace } from './loaded.ts';
import { Shaper } from './shaper.ts';
import type { ShapingAside } from './shapingAside.ts';
import { Subsetter } from './subsetter.ts';
import { readFontTables } from './tables.ts';

/** The bytes of harfbuzz.wasm and harfbuzz-subset.wasm. */
export interface FontModules {
  readonly shaper: Uint8Array;
  readonly subsetter: Uint8Array;
  /** A thread that shapes ahead, if there is one. */
  readonly aside?: ShapingAside | null;
}

const REGULAR = 400;
const BOLD = 700;

/**
 * Loads fonts. A file that is no usable font is a RangeError that names it, at once, or when an unread one is needed: check
 * files from outside with `checkFontFile` first.
 */
export async function loadFontLibrary(
  files: readonly (FontFile | UnreadFontFile)[],
  modules: FontModules,
): Promise<FontLibrary> {
  const shaper = await Shaper.start(modules.shaper);
  const subsetter = new Subsetter(modules.subsetter);
  const aside = modules.aside ?? null;
  return new LoadedLibrary(files, aside, (file) => loadFace(file, { shaper, subsetter, aside }));
}

type AnyFile = FontFile | UnreadFontFile;

class LoadedLibrary implements FontLibrary {
  readonly fallbacks: readonly FontFace[];
  private readonly files: ReadonlyMap<string, AnyFile>;
  private readonly faces = new Map<string, FontFace>();
  private readonly families = new Map<string, FontFamily>();

  constructor(
    files: readonly AnyFile[],
    private readonly aside: ShapingAside | null,
    private readonly load: (file: AnyFile) => FontFace,
  ) {
    this.files = new Map(files.map((file) => [faceId(file), file]));
    for (const file of files) if ('bytes' in file) this.face(faceId(file));
    this.fallbacks = files.filter((file) => file.fallback).map((file) => this.face(faceId(file)));
  }

  get shapesAside(): boolean {
    return this.aside?.works ?? false;
  }

  about(name: string): FamilyFacts | null {
    const files = this.filesOf(name);
    if (files.length === 0) return null;
    const { embedding, licence, licenceAddress } = this.family(name).regular;
    return { installed: files.some((file) => file.installed), embedding, licence, licenceAddress };
  }

  family(name: string): FontFamily {
    const known = this.families.get(name);
    if (known) return known;
    const files = this.filesOf(name);
    if (files.length === 0) throw new RangeError(`font family "${name}" was not loaded`);
    const cut = (weight: number, italic: boolean): FontFace => this.face(faceId(nearest(files, weight, italic)));
    const family: FontFamily = {
      name,
      regular: cut(REGULAR, false),
      italic: cut(REGULAR, true),
      bold: cut(BOLD, false),
      boldItalic: cut(BOLD, true),
    };
    this.families.set(name, family);
    return family;
  }

  face(id: string): FontFace {
    const known = this.faces.get(id);
    if (known) return known;
    const file = this.files.get(id);
    if (!file) throw new RangeError(`font face "${id}" was not loaded`);
    const face = this.load(file);
    this.faces.set(id, face);
    return face;
  }

  private filesOf(family: string): readonly AnyFile[] {
    return [...this.files.values()].filter((file) => file.family === family && !file.fallback);
  }
}

/** The file that comes closest: the slope counts more than the weight. */
function nearest(files: readonly AnyFile[], weight: number, italic: boolean): AnyFile {
  const cost = (file: AnyFile) => Math.abs(file.weight - weight) + (file.italic === italic ? 0 : 10_000);
  return files.reduce((best, file) => (cost(file) < cost(best) ? file : best));
}

function loadFace(file: AnyFile, tools: Pick<FaceParts, 'shaper' | 'subsetter' | 'aside'>): FontFace {
  const tables = readFontTables('bytes' in file ? file.bytes : file.read());
  if (!tables.ok) throw new RangeError(`${file.family} ${file.weight}: ${tables.problem}`);
  const { family, weight, italic } = file;
  return new LoadedFace({ id: faceId(file), family, weight, italic, tables: tables.value, ...tools });
}

/**
 * `EB Garamond`, 400, italic -> `eb-garamond-400-italic`. Letters beyond those of English stand by their numbers, and a font
 * of this computer never takes the id of one that travels with the program.
 */
export function faceId(file: Pick<FontFile, 'family' | 'weight' | 'italic' | 'installed'>): string {
  const slug = file.family
    .toLowerCase()
    .replace(/[^\p{ASCII}]/gu, (letter) => `-${letter.codePointAt(0)?.toString(16)}-`)
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  return `${file.installed ? 'own-' : ''}${slug}-${file.weight}${file.italic ? '-italic' : ''}`;
}
