/**
 * Resolves a design for a print edition. In: settings, the edition's trim, the page count so far; out: everything that
 * make-up needs, in points and whole lines of the grid.
 */
import type { Points } from '#base';
import type { PrintEdition } from '#book';
import { type BreakMark, drawnMark } from './breakMark.ts';
import { type PageFrame, pageFrame } from './frame.ts';
import { displayLook, featuresFor, type Look, type LookBase } from './looks.ts';
import { type Ornament, ornament } from './ornaments.ts';
import { defaultPress, type PressProfile } from './press.ts';
import type { Align, DesignSettings, DressedSettings, OpenerNumber, OpenerSetting } from './settings.ts';

export interface PrintOpener {
  /** Whole lines above the first line. */
  readonly sink: number;
  readonly align: Align;
  readonly number: OpenerNumber;
  readonly showLabel: boolean;
  readonly numberLook: Look;
  readonly loneNumberLook: Look;
  readonly titleLook: Look;
  readonly subtitleLook: Look;
  readonly ornament: Ornament | null;
  readonly ornamentPlace: 'aboveTitle' | 'belowTitle';
  /** Whole lines below the display lines. */
  readonly spaceAfter: number;
}

/** Running heads and folios. */
export interface PrintFurniture {
  readonly heads: {
    readonly side: DesignSettings['heads']['side'];
    readonly verso: DesignSettings['heads']['verso'];
    readonly recto: DesignSettings['heads']['recto'];
    readonly look: Look;
    readonly rule: boolean;
    /** Baseline of the running head. */
    readonly baseline: Points;
  };
  readonly folios: {
    readonly place: DesignSettings['folios']['place'];
    readonly onOpeners: boolean;
    readonly look: Look;
    /** Baseline of a folio at the foot. */
    readonly footBaseline: Points;
  };
}

/** Pages of their own look. */
export interface PrintDisplay {
  readonly titlePage: {
    readonly align: Align;
    /** Whole lines above title and half title. */
    readonly sink: number;
    readonly title: Look;
    readonly subtitle: Look;
    readonly author: Look;
    readonly publisher: Look;
    readonly ornament: Ornament | null;
  };
  readonly halfTitle: Look;
  readonly dedication: Look;
  /** Whole lines above a dedication, and above an epigraph on a page of its own. */
  readonly dedicationSink: number;
  readonly contents: { readonly leaders: boolean; readonly entry: Look; readonly part: Look };
}

/** Blocks other than running paragraphs. */
export interface PrintBlocks {
  readonly quotation: { readonly look: Look; readonly indent: Points };
  readonly epigraph: { readonly look: Look; readonly indent: Points };
  readonly attribution: Look;
  readonly verse: {
    /** Of verse that stands in running text. */
    readonly look: Look;
    readonly indent: Points | 'longestLine';
    readonly step: Points;
    readonly turnover: Points;
  };
  readonly setOff: { readonly look: Look; readonly indent: Points };
  readonly listIndent: Points;
  readonly tables: { readonly look: Look; readonly rules: DesignSettings['tables']['rules'] };
  readonly notes: { readonly look: Look; readonly rule: boolean };
  readonly caption: Look;
  readonly imprint: Look;
  readonly imprintPlace: 'head' | 'foot';
}

export interface PrintDesign extends PrintFurniture, PrintDisplay, PrintBlocks {
  readonly id: string;
  /** Names all that lines and items depend on, and nothing that only moves the finished page: a key for caches. */
  readonly key: string;
  readonly frame: PageFrame;
  readonly text: Look;
  /** First-line indent. */
  readonly indent: Points;
  readonly paragraphs: 'indented' | 'spaced';
  readonly flushFirst: boolean;
  readonly hang: boolean;
  readonly scaling: number;
  readonly opener: PrintOpener;
  readonly part: PrintOpener;
  readonly matter: PrintOpener;
  readonly recto: { readonly parts: boolean; readonly chapters: boolean };
  readonly leadIn: {
    readonly kind: DesignSettings['leadIn']['kind'];
    readonly look: Look;
    readonly dropLines: number;
    readonly afterDrop: boolean;
  };
  readonly sceneBreak: {
    readonly mark: 'ornament' | 'space';
    readonly shown: BreakMark;
    /** Lines of a break that is space alone. */
    readonly lines: number;
  };
  readonly subheads: readonly [Look, Look, Look];
  readonly subheadSpace: DesignSettings['subheadSpace'];
}

export interface PrintConditions {
  /** Pages of the book block as known so far: they decide the gutter (FACTS M-05). */
  readonly pages: number;
  readonly press?: PressProfile;
}

/** Leadings from the last line down to a folio at the foot: a spread may run a line long and still leave it clear. */
const FOLIO_DROP = 2.4;
/** From heads and folios to the trim: the 0.375 inches that presses ask for in a book with bleed (FACTS 4.2), and a hair. */
const CLEAR = 27.1;
/** A head goes up no further than this share of what is above the text, so that it stands clear of the trim. */
const HIGHEST_HEAD = 0.4;
/** How far letters reach up from their baseline and figures down, as shares of the size. */
const ASCENT = 0.7;
const DESCENT = 0.25;

/** The design of a print edition at a page count. */
export function resolveForPrint(
  settings: DressedSettings,
  edition: PrintEdition,
  conditions: PrintConditions,
): PrintDesign {
  const frame = pageFrame(settings, edition.trim, conditions.pages, conditions.press ?? defaultPress);
  const resolver = new PrintResolver(settings, frame);
  return resolver.design(edition);
}

class PrintResolver {
  private readonly text: Look;
  private readonly base: LookBase;

  constructor(
    private readonly settings: DressedSettings,
    private readonly frame: PageFrame,
  ) {
    const { family, features, justify, hyphenate } = settings.text;
    this.text = {
      family,
      size: frame.size,
      leading: frame.leading,
      italic: false,
      bold: false,
      letterspace: 0,
      wordSpace: settings.text.wordSpace,
      letters: 'asTyped',
      features: featuresFor(features, 'asTyped'),
      align: justify ? 'justify' : 'start',
      hyphenate,
    };
    this.base = { ...this.text, family: settings.display.family };
  }

  design(edition: PrintEdition): PrintDesign {
    const { settings, frame, text } = this;
    const { measure, lines } = frame;
    return {
      id: settings.id,
      key: JSON.stringify([settings, frame.size, frame.leading, measure, lines, edition.notes]),
      frame,
      text,
      indent: settings.text.indent * frame.size,
      paragraphs: settings.text.paragraphs,
      flushFirst: settings.text.flushFirst,
      hang: settings.text.hang,
      scaling: settings.text.scaling,
      opener: this.opener(settings.opener),
      part: this.opener(settings.part),
      matter: this.opener(settings.matter),
      recto: settings.recto,
      leadIn: this.leadIn(),
      sceneBreak: {
        mark: settings.sceneBreak.mark,
        shown: settings.breakMark ?? drawnMark(settings.sceneBreak.ornament),
        lines: settings.sceneBreak.lines,
      },
      subheads: [this.subhead(0), this.subhead(1), this.subhead(2)],
      subheadSpace: settings.subheadSpace,
      ...this.furniture(),
      ...this.display(),
      ...this.blocks(),
    };
  }

  private opener(setting: OpenerSetting): PrintOpener {
    return {
      sink: Math.round(setting.sink * this.frame.lines),
      align: setting.align,
      number: setting.number,
      showLabel: setting.showLabel,
      numberLook: displayLook(this.base, setting.numberLook, setting.align),
      loneNumberLook: displayLook(this.base, setting.loneNumberLook, setting.align),
      titleLook: displayLook(this.base, setting.titleLook, setting.align),
      subtitleLook: displayLook(this.base, setting.subtitleLook, setting.align),
      ornament: setting.ornament === null ? null : ornament(setting.ornament),
      ornamentPlace: setting.ornamentPlace,
      spaceAfter: setting.spaceAfter,
    };
  }

  private subhead(level: 0 | 1 | 2): Look {
    return displayLook(this.base, this.settings.subheads[level], this.settings.subheadAlign);
  }

  private leadIn(): PrintDesign['leadIn'] {
    const look = { ...this.text, letters: 'smallCapitals' as const, letterspace: this.settings.leadIn.spacing };
    const { kind, dropLines, afterDrop } = this.settings.leadIn;
    return { kind, dropLines, afterDrop, look: { ...look, features: featuresFor(this.text.features, look.letters) } };
  }

  private furniture(): PrintFurniture {
    const { settings, frame } = this;
    const { firstBaseline, leading, lines, size, trim } = frame;
    const lastBaseline = firstBaseline + (lines - 1) * leading;
    const look = (setting: DesignSettings['heads']['look']): Look => displayLook(this.base, setting, 'center');
    return {
      heads: {
        ...settings.heads,
        look: look(settings.heads.look),
        baseline: Math.max(
          firstBaseline - Math.min(leading * settings.heads.distance, firstBaseline * HIGHEST_HEAD),
          CLEAR + settings.heads.look.size * size * ASCENT,
        ),
      },
      folios: {
        ...settings.folios,
        look: look({ size: settings.folios.size, letters: 'asTyped', italic: false, bold: false, letterspace: 0.02 }),
        footBaseline: Math.min(
          lastBaseline + leading * FOLIO_DROP,
          Math.max(lastBaseline + leading, trim.height - CLEAR - settings.folios.size * size * DESCENT),
        ),
      },
    };
  }

  private display(): PrintDisplay {
    const { settings, base, text } = this;
    const { align, title, subtitle, author, publisher } = settings.titlePage;
    return {
      titlePage: {
        align,
        sink: Math.round(settings.titlePage.sink * this.frame.lines),
        title: displayLook(base, title, align),
        subtitle: displayLook(base, subtitle, align),
        author: displayLook(base, author, align),
        publisher: displayLook(base, publisher, align),
        ornament: settings.titlePage.ornament === null ? null : ornament(settings.titlePage.ornament),
      },
      halfTitle: displayLook(base, settings.halfTitle, align),
      dedication: {
        ...text,
        italic: settings.dedication.italic,
        align: settings.dedication.align,
        hyphenate: false,
      },
      dedicationSink: Math.round(settings.dedication.sink * this.frame.lines),
      contents: {
        leaders: settings.contents.leaders,
        entry: { ...text, align: 'start', hyphenate: false },
        part: displayLook(base, settings.contents.part, 'start'),
      },
    };
  }

  private blocks(): PrintBlocks {
    const { settings, text, frame } = this;
    const { size, leading } = frame;
    const scaled = (share: number, lead = 1): Look => ({ ...text, size: size * share, leading: leading * lead });
    const { quotation, attribution, epigraph, setOff, verse, tables, notes, caption, imprint } = settings;
    return {
      quotation: { look: { ...scaled(quotation.size), italic: quotation.italic }, indent: quotation.indent * size },
      epigraph: { look: { ...scaled(epigraph.size), italic: epigraph.italic }, indent: epigraph.indent * size },
      attribution: {
        ...scaled(quotation.size),
        italic: attribution.italic,
        align: attribution.align,
        hyphenate: false,
      },
      verse: {
        look: verse.size === 1 && !verse.italic ? text : { ...scaled(verse.size), italic: verse.italic },
        indent: verse.indent === 'longestLine' ? verse.indent : verse.indent * size,
        step: verse.step * size,
        turnover: verse.turnover * size,
      },
      setOff: { look: { ...text, italic: setOff.italic }, indent: setOff.indent * size },
      listIndent: size * settings.lists.indent,
      tables: { look: tables.size === 1 ? text : scaled(tables.size), rules: tables.rules },
      notes: { look: scaled(notes.size, notes.leading), rule: notes.rule },
      caption: {
        ...scaled(caption.size),
        italic: caption.italic,
        align: caption.align,
        hyphenate: false,
      },
      imprint: { ...scaled(imprint.size, imprint.leading), align: imprint.align, hyphenate: false },
      imprintPlace: imprint.place,
    };
  }
}
