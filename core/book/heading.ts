/**
 * How a section calls itself. In: a section of a view and a style; out: the display strings that openers, contents pages,
 * navigation and running heads share.
 */
import { roman } from '#base';
import { textOf } from './flat.ts';
import { numberWords } from './numerals.ts';
import type { ViewSection } from './view.ts';
import { primaryLanguage, sectionName } from './words.ts';

export interface HeadingStyle {
  /** How numbers are written; `none` leaves them (and the label) out. */
  readonly number: 'words' | 'figures' | 'roman' | 'none';
  /** Whether the label ("Chapter") stands before the number. Where a number alone would not tell, it does anyway. */
  readonly showLabel: boolean;
  /** BCP 47, the book's language. */
  readonly language: string;
}

export interface Heading {
  /** Label and number as one line ("Chapter Four", "4"), '' where there is none. */
  readonly numberLine: string;
  /** The title in plain characters, '' where there is none. */
  readonly title: string;
  readonly subtitle: string;
  /** The kind's usual name ("Dedication"), for navigation where the page itself shows no heading. */
  readonly name: string;
}

/** What a numbered section has: the members of `ViewSection` that a heading is made of. */
export type Headed = Pick<ViewSection, 'kind' | 'number' | 'label' | 'needsLabel' | 'titleText' | 'subtitle'>;

/** The display strings of a section's heading. */
export function headingOf(section: Headed, style: HeadingStyle): Heading {
  return {
    numberLine: numberLineOf(section, style),
    title: section.titleText,
    subtitle: section.subtitle ? textOf(section.subtitle) : '',
    name: sectionName(section.kind, style.language),
  };
}

/**
 * A section's name on one line, never empty, for contents, navigation and outlines: "Chapter Four: The Weir",
 * "4. The Weir", "The Weir", "Dedication". A lone number is no name: it has its label whatever the style, "Chapter 4".
 */
export function sectionLabel(section: Headed, style: HeadingStyle): string {
  const { numberLine, title, name } = headingOf(section, style);
  if (numberLine === '') return title === '' ? name : title;
  if (title === '') return numberLineOf(section, { ...style, showLabel: true });
  return style.number === 'figures' && !hasLabel(section, style)
    ? `${numberLine}. ${title}`
    : `${numberLine}: ${title}`;
}

function numberLineOf(section: Headed, style: HeadingStyle): string {
  if (section.number === null || style.number === 'none') return '';
  const label = hasLabel(section, style) ? (section.label ?? '') : '';
  const number = numberOf(section.number, label, style);
  return label === '' ? number : `${label} ${number}`;
}

function hasLabel(section: Headed, style: HeadingStyle): boolean {
  return (style.showLabel || section.needsLabel) && section.label !== null && section.label !== '';
}

function numberOf(value: number, label: string, style: HeadingStyle): string {
  switch (style.number) {
    case 'roman':
      return roman(value, 'upper');
    case 'words':
      return spelled(value, label, style.language);
    default:
      return String(value);
  }
}

/** In English each word takes a capital; elsewhere only the first of the line does. Figures where there are no words. */
function spelled(value: number, label: string, language: string): string {
  const english = primaryLanguage(language) === 'en';
  const words = frenchFirst(value, label, language) ?? numberWords(value, language);
  if (words === null) return String(value);
  if (english) return words.replace(/(?<![a-z])(?!and\b)[a-z]/g, (letter) => letter.toUpperCase());
  return label === '' ? words.charAt(0).toUpperCase() + words.slice(1) : words;
}

const FRENCH_FIRST: ReadonlyMap<string, string> = new Map([
  ['chapitre', 'premier'],
  ['livre', 'premier'],
  ['tome', 'premier'],
  ['partie', 'première'],
]);

/** French opens with `Chapitre premier`, an ordinal, and counts on with cardinals. */
function frenchFirst(value: number, label: string, language: string): string | null {
  if (value !== 1 || primaryLanguage(language) !== 'fr') return null;
  return FRENCH_FIRST.get(label.toLowerCase()) ?? null;
}
