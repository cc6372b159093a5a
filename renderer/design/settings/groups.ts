/** The settings by what of a book they set. In: nothing; out: groups in the order in which a designer goes through a book. */
import type { SettingPath } from './paths.ts';

const openerSettings = [
  'sink',
  'align',
  'number',
  'showLabel',
  'titleLook',
  'numberLook',
  'loneNumberLook',
  'subtitleLook',
  'ornament',
  'ornamentPlace',
  'spaceAfter',
] as const;

function opener<Part extends 'opener' | 'part' | 'matter'>(part: Part) {
  return openerSettings.map((name) => `${part}.${name}` as const);
}

export const GROUPS = {
  text: [
    'text.family',
    'display.family',
    'text.size',
    'text.leading',
    'text.indent',
    'text.justify',
    'text.hyphenate',
    'text.hang',
  ],
  margins: ['margins.inner', 'margins.outer', 'margins.top', 'margins.bottom', 'trim.width', 'trim.height'],
  heads: ['heads.verso', 'heads.recto', 'heads.side', 'heads.look', 'folios.place', 'folios.size', 'folios.onOpeners'],
  openers: [...opener('opener'), 'recto.chapters'],
  leadIn: ['leadIn.kind', 'leadIn.dropLines'],
  breaks: ['sceneBreak.mark', 'sceneBreak.ornament', 'sceneBreak.lines'],
  subheads: ['subheadAlign', 'subheads.0', 'subheads.1', 'subheads.2'],
  parts: [...opener('part'), 'recto.parts'],
  matter: opener('matter'),
  titles: [
    'titlePage.align',
    'titlePage.title',
    'titlePage.subtitle',
    'titlePage.author',
    'titlePage.publisher',
    'titlePage.ornament',
    'halfTitle',
  ],
  imprint: ['imprint.size', 'imprint.leading', 'imprint.align'],
  dedication: ['dedication.align', 'dedication.italic', 'epigraph.indent', 'epigraph.size', 'epigraph.italic'],
  contents: ['contents.leaders'],
  quotations: ['quotation.indent', 'quotation.size', 'setOff.indent', 'setOff.italic'],
  verse: ['verse.indent', 'verse.step', 'verse.turnover'],
  captions: ['caption.size', 'caption.italic'],
  notes: ['notes.size', 'notes.leading', 'notes.rule'],
  fine: ['text.features', 'text.wordSpace', 'text.scaling', 'text.character'],
} as const satisfies Readonly<Record<string, readonly SettingPath[]>>;

export type GroupName = keyof typeof GROUPS;

export const GROUP_NAMES = Object.keys(GROUPS) as GroupName[];

/** The settings of a group. */
export function settingsIn(group: GroupName): readonly SettingPath[] {
  return GROUPS[group];
}
