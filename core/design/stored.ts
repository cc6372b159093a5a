/**
 * Finds an edition's design and reads stored settings. A stored design is laid over a built-in one, field by field, so
 * that a book from an older version, or one that changes a single value, still has a whole design.
 */
import { failure, type Outcome, success } from '#base';
import type { Book, Edition, Json, StoredDesign } from '#book';
import { readOwnMark } from './breakMark.ts';
import { builtInDesigns } from './builtIn.ts';
import { largePrintOf } from './largePrint.ts';
import { ORNAMENT_IDS } from './ornaments.ts';
import type { DesignSettings, DressedSettings } from './settings.ts';

/** Values that fields of these names may take. */
const CHOICES: Readonly<Record<string, readonly unknown[]>> = {
  letters: ['asTyped', 'capitals', 'smallCapitals', 'allSmall'],
  align: ['start', 'center', 'end'],
  number: ['words', 'figures', 'roman', 'none'],
  ornamentPlace: ['aboveTitle', 'belowTitle'],
  ornament: [null, ...ORNAMENT_IDS],
  kind: ['smallCapitals', 'firstLine', 'dropCap', 'none'],
  mark: ['ornament', 'space'],
  verso: ['author', 'title', 'part', 'chapter', 'none'],
  recto: ['author', 'title', 'part', 'chapter', 'none'],
  place: ['headOuter', 'footCentre', 'footOuter', 'none'],
  paragraphs: ['indented', 'spaced'],
  rules: ['ends', 'rows', 'none'],
  side: ['centre', 'inner', 'outer'],
  subheadAlign: ['start', 'center', 'end'],
};

/**
 * The design that an edition asks for: the book's own of that id, else the built-in one; RangeError for neither. An edition
 * in large print has its design drawn for that, after `dressed` had a look at it.
 */
export function designOf(book: Book, edition: Edition, dressed: Dressing = asItIs): DressedSettings {
  const settings = dressed(plainDesignOf(book, edition));
  return edition.kind === 'print' ? largePrintOf(settings, edition) : settings;
}

/** Settings with what can't be had replaced; the same object for the same one. */
export type Dressing = (settings: DesignSettings) => DressedSettings;

const asItIs: Dressing = (settings) => settings;

function plainDesignOf(book: Book, edition: Edition): DesignSettings {
  const stored = book.designs.find((each) => each.id === edition.design);
  if (stored) return read.get(stored) ?? readStored(stored);
  const builtIn = builtInDesigns.find((each) => each.id === edition.design);
  if (!builtIn) throw new RangeError(`unknown design ${JSON.stringify(edition.design)}`);
  return builtIn;
}

/** Stored designs that were read: the same settings each time, since caches know them by identity. */
const read = new WeakMap<StoredDesign, DesignSettings>();

function readStored(stored: StoredDesign): DesignSettings {
  const settings = readSettings(stored.id, stored.settings);
  if (!settings.ok) throw new RangeError(`design ${JSON.stringify(stored.id)}: ${settings.problem}`);
  read.set(stored, settings.value);
  return settings.value;
}

/** Settings from JSON. `base` names the built-in design that the rest is taken from (the default one where absent). */
export function readSettings(id: string, json: Json): Outcome<DesignSettings> {
  if (!isRecord(json)) return failure('a design must be an object of settings');
  const { base, ...own } = json;
  const ground = base === undefined ? builtInDesigns[0] : builtInDesigns.find((each) => each.id === base);
  if (!ground) return failure(`there is no design ${JSON.stringify(base)} to start from`);
  const problems: string[] = [];
  const settings = lay(ground as unknown as Json, own, '', problems) as unknown as DesignSettings;
  return problems[0] === undefined ? success({ ...settings, id }) : failure(problems[0]);
}

/** `own` over `ground`; unknown fields are dropped, misfitting ones reported. */
function lay(ground: Json, own: Json, path: string, problems: string[]): Json {
  if (Array.isArray(ground)) return layList(ground, own, path, problems);
  if (path === 'sceneBreak.own') return layMark(ground, own, path, problems);
  if (isRecord(ground)) {
    if (!isRecord(own)) return misfit(ground, own, path, problems);
    return Object.fromEntries(
      Object.entries(ground).map(([name, value]) => {
        const given = own[name];
        return [name, given === undefined ? value : lay(value, given, path ? `${path}.${name}` : name, problems)];
      }),
    );
  }
  return fits(ground, own, path) ? own : misfit(ground, own, path, problems);
}

/** A mark of one's own is whole or none: its fields hang on its kind. */
function layMark(ground: Json, own: Json, path: string, problems: string[]): Json {
  const mark = readOwnMark(own);
  return mark.ok ? (mark.value as unknown as Json) : misfit(ground, own, path, problems);
}

function layList(ground: readonly Json[], own: Json, path: string, problems: string[]): Json {
  if (!Array.isArray(own)) return misfit(ground, own, path, problems);
  if (ground.every((each) => typeof each === 'string')) {
    return own.every((each) => typeof each === 'string') ? own : misfit(ground, own, path, problems);
  }
  if (own.length !== ground.length) return misfit(ground, own, path, problems);
  return ground.map((each, index) => lay(each, own[index] ?? null, `${path}.${index}`, problems));
}

function fits(ground: Json, own: Json, path: string): boolean {
  const name = path.slice(path.lastIndexOf('.') + 1);
  if (path === 'imprint.place') return own === 'head' || own === 'foot';
  if (path === 'verse.indent') return own === 'longestLine' || isLength(own);
  if (path === 'sceneBreak.ornament') return own !== null && (CHOICES['ornament']?.includes(own) ?? false);
  const choices = path.startsWith('recto.') ? undefined : CHOICES[name];
  if (choices) return choices.includes(own);
  return typeof ground === 'number' ? isLength(own) : typeof own === typeof ground;
}

function isLength(value: Json): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function misfit(ground: Json, own: Json, path: string, problems: string[]): Json {
  problems.push(`${path || 'the design'} can't be ${JSON.stringify(own)}`);
  return ground;
}

function isRecord(value: Json): value is { readonly [key: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
