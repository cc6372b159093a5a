/**
 * Tympan: a plain, modern page. Everything stands at the left edge: large figures above the titles, titles in the weight of
 * the text, subheads in bold; heads and folios at the outer edge; no flourish but three dots between scenes. Drawn for 5.5
 * by 8.5 inches: 9.5 on 13.5 points in a face of large letters, 316 points wide (about 70 characters), 37 lines.
 */
import type { DesignSettings, DisplaySetting, OpenerSetting } from './settings.ts';

const plain: DisplaySetting = { size: 1, letters: 'asTyped', italic: false, bold: false, letterspace: 0 };
const italic: DisplaySetting = { ...plain, italic: true };
const bold: DisplaySetting = { ...plain, bold: true };
const capitals: DisplaySetting = { ...plain, letters: 'capitals', letterspace: 0.1 };

const opener: OpenerSetting = {
  sink: 0.08,
  align: 'start',
  number: 'figures',
  showLabel: false,
  numberLook: { ...plain, letters: 'capitals', size: 3.4 },
  loneNumberLook: { ...plain, letters: 'capitals', size: 3.4 },
  titleLook: { ...plain, size: 1.9 },
  subtitleLook: { ...italic, size: 1.15 },
  ornament: null,
  ornamentPlace: 'belowTitle',
  spaceAfter: 5,
};

export const tympan: DesignSettings = {
  id: 'tympan',
  name: 'Tympan',
  base: 'tympan',
  trim: { width: 396, height: 612 },
  text: {
    family: 'Literata',
    size: 9.5,
    leading: 13.5,
    // A little wider to these letters than 0.285 em is to those of a narrower face, which leave more spaces to a line.
    wordSpace: 0.38,
    character: 0.47,
    features: ['onum', 'pnum'],
    justify: true,
    hyphenate: true,
    indent: 1.25,
    paragraphs: 'indented',
    flushFirst: true,
    hang: true,
    scaling: 0.01,
  },
  display: { family: 'Literata' },
  opener,
  part: {
    ...opener,
    sink: 0.28,
    number: 'words',
    showLabel: true,
    numberLook: { ...capitals, size: 0.85 },
    loneNumberLook: { ...plain, size: 2.6 },
    titleLook: { ...plain, size: 2.6 },
    spaceAfter: 3,
  },
  matter: { ...opener, sink: 0.1, spaceAfter: 3 },
  recto: { parts: true, chapters: false },
  leadIn: { kind: 'none', dropLines: 3, afterDrop: true, spacing: 0.05 },
  sceneBreak: { mark: 'ornament', ornament: 'dots', lines: 1, own: null },
  subheads: [{ ...bold, size: 1.1 }, bold, { ...italic, size: 1 }],
  subheadAlign: 'start',
  subheadSpace: { above: 2, below: 1 },
  heads: {
    verso: 'title',
    recto: 'chapter',
    side: 'outer',
    look: { ...plain, size: 0.8, letterspace: 0.02 },
    distance: 1.6,
    rule: false,
  },
  folios: { place: 'footOuter', onOpeners: true, size: 0.87 },
  titlePage: {
    align: 'start',
    sink: 0.19,
    title: { ...plain, size: 3.2 },
    subtitle: { ...italic, size: 1.4 },
    author: { ...plain, size: 1.35 },
    publisher: { ...capitals, size: 0.75 },
    ornament: null,
  },
  halfTitle: { ...plain, size: 1.35 },
  dedication: { italic: true, align: 'start', sink: 0.25 },
  contents: { leaders: false, part: { ...plain, letters: 'allSmall', letterspace: 0.1 } },
  quotation: { indent: 1.5, size: 0.93, italic: false },
  attribution: { align: 'end', italic: false },
  epigraph: { indent: 3, size: 0.93, italic: true },
  verse: { indent: 2, step: 1.5, turnover: 3, size: 1, italic: false },
  lists: { indent: 1.75 },
  tables: { size: 1, rules: 'ends' },
  setOff: { indent: 1.5, italic: false },
  notes: { size: 0.82, leading: 0.8, rule: false },
  caption: { size: 0.82, italic: false, align: 'center' },
  imprint: { size: 0.77, leading: 0.78, align: 'start', place: 'foot' },
  margins: { inner: 40, outer: 40, top: 52, bottom: 62 },
};
