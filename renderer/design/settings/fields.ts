/**
 * How each setting of a design is set. In: nothing; out: a table with a field for every setting there is, and with the range
 * within which a page still holds together.
 */
import { design as words } from '../../ui/texts/design.en.ts';
import type { SettingPath } from './paths.ts';

/** What a figure counts, as it is shown. */
export type Unit = 'points' | 'inches' | 'ems' | 'lines' | 'share' | 'times';

export interface MeasureField {
  readonly kind: 'measure';
  readonly unit: Unit;
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

export interface LookField {
  readonly kind: 'look';
  readonly size: MeasureField;
}

export type Field =
  | MeasureField
  | LookField
  | { readonly kind: 'tick' }
  | { readonly kind: 'choice'; readonly texts: Readonly<Record<string, string>> }
  | { readonly kind: 'ornament' }
  /** The features of the text's face: kinds of figures, ligatures. */
  | { readonly kind: 'features' }
  /** An indent in ems, or the middle of the measure. */
  | { readonly kind: 'verseIndent'; readonly measure: MeasureField }
  /** Set by controls that know more than this table: faces, the mark between scenes. */
  | { readonly kind: 'own' };

/** Letterspacing of display lines: beyond a quarter of an em words fall apart. */
export const LETTERSPACE = measure('ems', 0, 0.3, 0.01);

const tick: Field = { kind: 'tick' };
const own: Field = { kind: 'own' };
const ornament: Field = { kind: 'ornament' };
const aligns = choice(words.aligns);

/** A quarter of an inch is the least that printers take; beyond two inches little is left of a page. */
const margin = measure('points', 18, 144, 1);
const trim = measure('inches', 216, 1224, 4.5);
const indent = measure('ems', 0, 6, 0.25);
const share = measure('share', 0, 0.5, 0.01);
const small = measure('times', 0.6, 1.2, 0.01);

const opener = {
  sink: share,
  align: aligns,
  number: choice(words.numbers),
  showLabel: tick,
  numberLook: look(0.6, 6),
  loneNumberLook: look(0.6, 6),
  titleLook: look(0.8, 5),
  subtitleLook: look(0.6, 3),
  ornament,
  ornamentPlace: choice(words.ornamentPlaces),
  spaceAfter: measure('lines', 0, 10, 1),
} as const;

export const FIELDS = {
  'text.family': own,
  'display.family': own,
  'text.size': measure('points', 7, 24, 0.25),
  'text.leading': measure('points', 8, 36, 0.25),
  'text.indent': measure('ems', 0, 3, 0.25),
  'text.paragraphs': choice(words.paragraphs),
  'text.flushFirst': tick,
  'text.justify': tick,
  'text.hyphenate': tick,
  'text.hang': tick,
  'text.features': { kind: 'features' },
  'text.wordSpace': measure('ems', 0.18, 0.4, 0.01),
  'text.character': measure('ems', 0.3, 0.6, 0.002),
  'text.scaling': measure('share', 0, 0.02, 0.005),
  ...under('opener', opener),
  ...under('part', opener),
  ...under('matter', opener),
  'recto.parts': tick,
  'recto.chapters': tick,
  'leadIn.kind': choice(words.leadIns),
  'leadIn.dropLines': measure('lines', 2, 5, 1),
  'leadIn.afterDrop': tick,
  'leadIn.spacing': measure('ems', 0, 0.15, 0.01),
  'sceneBreak.mark': choice(words.marks),
  'sceneBreak.ornament': own,
  'sceneBreak.lines': measure('lines', 1, 4, 1),
  'subheads.0': look(0.8, 2.5),
  'subheads.1': look(0.8, 2.5),
  'subheads.2': look(0.8, 2.5),
  subheadAlign: aligns,
  'subheadSpace.above': measure('lines', 1, 4, 1),
  'subheadSpace.below': measure('lines', 0, 3, 1),
  'heads.verso': choice(words.headTexts),
  'heads.recto': choice(words.headTexts),
  'heads.side': choice(words.headSides),
  'heads.look': look(0.6, 1.2),
  'heads.distance': measure('lines', 1.2, 3, 0.1),
  'heads.rule': tick,
  'folios.place': choice(words.folioPlaces),
  'folios.onOpeners': tick,
  'folios.size': measure('times', 0.6, 1.4, 0.01),
  'titlePage.align': aligns,
  'titlePage.sink': share,
  'titlePage.title': look(1, 6),
  'titlePage.subtitle': look(0.6, 4),
  'titlePage.author': look(0.6, 4),
  'titlePage.publisher': look(0.6, 2),
  'titlePage.ornament': ornament,
  halfTitle: look(0.6, 4),
  'dedication.italic': tick,
  'dedication.align': aligns,
  'dedication.sink': share,
  'contents.leaders': tick,
  'contents.part': look(0.8, 2),
  'quotation.indent': indent,
  'quotation.size': small,
  'quotation.italic': tick,
  'attribution.align': aligns,
  'attribution.italic': tick,
  'epigraph.indent': indent,
  'epigraph.size': small,
  'epigraph.italic': tick,
  'verse.indent': { kind: 'verseIndent', measure: indent },
  'verse.step': indent,
  'verse.turnover': indent,
  'verse.size': small,
  'verse.italic': tick,
  'lists.indent': measure('ems', 1, 4, 0.25),
  'tables.size': small,
  'tables.rules': choice(words.tableRules),
  'setOff.indent': indent,
  'setOff.italic': tick,
  'notes.size': measure('times', 0.6, 1, 0.01),
  'notes.leading': measure('times', 0.6, 1, 0.01),
  'notes.rule': tick,
  'caption.size': measure('times', 0.6, 1.2, 0.01),
  'caption.italic': tick,
  'caption.align': aligns,
  'imprint.size': measure('times', 0.6, 1.2, 0.01),
  'imprint.leading': measure('times', 0.6, 1.4, 0.01),
  'imprint.align': aligns,
  'imprint.place': choice(words.imprintPlaces),
  'margins.inner': margin,
  'margins.outer': margin,
  'margins.top': margin,
  'margins.bottom': margin,
  'trim.width': trim,
  'trim.height': trim,
} as const satisfies Readonly<Record<SettingPath, Field>>;

/** The field of a setting. */
export function fieldOf(path: SettingPath): Field {
  return FIELDS[path];
}

export const SETTING_PATHS = Object.keys(FIELDS) as SettingPath[];

function measure(unit: Unit, least: number, most: number, step: number): MeasureField {
  return { kind: 'measure', unit, least, most, step };
}

function choice(texts: Readonly<Record<string, string>>): Field {
  return { kind: 'choice', texts };
}

function look(least: number, most: number): LookField {
  return { kind: 'look', size: measure('times', least, most, 0.01) };
}

type Under<Prefix extends string, Fields> = { [Name in keyof Fields & string as `${Prefix}.${Name}`]: Fields[Name] };

/** The fields of one of several like parts. */
function under<Prefix extends string, Fields extends object>(prefix: Prefix, fields: Fields): Under<Prefix, Fields> {
  const entries = Object.entries(fields).map(([name, field]) => [`${prefix}.${name}`, field]);
  return Object.fromEntries(entries) as Under<Prefix, Fields>;
}
