/**
 * What set-off texts imitate. In: a form and the design's look of set-off text; out: the form's own look, and how its
 * paragraphs stand. Letters run like text; telegrams are small capitals on lines of their own; messages are ragged, each one
 * hanging from its first line; signs are small capitals in the middle; documents run like quotations.
 */
import type { SetOffForm } from '#book';
import { featuresFor, type Look } from '#design';
import { derived, raggedLook } from './looks.ts';

/** How the paragraphs of a set-off text stand, where not as running text. */
export interface Stance {
  readonly align: 'start' | 'center';
  /** Indent of all lines of a paragraph but the first, in ems. */
  readonly hanging: number;
}

/** Space between the small capitals of telegrams and signs, in ems (FACTS T-22: 5 to 10 per cent). */
const SPACED = 0.06;

/** Where messages go on after their first line, in ems: each begins to the left of the others' lines. */
const HANGING = 1;

const STANCES: Readonly<Record<SetOffForm, Stance | null>> = {
  letter: null,
  document: null,
  telegram: { align: 'start', hanging: 0 },
  message: { align: 'start', hanging: HANGING },
  sign: { align: 'center', hanging: 0 },
};

/** How the paragraphs of a form stand; null for running text. */
export function stanceOf(form: SetOffForm): Stance | null {
  return STANCES[form];
}

/** The look of a form. */
export function lookOf(form: SetOffForm, look: Look, quotation: Look): Look {
  switch (form) {
    case 'letter':
      return look;
    case 'document':
      return quotation;
    case 'message':
      return raggedLook(look);
    case 'telegram':
    case 'sign':
      return spacedCapitals(look);
  }
}

const spacedCapitals = derived((look) => ({
  ...look,
  letters: 'allSmall',
  features: featuresFor(look.features, 'allSmall'),
  letterspace: SPACED,
  hyphenate: false,
}));
