/**
 * The count of sections, their matter and their parts. In: the sections of one edition in order; out: for each its
 * number among its label and whether that is enough to tell it, the matter it belongs to and the part it stands in.
 */
import type { Node } from 'prosemirror-model';
import type { SectionId } from '#base';
import { type Matter, matterOf, type SectionKind } from './kinds.ts';

export interface Place {
  readonly number: number | null;
  readonly matter: Matter;
  readonly part: SectionId | null;
  /** Whether its number alone could be another section's: letters and chapters of one book are both counted from 1. */
  readonly needsLabel: boolean;
}

/** Places found last, by the attributes of the first section: nodes keep theirs through every change of their text. */
const known = new WeakMap<
  Node['attrs'],
  { readonly attrs: readonly Node['attrs'][]; readonly places: readonly Place[] }
>();

/** The places of all sections (`section` nodes of one edition, in order): the same ones as long as only text changes. */
export function placesOf(sections: readonly Node[]): readonly Place[] {
  const [first] = sections;
  if (!first) return [];
  const last = known.get(first.attrs);
  const same = last?.attrs.length === sections.length && sections.every(({ attrs }, at) => attrs === last.attrs[at]);
  if (last && same) return last.places;
  const places = findPlaces(sections);
  known.set(first.attrs, { attrs: sections.map(({ attrs }) => attrs), places });
  return places;
}

function findPlaces(sections: readonly Node[]): readonly Place[] {
  const matters = mattersOf(sections.map(kindOf));
  const numbers = numbersOf(sections);
  const parts = partsOf(sections, matters);
  const mixed = labelsOf(sections).size > 1;
  return sections.map((_, index) => ({
    number: numbers[index] ?? null,
    matter: matters[index] ?? 'body',
    part: parts[index] ?? null,
    needsLabel: mixed && isLabelled(sections[index]!),
  }));
}

/** What numbered sections besides parts are called. */
function labelsOf(sections: readonly Node[]): ReadonlySet<string> {
  return new Set(sections.filter(isLabelled).map(({ attrs }) => String(attrs['label']).toLowerCase()));
}

function isLabelled(section: Node): boolean {
  return kindOf(section) !== 'part' && section.attrs['numbered'] === true && Boolean(section.attrs['label']);
}

/**
 * Front matter is what stands before the first section of the body, back matter what stands after the last, whatever its
 * kind: a copyright page moved to the end, as many ebooks have it, is back matter there. A book without any body kinds
 * has its kinds without a home as body.
 */
export function mattersOf(kinds: readonly SectionKind[]): readonly Matter[] {
  const isBody = (kind: SectionKind): boolean => matterOf(kind) === 'body';
  const isHomeless = (kind: SectionKind): boolean => matterOf(kind) === null;
  const belongs = kinds.some(isBody) ? isBody : isHomeless;
  const first = kinds.findIndex(belongs);
  const last = kinds.findLastIndex(belongs);
  if (first < 0) return kinds.map((kind) => matterOf(kind) ?? 'body');
  return kinds.map((_, index) => (index < first ? 'front' : index > last ? 'back' : 'body'));
}

/**
 * Numbered sections of one label count on through the book, parts apart from the rest; `startNumber` sets the count, and
 * a part that restarts makes the sections in it begin at 1.
 */
function numbersOf(sections: readonly Node[]): readonly (number | null)[] {
  const counts = new Map<string, number>();
  return sections.map((section) => {
    const isPart = kindOf(section) === 'part';
    if (isPart && section.attrs['restart']) forgetSections(counts);
    if (!section.attrs['numbered']) return null;
    const run = (isPart ? PART_RUN : SECTION_RUN) + String(section.attrs['label'] ?? '').toLowerCase();
    const number = (section.attrs['startNumber'] as number | null) ?? (counts.get(run) ?? 0) + 1;
    counts.set(run, number);
    return number;
  });
}

const PART_RUN = 'part ';
const SECTION_RUN = 'section ';

function forgetSections(counts: Map<string, number>): void {
  for (const run of counts.keys()) {
    if (run.startsWith(SECTION_RUN)) counts.delete(run);
  }
}

/** Body sections stand in the part before them; an epilogue that ends the body closes the whole book, not its last part. */
function partsOf(sections: readonly Node[], matters: readonly Matter[]): readonly (SectionId | null)[] {
  const lastOfBody = matters.lastIndexOf('body');
  let part: SectionId | null = null;
  return sections.map((section, index) => {
    const kind = kindOf(section);
    if (kind === 'part') {
      part = section.attrs['id'] as SectionId;
      return null;
    }
    if (matters[index] !== 'body' || (kind === 'epilogue' && index === lastOfBody)) return null;
    return part;
  });
}

function kindOf(section: Node): SectionKind {
  return section.attrs['kind'] as SectionKind;
}
