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
    'text.paragraphs',
    'text.indent',
    'text.flushFirst',
    'text.justify',
    'text.hyphenate',
    'text.hang',
  ],
  margins: ['margins.inner', 'margins.outer', 'margins.top', 'margins.bottom', 'trim.width', 'trim.height'],
  heads: [
    'heads.verso',
    'heads.recto',
    'heads.side',
    'heads.look',
    'heads.distance',
    'heads.rule',
    'folios.place',
    'folios.size',
    'folios.onOpeners',
  ],
  openers: [...opener('opener'), 'recto.chapters'],
  leadIn: ['leadIn.kind', 'leadIn.dropLines', 'leadIn.afterDrop', 'leadIn.spacing'],
  breaks: ['sceneBreak.mark', 'sceneBreak.ornament', 'sceneBreak.lines'],
  subheads: ['subheadAlign', 'subheads.0', 'subheads.1', 'subheads.2', 'subheadSpace.above', 'subheadSpace.below'],
  parts: [...opener('part'), 'recto.parts'],
  matter: opener('matter'),
  titles: [
    'titlePage.align',
    'titlePage.sink',
    'titlePage.title',
    'titlePage.subtitle',
    'titlePage.author',
    'titlePage.publisher',
    'titlePage.ornament',
    'halfTitle',
  ],
  imprint: ['imprint.size', 'imprint.leading', 'imprint.align', 'imprint.place'],
  dedication: [
    'dedication.align',
    'dedication.sink',
    'dedication.italic',
    'epigraph.indent',
    'epigraph.size',
    'epigraph.italic',
  ],
  contents: ['contents.leaders', 'contents.part'],
  quotations: [
    'quotation.indent',
    'quotation.size',
    'quotation.italic',
    'attribution.align',
    'attribution.italic',
    'setOff.indent',
    'setOff.italic',
  ],
  verse: ['verse.indent', 'verse.step', 'verse.turnover', 'verse.size', 'verse.italic'],
  lists: ['lists.indent', 'tables.size', 'tables.rules'],
  captions: ['caption.size', 'caption.italic', 'caption.align'],
  notes: ['notes.size', 'notes.leading', 'notes.rule'],
  fine: ['text.features', 'text.wordSpace', 'text.scaling', 'text.character'],
} as const satisfies Readonly<Record<string, readonly SettingPath[]>>;

export type GroupName = keyof typeof GROUPS;

export const GROUP_NAMES = Object.keys(GROUPS) as GroupName[];

/** The settings of a group. */
export function settingsIn(group: GroupName): readonly SettingPath[] {
  return GROUPS[group];
}
