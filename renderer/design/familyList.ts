/** The families to choose from. In: those that travel with the program and those installed; out: rows in groups. */
import { builtInDesigns, type DesignSettings } from '#design';
import type { BundledFace, InstalledFamily } from '#host';
import { faces as words } from '../ui/texts/faces.en.ts';

export interface FamilyRow {
  readonly family: string;
  /** What there is to know before it is chosen; '' for nothing. */
  readonly says: string;
  readonly usable: boolean;
  readonly about: InstalledFamily | null;
}

export interface FamilyGroup {
  readonly name: string;
  readonly rows: readonly FamilyRow[];
}

/** `current` is in the list even where it can't be had. */
export function familyGroups(
  bundled: readonly BundledFace[],
  installed: readonly InstalledFamily[] | null,
  current: string,
): readonly FamilyGroup[] {
  const own = [...new Set(bundled.filter(({ fallback }) => !fallback).map(({ family }) => family))];
  const there = installed?.map(installedRow) ?? [];
  const known = own.includes(current) || there.some(({ family }) => family === current);
  const missing = { family: current, says: words.missing, usable: false, about: null };
  const groups = [
    { name: words.missing, rows: known ? [] : [missing] },
    { name: words.bundled, rows: own.map((family) => ({ family, says: '', usable: true, about: null })) },
    { name: words.installed, rows: there },
  ];
  return groups.filter(({ rows }) => rows.length > 0);
}

function installedRow(about: InstalledFamily): FamilyRow {
  const { family, usable, character, lacks } = about;
  const row = (says: string, can: boolean): FamilyRow => ({ family, says, usable: can, about });
  if (!usable) return row(isForbidden(about) ? words.cannot : words.cannotSet, false);
  if (character === null) return row(words.noLetters, false);
  const parts = [
    ...(about.faces.some(({ embedding }) => embedding === 'preview') ? [words.onlyPreview] : []),
    ...(lacks.length > 0 ? [lacksOf(lacks)] : []),
  ];
  return row(parts.join('. '), true);
}

function isForbidden({ faces }: InstalledFamily): boolean {
  return faces.some(({ embedding }) => embedding === 'restricted' || embedding === 'bitmapOnly');
}

export function lacksOf(lacks: InstalledFamily['lacks']): string {
  return words.lacks(lacks.map((each) => words.lacking[each]));
}

/** Least word space of a face as a share of its mean character: what the built-in designs have, rounded. */
const SPACE = 0.7;

/** The text set in a family, with the widths that sizes and spaces are reckoned by. */
export function inFamily(settings: DesignSettings, family: string, about: InstalledFamily | null): DesignSettings {
  return { ...settings, text: { ...settings.text, family, ...widthsOf(family, about) } };
}

function widthsOf(family: string, about: InstalledFamily | null): Partial<DesignSettings['text']> {
  const drawn = builtInDesigns.find((each) => each.text.family === family)?.text;
  if (drawn) return { character: drawn.character, wordSpace: drawn.wordSpace };
  const character = about?.character ?? null;
  return character === null ? {} : { character, wordSpace: Math.round(character * SPACE * 100) / 100 };
}
