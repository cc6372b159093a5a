/** Ranges of figures. In: what was typed, or a design from a file; out: it again, or one sentence on what can't be. */
import { failure, type Outcome, success } from '#base';
import type { DesignSettings, DisplaySetting } from '#design';
import { design as words } from '../../ui/texts/design.en.ts';
import { type Field, fieldOf, LETTERSPACE, type MeasureField, SETTING_PATHS } from './fields.ts';
import { type SettingValue, settingAt } from './paths.ts';
import { sayFigure, shownFigure, storedFigure, textOf } from './say.ts';

/** What a millimetre, an inch, a point is in points. */
const LENGTHS: Readonly<Record<string, number>> = { mm: 72 / 25.4, in: 72, pt: 1, '"': 72 };

/** The figure that was typed: a number, with a comma or a point, and a length in any unit where one is meant. */
export function readFigure(field: MeasureField, typed: string): Outcome<number> {
  const match = /^\s*(\d+(?:[.,]\d+)?|[.,]\d+)\s*(mm|in|pt|"|em|%|lines?)?/iu.exec(typed);
  if (!match) return failure(words.noFigure(sayFigure(field, field.least)));
  const number = Number((match[1] ?? '').replace(',', '.'));
  const length = LENGTHS[(match[2] ?? '').toLowerCase()];
  const isLength = field.unit === 'points' || field.unit === 'inches';
  const stored = length !== undefined && isLength ? number * length : storedFigure(field, number);
  return lies(field, stored) ? success(stored) : failure(rangeOf(field));
}

function rangeOf(field: MeasureField): string {
  return words.outOfRange(String(shownFigure(field, field.least)), sayFigure(field, field.most));
}

/** A hair is left for figures that came through other units. */
function lies({ least, most }: MeasureField, stored: number): boolean {
  return stored >= least - 1e-6 && stored <= most + 1e-6;
}

/** Whether all figures of settings that came from a file lie where a page can be made of them; else one sentence. */
export function inRange(settings: DesignSettings): Outcome<DesignSettings> {
  for (const path of SETTING_PATHS) {
    for (const [field, value] of figuresIn(fieldOf(path), settingAt(settings, path))) {
      if (lies(field, value)) continue;
      const range = rangeOf(field).replace(/\.$/, '');
      return failure(`${textOf(path).name} (${path}) is ${sayFigure(field, value)}, and must be ${lower(range)}`);
    }
  }
  return success(settings);
}

function lower(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

/** The figures of a setting with their ranges. */
function figuresIn(field: Field, value: SettingValue): readonly (readonly [MeasureField, number])[] {
  if (field.kind === 'measure') return [[field, Number(value)]];
  if (field.kind === 'verseIndent') return value === 'longestLine' ? [] : [[field.measure, Number(value)]];
  if (field.kind !== 'look') return [];
  const { size, letterspace } = value as DisplaySetting;
  return [
    [field.size, size],
    [LETTERSPACE, letterspace],
  ];
}
