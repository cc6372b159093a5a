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
    readonly paragraphs: 'indented' | 'spaced';
    readonly flushFirst: boolean;
    readonly justify: boolean;
    readonly hyphenate: boolean;
    /** OpenType features of running text, such as `onum`. */
    readonly features: readonly string[];
  };
  readonly opener: EbookOpener;
  readonly part: EbookOpener;
  readonly matter: EbookOpener;
  readonly leadIn: DesignSettings['leadIn'];
  readonly sceneBreak: {
    readonly mark: 'ornament' | 'space';
    readonly shown: BreakMark;
    /** Space above and below the mark, or the height of a break that is space alone. */
    readonly space: number;
  };
  readonly subheads: readonly [EbookLook, EbookLook, EbookLook];
  /** White around subheads in ems of the text. */
  readonly subheadSpace: { readonly above: number; readonly below: number };
  readonly titlePage: {
    readonly spaceAbove: number;
    readonly title: EbookLook;
    readonly subtitle: EbookLook;
    readonly author: EbookLook;
    readonly publisher: EbookLook;
    readonly ornament: Ornament | null;
  };
  readonly dedication: { readonly italic: boolean; readonly align: Align; readonly spaceAbove: number };
  readonly contentsPart: EbookLook;
  readonly quotation: DesignSettings['quotation'];
  readonly attribution: DesignSettings['attribution'];
  readonly epigraph: { readonly indent: number; readonly size: number; readonly italic: boolean };
  /** Left indent of verse, of one step, and of a line's turnover. */
  readonly verse: {
    readonly indent: number;
    readonly step: number;
    readonly turnover: number;
    readonly size: number;
    readonly italic: boolean;
  };
  readonly lists: DesignSettings['lists'];
  readonly tables: DesignSettings['tables'];
  readonly setOff: { readonly indent: number; readonly italic: boolean };
  readonly notes: { readonly size: number };
  readonly caption: DesignSettings['caption'];
  readonly imprint: { readonly size: number; readonly align: Align };
}

/** A reader's screen shows fewer lines than a page: sinks are a share of some twenty-four. */
const SCREEN_LINES = 24;
/** Lines of a small screen, by which pages that stand alone are sunk: they should not begin below its middle. */
const SHORT_SCREEN = 16;
/** What a line of white around a subhead comes to, in ems: screens are short of lines. */
const SUBHEAD_LINE = { above: 0.75, below: 0.5 };
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
      paragraphs: text.paragraphs,
      flushFirst: text.flushFirst,
      justify: text.justify,
      hyphenate: text.hyphenate,
      features: text.features,
    },
    opener: openerOf(settings.opener, leading),
    part: openerOf(settings.part, leading),
    matter: openerOf(settings.matter, leading),
    leadIn: settings.leadIn,
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
    subheadSpace: {
      above: round(settings.subheadSpace.above * SUBHEAD_LINE.above),
      below: round(settings.subheadSpace.below * SUBHEAD_LINE.below),
    },
    titlePage: titlePageOf(settings),
    dedication: {
      italic: settings.dedication.italic,
      align: settings.dedication.align,
      spaceAbove: round(settings.dedication.sink * SHORT_SCREEN * leading),
    },
    contentsPart: lookOf(settings.contents.part, 'start'),
    quotation: settings.quotation,
    attribution: settings.attribution,
    epigraph: settings.epigraph,
    verse: {
      ...settings.verse,
      indent: settings.verse.indent === 'longestLine' ? VERSE_INDENT : settings.verse.indent,
    },
    lists: settings.lists,
    tables: { ...settings.tables, size: Math.max(0.85, settings.tables.size) },
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
    spaceAbove: round(settings.titlePage.sink * SHORT_SCREEN),
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
