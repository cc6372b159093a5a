/**
 * A design for readers with low vision. In: settings and a print edition that asks for large print; out: the same design
 * drawn for the edition's trim in that size, by what organisations of and for blind people publish (FACTS T-02, T-29):
 * leading of one and a half, ragged lines, no hyphenation, 60 to 70 characters where the page is wide enough, no blocks of
 * italics, and nothing but the copyright page smaller than the text. Titles grow less than the text does.
 */
import type { Points, Size } from '#base';
import type { PrintEdition } from '#book';
import type { DesignSettings, DisplaySetting, OpenerSetting } from './settings.ts';

/** Least size, and leading as a share of the size. */
export const LARGE_PRINT = { least: 16, most: 24, leading: 1.5 } as const;

/** Characters to the line where the trim has room for them. */
const CHARACTERS = 64;
/** Both side margins together, at least, and the inner one's part of them. */
const SIDES = 80;
const INNER = 0.53;
const TOP = 66;
const BOTTOM = 58;

/** How much of what a title is larger than the text remains. */
const DISPLAY = 0.6;
/** Size of the copyright page: no reading text, but clear print still (12 to 14 points; FACTS T-29). */
const IMPRINT = 0.8;
/** Most lines of white between display lines and text: the lines are tall. */
const SPACE_AFTER = 2;

const large = new WeakMap<DesignSettings, Map<string, DesignSettings>>();

/** The settings in large print: the same object for the same size and trim. */
export function largePrintOf(settings: DesignSettings, edition: PrintEdition): DesignSettings {
  const { largePrint: size, trim } = edition;
  if (!size) return settings;
  const known = large.get(settings) ?? new Map<string, DesignSettings>();
  large.set(settings, known);
  const key = `${size} ${trim.width} ${trim.height}`;
  const made = known.get(key) ?? drawn(settings, size, trim);
  known.set(key, made);
  return made;
}

/** The smallest trim of the trade that gives a line of that size some length. */
export function largePrintTrim(size: Points): Size {
  return size < 18 ? { width: 432, height: 648 } : { width: 504, height: 720 };
}

function drawn(settings: DesignSettings, size: Points, trim: Size): DesignSettings {
  const sides = Math.max(SIDES, trim.width - CHARACTERS * size * settings.text.character);
  const { titlePage } = settings;
  return {
    ...settings,
    trim: { width: trim.width, height: trim.height },
    text: { ...settings.text, size, leading: size * LARGE_PRINT.leading, ...RAGGED },
    opener: openerOf(settings.opener),
    part: openerOf(settings.part),
    matter: openerOf(settings.matter),
    leadIn: { ...settings.leadIn, kind: 'none' },
    subheads: [bold(settings.subheads[0]), bold(settings.subheads[1]), bold(settings.subheads[2])],
    heads: { ...settings.heads, look: plain(settings.heads.look) },
    folios: { ...settings.folios, size: 1 },
    titlePage: {
      align: titlePage.align,
      sink: titlePage.sink,
      title: plain(titlePage.title),
      subtitle: plain(titlePage.subtitle),
      author: plain(titlePage.author),
      publisher: plain(titlePage.publisher),
      ornament: titlePage.ornament,
    },
    halfTitle: plain(settings.halfTitle),
    dedication: { ...settings.dedication, italic: false },
    contents: { ...settings.contents, part: bold(settings.contents.part) },
    quotation: { ...settings.quotation, size: 1, italic: false },
    attribution: { ...settings.attribution, italic: false },
    epigraph: { ...settings.epigraph, size: 1, italic: false },
    verse: { ...settings.verse, size: 1, italic: false },
    setOff: { ...settings.setOff, italic: false },
    tables: { ...settings.tables, size: 1 },
    notes: { ...settings.notes, size: 1, leading: 1 },
    caption: { ...settings.caption, size: 1, italic: false },
    imprint: { ...settings.imprint, size: IMPRINT, leading: IMPRINT },
    margins: { inner: sides * INNER, outer: sides * (1 - INNER), top: TOP, bottom: BOTTOM },
  };
}

const RAGGED = { justify: false, hyphenate: false, hang: false, scaling: 0 } as const;

/** Upright, no small capitals, never smaller than the text. */
function plain(setting: DisplaySetting): DisplaySetting {
  const size = Math.max(1, 1 + (setting.size - 1) * DISPLAY);
  return { ...setting, size, letters: 'asTyped', italic: false, letterspace: 0 };
}

function bold(setting: DisplaySetting): DisplaySetting {
  return { ...plain(setting), bold: true };
}

function openerOf(opener: OpenerSetting): OpenerSetting {
  return {
    ...opener,
    numberLook: plain(opener.numberLook),
    loneNumberLook: plain(opener.loneNumberLook),
    titleLook: plain(opener.titleLook),
    subtitleLook: plain(opener.subtitleLook),
    spaceAfter: Math.min(SPACE_AFTER, opener.spaceAfter),
  };
}
