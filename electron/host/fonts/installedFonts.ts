/**
 * The fonts installed on this computer. In: folders; out: families with what each may be used for, and a face's bytes.
 * What was read of a file is kept between runs, until the file changes.
 */
import { createHash } from 'node:crypto';
import { open, readdir, stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import * as v from 'valibot';
import type { InstalledFamily } from '#host';
import { readFontTables, Subsetter } from '#type';
import { wasmBytes } from '../../services/bundled-files.ts';
import { JsonFile } from '../jsonFile.ts';
import { readWhole } from '../paths.ts';
import { faceBytes } from './extract.ts';
import { embeddingOf, isUsable, maySubset, permissionOf } from './permission.ts';
import { type FaceFacts, facesIn } from './sfnt.ts';

const EXTENSIONS: ReadonlySet<string> = new Set(['.ttf', '.otf', '.ttc', '.otc']);
/** Bounds on what is looked at: a fonts folder that leads into a whole disk ends somewhere. */
const DEEPEST = 8;
const MOST_FILES = 20_000;
const LARGEST_FONT = 128 * 2 ** 20;
/** Files that are looked at together. */
const AT_ONCE = 16;

const facts = v.object({
  index: v.number(),
  family: v.string(),
  weight: v.number(),
  italic: v.boolean(),
  fsType: v.number(),
  plain: v.boolean(),
  axes: v.nullable(v.record(v.string(), v.number())),
  character: v.nullable(v.number()),
  smallCapitals: v.boolean(),
  oldStyle: v.boolean(),
  licence: v.nullable(v.string()),
  licenceAddress: v.nullable(v.string()),
});
const seenFile = v.object({ path: v.string(), stamp: v.string(), faces: v.array(facts) });

/** A file as it was read last. */
type SeenFile = v.InferOutput<typeof seenFile>;

interface Face extends FaceFacts {
  readonly id: string;
  readonly path: string;
}

/** A face as layout loads it. */
export interface InstalledFace {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly bytes: Uint8Array;
  readonly installed: true;
}

export class InstalledFonts {
  private readonly file: JsonFile | null;
  private faces: readonly Face[] | null = null;
  private scanning: Promise<readonly Face[]> | null = null;
  private pinner: Subsetter | null = null;

  constructor(
    private readonly folders: readonly string[],
    /** Where is kept what was read; null to keep nothing. */
    appData: string | null,
    /** The module that cuts fonts; read when a variable font is asked for. */
    private readonly cutter: () => Uint8Array = () => wasmBytes('harfbuzz-subset.wasm'),
  ) {
    this.file = appData === null ? null : new JsonFile(appData, 'fonts.json');
  }

  /** All families, by name, as they are installed now. */
  async families(): Promise<readonly InstalledFamily[]> {
    return familiesOf(await this.scan());
  }

  /** The bytes of a face by its id, as a font file of its own; null for a face that there is not. */
  async bytes(id: string): Promise<Uint8Array | null> {
    const face = (this.faces ?? (await this.scan())).find((each) => each.id === id);
    return face ? this.bytesOf(face) : null;
  }

  /** The faces of a family that a book can be set in; none where it is not installed or may not be used. */
  async family(name: string): Promise<readonly InstalledFace[]> {
    const faces = (this.faces ?? (await this.scan())).filter((each) => each.family === name && isUsable(each));
    const loaded: InstalledFace[] = [];
    for (const face of distinct(faces)) {
      const bytes = await this.bytesOf(face);
      const { family, weight, italic } = face;
      if (bytes) loaded.push({ family, weight, italic, bytes, installed: true });
    }
    return loaded;
  }

  private async bytesOf({ path, index, axes }: Face): Promise<Uint8Array | null> {
    const read = await readWhole(path, LARGEST_FONT);
    const bytes = read.ok ? faceBytes(read.value, index) : null;
    // A file that no text can be set in is as good as none.
    if (!bytes || !readFontTables(bytes).ok) return null;
    if (!axes) return bytes;
    this.pinner ??= new Subsetter(this.cutter());
    try {
      return this.pinner.pin(bytes, axes);
    } catch (problem) {
      if (problem instanceof RangeError) return null;
      throw problem;
    }
  }

  private scan(): Promise<readonly Face[]> {
    this.scanning ??= this.scanned().finally(() => {
      this.scanning = null;
    });
    return this.scanning;
  }

  private async scanned(): Promise<readonly Face[]> {
    const known = await this.known();
    const paths = await fontFiles(this.folders);
    const seen: SeenFile[] = [];
    for (let at = 0; at < paths.length; at += AT_ONCE) {
      const some = await Promise.all(paths.slice(at, at + AT_ONCE).map((path) => look(path, known)));
      seen.push(...some.filter((each) => each !== null));
    }
    const changed = seen.length !== known.size || seen.some((each) => known.get(each.path) !== each);
    // Without a record the files are read again next time.
    if (changed) await this.file?.write(seen).catch(() => undefined);
    this.faces = seen.flatMap(({ path, faces }) => faces.map((face, at) => ({ ...face, path, id: idOf(path, at) })));
    return this.faces;
  }

  private async known(): Promise<ReadonlyMap<string, SeenFile>> {
    const json = await this.file?.read();
    const files = Array.isArray(json) ? json.filter((each) => v.is(seenFile, each)) : [];
    return new Map(files.map((each) => [each.path, each]));
  }
}

/** What the window calls a face: nothing in it says where the file lies. */
function idOf(path: string, place: number): string {
  return createHash('sha256').update(`${place}\0${path}`).digest('hex').slice(0, 32);
}

/** Font files below the folders, in the order of their paths. */
async function fontFiles(folders: readonly string[]): Promise<readonly string[]> {
  const found: string[] = [];
  const walk = async (folder: string, depth: number): Promise<void> => {
    if (depth > DEEPEST || found.length >= MOST_FILES) return;
    const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
    entries.sort((one, other) => (one.name < other.name ? -1 : 1));
    for (const entry of entries) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) await walk(path, depth + 1);
      else if (EXTENSIONS.has(extname(entry.name).toLowerCase()) && found.length < MOST_FILES) found.push(path);
    }
  };
  for (const folder of folders) await walk(folder, 0);
  return found;
}

/** What a file holds, from the record where the file is as it was; null where it can't be read. */
async function look(path: string, known: ReadonlyMap<string, SeenFile>): Promise<SeenFile | null> {
  const about = await stat(path).catch(() => null);
  if (!about?.isFile() || about.size > LARGEST_FONT) return null;
  const stamp = `${about.size} ${about.mtimeMs}`;
  const last = known.get(path);
  if (last?.stamp === stamp) return last;
  const file = await open(path).catch(() => null);
  if (!file) return null;
  try {
    return { path, stamp, faces: [...(await facesIn(file))] };
  } finally {
    await file.close();
  }
}

function familiesOf(faces: readonly Face[]): readonly InstalledFamily[] {
  const families = new Map<string, Face[]>();
  for (const face of distinct(faces)) families.set(face.family, [...(families.get(face.family) ?? []), face]);
  return [...families]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([family, all]) => ({
      family,
      faces: all.sort(inOrder).map(({ id, weight, italic, fsType }) => ({
        id,
        weight,
        italic,
        embedding: embeddingOf(fsType),
        maySubset: maySubset(fsType),
      })),
      permission: permissionOf(all),
      usable: all.some(isUsable),
      ...charactersOf(all.filter(isUsable)),
    }));
}

/** One face for each weight and slope: fonts are often installed twice. */
function distinct(faces: readonly Face[]): readonly Face[] {
  const keyOf = ({ family, weight, italic }: Face): string => `${weight} ${italic} ${family}`;
  const known = new Map<string, Face>();
  for (const face of faces) {
    const key = keyOf(face);
    const before = known.get(key);
    if (!before || (!isUsable(before) && isUsable(face))) known.set(key, face);
  }
  return [...known.values()];
}

/** What the faces that can be used have for a book, as far as it is to be known before one of them is loaded. */
function charactersOf(
  faces: readonly Face[],
): Pick<InstalledFamily, 'character' | 'lacks' | 'licence' | 'licenceAddress'> {
  const regular = [...faces].sort((one, other) => farFromText(one) - farFromText(other))[0];
  const lacks: InstalledFamily['lacks'][number][] = [];
  if (!faces.some(({ italic }) => italic)) lacks.push('italic');
  if (!faces.some(({ weight }) => weight >= BOLD)) lacks.push('bold');
  if (!regular?.smallCapitals) lacks.push('smallCapitals');
  if (!regular?.oldStyle) lacks.push('oldStyle');
  const { character = null, licence = null, licenceAddress = null } = regular ?? {};
  return { character, lacks, licence, licenceAddress };
}

const BOLD = 600;

/** The slope counts more than the weight. */
function farFromText({ weight, italic }: Face): number {
  return Math.abs(weight - 400) + (italic ? 10_000 : 0);
}

function inOrder(one: Face, other: Face): number {
  return one.weight - other.weight || Number(one.italic) - Number(other.italic);
}
