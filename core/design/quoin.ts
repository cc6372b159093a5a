/**
 * Quoin, the built-in design: a quiet book face on a generous page. Small capitals carry what is not text (numbers,
 * running heads, lead-ins); titles stand upright and unadorned; one swelled rule is the only flourish. Drawn for
 * 5.5 by 8.5 inches: 11.5 on 14 points, 300 points wide (about 68 characters), 36 lines.
 */
import type { DesignSettings, DisplaySetting, OpenerSetting } from './settings.ts';

const plain: DisplaySetting = { size: 1, letters: 'asTyped', italic: false, bold: false, letterspace: 0 };
const italic: DisplaySetting = { ...plain, italic: true };
const small: DisplaySetting = { ...plain, letters: 'allSmall', letterspace: 0.1 };

const opener: OpenerSetting = {
  sink: 0.17,
  align: 'center',
  number: 'words',
  showLabel: true,
  numberLook: { ...small, size: 1.05, letterspace: 0.14 },
  loneNumberLook: { ...small, size: 1.5, letterspace: 0.14 },
  titleLook: { ...plain, size: 2 },
  subtitleLook: { ...italic, size: 1.15 },
  ornament: null,
  ornamentPlace: 'belowTitle',
  spaceAfter: 4,
};

export const quoin: DesignSettings = {
  id: 'quoin',
  name: 'Quoin',
  base: 'quoin',
  trim: { width: 396, height: 612 },
  text: {
    family: 'EB Garamond',
    size: 11.5,
    leading: 14,
    // The face's own is 0.2 em, which leaves a justified line nothing to give: a quarter less than this is still as much.
    wordSpace: 0.285,
    character: 0.38,
    features: ['onum', 'pnum'],
    justify: true,
    hyphenate: true,
    indent: 1,
    paragraphs: 'indented',
    flushFirst: true,
    hang: true,
    scaling: 0.01,
  },
  display: { family: 'EB Garamond' },
  opener,
  part: {
    ...opener,
    sink: 0.28,
    numberLook: { ...small, size: 1.3, letterspace: 0.14 },
    loneNumberLook: { ...small, size: 2, letterspace: 0.14 },
    titleLook: { ...plain, size: 2.3 },
    ornament: 'swelledRule',
    ornamentPlace: 'belowTitle',
    spaceAfter: 3,
  },
  matter: { ...opener, titleLook: { ...plain, size: 1.6 }, spaceAfter: 3 },
  recto: { parts: true, chapters: false },
  leadIn: { kind: 'smallCapitals', dropLines: 3, afterDrop: true, spacing: 0.05 },
  sceneBreak: { mark: 'space', ornament: 'lozenges', lines: 1, own: null },
  subheads: [
    { ...small, size: 1.1, letterspace: 0.08 },
    { ...italic, size: 1.1 },
    { ...italic, size: 1 },
  ],
  subheadAlign: 'start',
  subheadSpace: { above: 2, below: 1 },
  heads: {
    verso: 'author',
    recto: 'title',
    side: 'centre',
    look: { ...small, size: 0.83, letterspace: 0.12 },
    distance: 1.6,
    rule: false,
  },
  folios: { place: 'footCentre', onOpeners: true, size: 0.95 },
  titlePage: {
    align: 'center',
    sink: 0.19,
    title: { ...plain, size: 2.9 },
    subtitle: { ...italic, size: 1.4 },
    author: { ...small, size: 1.35, letterspace: 0.12 },
    publisher: { ...small, size: 0.95, letterspace: 0.12 },
    ornament: 'swelledRule',
  },
  halfTitle: { ...small, size: 1.3, letterspace: 0.12 },
  dedication: { italic: true, align: 'center', sink: 0.25 },
  contents: { leaders: true, part: { ...plain, letters: 'allSmall', letterspace: 0.1 } },
  quotation: { indent: 1.5, size: 0.95, italic: false },
  attribution: { align: 'end', italic: false },
  epigraph: { indent: 3, size: 0.95, italic: false },
  verse: { indent: 'longestLine', step: 1.5, turnover: 3, size: 1, italic: false },
  lists: { indent: 1.75 },
  tables: { size: 1, rules: 'ends' },
  setOff: { indent: 1.5, italic: false },
  notes: { size: 0.8, leading: 0.79, rule: true },
  caption: { size: 0.86, italic: true, align: 'center' },
  imprint: { size: 0.77, leading: 0.76, align: 'start', place: 'foot' },
  margins: { inner: 45, outer: 51, top: 50, bottom: 62 },
};
