/**
 * Resolves a design for a reflowable ebook. In: settings; out: values ready for CSS, all in ems (of the element's own
 * text size where nothing else is said), because the reader sets the size.
 */
import { type BreakMark, drawnMark } from './breakMark.ts';
import { type Ornament, ornament } from './ornaments.ts';
import type {
  Align,
  DesignSettings,
  DisplaySetting,
  DressedSettings,
  OpenerNumber,
  OpenerSetting,
} from './settings.ts';

/** A line of display type: `size` in ems of the text; letterspacing in ems of its own size. */
export interface EbookLook extends DisplaySetting {
  readonly align: Align;
}

export interface EbookOpener {
  /** Space above the heading. */
  readonly spaceAbove: number;
  /** Space between the heading and the text. */
  readonly spaceBelow: number;
  readonly number: OpenerNumber;
  readonly showLabel: boolean;
  readonly numberLook: EbookLook;
  readonly loneNumberLook: EbookLook;
  readonly titleLook: EbookLook;
  readonly subtitleLook: EbookLook;
  readonly ornament: Ornament | null;
  readonly ornamentPlace: 'aboveTitle' | 'belowTitle';
}

export interface EbookDesign {
  readonly id: string;
  readonly name: string;
  /** The family to embed; a CSS `font-family` list should end in `serif`. */
  readonly family: string;
  readonly displayFamily: string;
  readonly text: {
    /** Unitless line height. */
    readonly leading: number;
    readonly indent: number;
    readonly justify: boolean;
    readonly hyphenate: boolean;
    /** OpenType features of running text, such as `onum`. */
    readonly features: readonly string[];
  };
  readonly opener: EbookOpener;
  readonly part: EbookOpener;
  readonly matter: EbookOpener;
  readonly leadIn: 'smallCapitals' | 'dropCap' | 'none';
  readonly sceneBreak: {
    readonly mark: 'ornament' | 'space';
    readonly shown: BreakMark;
    /** Space above and below the mark, or the height of a break that is space alone. */
    readonly space: number;
  };
  readonly subheads: readonly [EbookLook, EbookLook, EbookLook];
  readonly titlePage: {
    readonly title: EbookLook;
    readonly subtitle: EbookLook;
    readonly author: EbookLook;
    readonly publisher: EbookLook;
    readonly ornament: Ornament | null;
  };
  readonly dedication: { readonly italic: boolean; readonly align: Align };
  readonly quotation: { readonly indent: number; readonly size: number };
  readonly epigraph: { readonly indent: number; readonly size: number; readonly italic: boolean };
  /** Left indent of verse, of one step, and of a line's turnover. */
  readonly verse: { readonly indent: number; readonly step: number; readonly turnover: number };
  readonly setOff: { readonly indent: number; readonly italic: boolean };
  readonly notes: { readonly size: number };
  readonly caption: { readonly size: number; readonly italic: boolean };
  readonly imprint: { readonly size: number; readonly align: Align };
}

/** A reader's screen shows fewer lines than a page: sinks are a share of some twenty-four. */
const SCREEN_LINES = 24;
/** Small screens: no display line above this size. */
const LARGEST_DISPLAY = 2.2;
/** Verse has no measure to be centred on: where a design centres it on its longest line, it is indented by this. */
const VERSE_INDENT = 2;

/** The design of an ebook. */
export function resolveForEbook(settings: DressedSettings): EbookDesign {
  const { text } = settings;
  const leading = round(text.leading / text.size);
  return {
    id: settings.id,
    name: settings.name,
    family: text.family,
    displayFamily: settings.display.family,
    text: {
      leading: Math.max(1.3, leading),
      indent: text.indent,
      justify: text.justify,
      hyphenate: text.hyphenate,
      features: text.features,
    },
    opener: openerOf(settings.opener, leading),
    part: openerOf(settings.part, leading),
    matter: openerOf(settings.matter, leading),
    leadIn: settings.leadIn.kind,
    sceneBreak: {
      mark: settings.sceneBreak.mark,
      shown: settings.breakMark ?? drawnMark(settings.sceneBreak.ornament),
      space: round(settings.sceneBreak.lines * leading),
    },
    subheads: [
      lookOf(settings.subheads[0], settings.subheadAlign),
      lookOf(settings.subheads[1], settings.subheadAlign),
      lookOf(settings.subheads[2], settings.subheadAlign),
    ],
    titlePage: titlePageOf(settings),
    dedication: settings.dedication,
    quotation: settings.quotation,
    epigraph: settings.epigraph,
    verse: {
      ...settings.verse,
      indent: settings.verse.indent === 'longestLine' ? VERSE_INDENT : settings.verse.indent,
    },
    setOff: settings.setOff,
    notes: { size: Math.max(0.85, settings.notes.size) },
    caption: { ...settings.caption, size: Math.max(0.85, settings.caption.size) },
    imprint: { size: Math.max(0.85, settings.imprint.size), align: settings.imprint.align },
  };
}

function openerOf(setting: OpenerSetting, leading: number): EbookOpener {
  return {
    spaceAbove: round(setting.sink * SCREEN_LINES * leading),
    spaceBelow: round(Math.max(1, setting.spaceAfter - 1) * leading),
    number: setting.number,
    showLabel: setting.showLabel,
    numberLook: lookOf(setting.numberLook, setting.align),
    loneNumberLook: lookOf(setting.loneNumberLook, setting.align),
    titleLook: lookOf(setting.titleLook, setting.align),
    subtitleLook: lookOf(setting.subtitleLook, setting.align),
    ornament: setting.ornament === null ? null : ornament(setting.ornament),
    ornamentPlace: setting.ornamentPlace,
  };
}

function titlePageOf(settings: DesignSettings): EbookDesign['titlePage'] {
  const { align, title, subtitle, author, publisher } = settings.titlePage;
  return {
    title: lookOf(title, align),
    subtitle: lookOf(subtitle, align),
    author: lookOf(author, align),
    publisher: lookOf(publisher, align),
    ornament: settings.titlePage.ornament === null ? null : ornament(settings.titlePage.ornament),
  };
}

function lookOf(setting: DisplaySetting, align: Align): EbookLook {
  return { ...setting, size: Math.min(setting.size, LARGEST_DISPLAY), align };
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
