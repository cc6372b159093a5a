/**
 * Frisket: a bookish page with more of the pen in it. A drop cap opens each chapter below an italic title, numbers are
 * roman, a leaf stands between scenes and on the pages that stand alone; heads are italic with the folio beside them at the
 * outer edge. Drawn for 5.5 by 8.5 inches: 11 on 14 points, 306 points wide (about 68 characters), 36 lines.
 */
import type { DesignSettings, DisplaySetting, OpenerSetting } from './settings.ts';

const plain: DisplaySetting = { size: 1, letters: 'asTyped', italic: false, bold: false, letterspace: 0 };
const italic: DisplaySetting = { ...plain, italic: true };
const small: DisplaySetting = { ...plain, letters: 'allSmall', letterspace: 0.1 };
const capitals: DisplaySetting = { ...plain, letters: 'capitals', letterspace: 0.08 };

const opener: OpenerSetting = {
  sink: 0.14,
  align: 'center',
  number: 'roman',
  showLabel: false,
  numberLook: { ...capitals, size: 1.25 },
  loneNumberLook: { ...capitals, size: 1.9 },
  titleLook: { ...italic, size: 2.1 },
  subtitleLook: { ...small, size: 1 },
  ornament: null,
  ornamentPlace: 'belowTitle',
  spaceAfter: 4,
};

export const frisket: DesignSettings = {
  id: 'frisket',
  name: 'Frisket',
  base: 'frisket',
  trim: { width: 396, height: 612 },
  text: {
    family: 'Alegreya',
    size: 11,
    leading: 14,
    wordSpace: 0.31,
    character: 0.404,
    features: ['onum', 'pnum'],
    justify: true,
    hyphenate: true,
    indent: 1.1,
    paragraphs: 'indented',
    flushFirst: true,
    hang: true,
    scaling: 0.01,
  },
  display: { family: 'Alegreya' },
  opener,
  part: {
    ...opener,
    sink: 0.26,
    showLabel: true,
    numberLook: { ...capitals, size: 1.3, letterspace: 0.14 },
    loneNumberLook: { ...capitals, size: 2, letterspace: 0.12 },
    titleLook: { ...italic, size: 2.7 },
    ornament: 'leaf',
    spaceAfter: 3,
  },
  matter: { ...opener, titleLook: { ...italic, size: 1.8 }, spaceAfter: 3 },
  recto: { parts: true, chapters: false },
  leadIn: { kind: 'dropCap', dropLines: 3, afterDrop: true, spacing: 0.05 },
  sceneBreak: { mark: 'ornament', ornament: 'leaf', lines: 1, own: null },
  subheads: [
    { ...small, size: 1.1, letterspace: 0.08 },
    { ...italic, size: 1.12 },
    { ...italic, size: 1 },
  ],
  subheadAlign: 'center',
  subheadSpace: { above: 2, below: 1 },
  heads: {
    verso: 'title',
    recto: 'chapter',
    side: 'centre',
    look: { ...italic, size: 0.95 },
    distance: 1.6,
    rule: false,
  },
  folios: { place: 'headOuter', onOpeners: true, size: 0.95 },
  titlePage: {
    align: 'center',
    sink: 0.19,
    title: { ...capitals, size: 2.4, letterspace: 0.06 },
    subtitle: { ...italic, size: 1.5 },
    author: { ...italic, size: 1.5 },
    publisher: { ...small, size: 1, letterspace: 0.12 },
    ornament: 'leaf',
  },
  halfTitle: { ...italic, size: 1.5 },
  dedication: { italic: true, align: 'center', sink: 0.25 },
  contents: { leaders: false, part: { ...plain, letters: 'allSmall', letterspace: 0.1 } },
  quotation: { indent: 1.6, size: 0.95, italic: false },
  attribution: { align: 'end', italic: false },
  epigraph: { indent: 3, size: 0.95, italic: true },
  verse: { indent: 'longestLine', step: 1.5, turnover: 3, size: 1, italic: false },
  lists: { indent: 1.75 },
  tables: { size: 1, rules: 'ends' },
  setOff: { indent: 1.6, italic: true },
  notes: { size: 0.82, leading: 0.8, rule: true },
  caption: { size: 0.88, italic: true, align: 'center' },
  imprint: { size: 0.8, leading: 0.78, align: 'center', place: 'foot' },
  margins: { inner: 42, outer: 48, top: 53.5, bottom: 60.5 },
};
