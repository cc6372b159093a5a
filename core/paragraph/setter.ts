/** Sets paragraphs: styled text in, broken lines out, which can place themselves on a page. */
import type { Points } from '#base';
import type { PageBuilder } from '#page';
import { bestBreaks, breaksByLength, type Ladder } from './breaker/ladder.ts';
import type { LineWidths } from './breaker/place.ts';
import { BreakSearch, OVERFULL, type Solution } from './breaker/search.ts';
import { SetParagraph } from './setParagraph.ts';
import { BREAK_SETTINGS, type BreakSettings } from './settings.ts';
import { type Copy, CopyReader, spaceWidth, wordAt } from './text/copy.ts';
import { FountRack } from './text/fount.ts';
import { type Galley, GalleyBuilder, type GalleyOptions } from './text/galley.ts';
import { LineWriter, NATURAL } from './text/setLine.ts';
import type {
  BreakRequest,
  BrokenParagraph,
  LengthChoice,
  ParagraphSetter,
  ParagraphShape,
  Placing,
  SetterParts,
  SingleLine,
  StyledText,
} from './types.ts';

/** A setter over loaded fonts and hyphenators. */
export function createSetter(parts: SetterParts): ParagraphSetter {
  return new Setter(parts);
}

/** All that is known of one paragraph. */
interface Prepared {
  readonly copy: Copy;
  readonly galleys: Map<string, Galley>;
  /** By shape. */
  readonly broken: Map<string, ShapeResults>;
}

interface ShapeResults {
  readonly place: LineWidths;
  best: SetParagraph | null;
  lengths: readonly Way[] | null;
  readonly byLooseness: Map<number, SetParagraph>;
}

/** A galley and the breaks chosen from it. */
interface Way {
  readonly galley: Galley;
  readonly solution: Solution;
}

/** Lengths offered: within so many lines of the best. */
const FARTHEST = 2;

class Setter implements ParagraphSetter {
  private readonly settings: BreakSettings;
  private readonly reader: CopyReader;
  private readonly ladder: Ladder;
  private readonly builder: GalleyBuilder;
  private readonly prepared = new WeakMap<StyledText, Prepared>();

  constructor({ library, hyphenator, settings }: SetterParts) {
    this.settings = { ...BREAK_SETTINGS, ...settings };
    this.reader = new CopyReader(new FountRack(library, hyphenator));
    this.ladder = { search: new BreakSearch(this.settings), settings: this.settings };
    this.builder = new GalleyBuilder(this.settings);
  }

  break({ text, shape, looseness }: BreakRequest): BrokenParagraph {
    const prepared = this.prepare(text);
    const results = this.resultsOf(prepared, shape);
    const best = this.best(prepared, shape, results);
    if (looseness === 0) return best;
    const known = results.byLooseness.get(looseness);
    if (known) return known;
    const other = this.withLooseness(prepared, shape, results, best, looseness);
    results.byLooseness.set(looseness, other);
    return other;
  }

  lengths(text: StyledText, shape: ParagraphShape): readonly LengthChoice[] {
    const prepared = this.prepare(text);
    const results = this.resultsOf(prepared, shape);
    const best = this.best(prepared, shape, results);
    const lines = best.lines.length;
    const choices = new Map([[0, { looseness: 0, lines, demerits: best.demerits }]]);
    for (const { solution } of this.ways(prepared, shape, results)) {
      const looseness = solution.breaks.length - lines;
      if (looseness === 0 || Math.abs(looseness) > FARTHEST) continue;
      choices.set(looseness, { looseness, lines: solution.breaks.length, demerits: solution.demerits });
    }
    return [...choices.values()].sort((a, b) => a.looseness - b.looseness);
  }

  line(text: StyledText): SingleLine {
    const { copy } = this.prepare(text);
    const stretch = { copy, fromPiece: 0, fromCut: 0, toPiece: copy.pieces.length, toCut: 0, divided: false };
    return {
      width: naturalWidth(copy),
      missing: copy.missing,
      place(x: Points, y: Points, page: PageBuilder, placing: Placing = {}) {
        new LineWriter(stretch, NATURAL, page, placing, x, y).write();
      },
    };
  }

  private prepare(text: StyledText): Prepared {
    let prepared = this.prepared.get(text);
    if (!prepared) {
      prepared = { copy: this.reader.read(text), galleys: new Map(), broken: new Map() };
      this.prepared.set(text, prepared);
    }
    return prepared;
  }

  private resultsOf(prepared: Prepared, shape: ParagraphShape): ShapeResults {
    const key = keyOf(shape);
    let results = prepared.broken.get(key);
    if (!results) {
      const place = this.placeOf(prepared.copy, shape);
      results = { place, best: null, lengths: null, byLooseness: new Map() };
      prepared.broken.set(key, results);
    }
    return results;
  }

  private best(prepared: Prepared, shape: ParagraphShape, results: ShapeResults): SetParagraph {
    if (results.best) return results.best;
    const { place } = results;
    const galley = this.galley(prepared, { hang: shape.hang, tear: false });
    let way: Way = { galley, solution: bestBreaks(this.ladder, galley.list, place) };
    if (way.solution.demerits >= OVERFULL) way = this.tear(prepared, shape, place);
    results.best = this.paragraph(prepared.copy, shape, place, way);
    return results.best;
  }

  /** Breaks words wherever it takes to keep all lines inside the measure. */
  private tear(prepared: Prepared, shape: ParagraphShape, place: LineWidths): Way {
    const galley = this.galley(prepared, { hang: shape.hang, tear: true });
    const search = { tolerance: Infinity, divide: true, rescue: true, everyLength: false };
    const [solution] = this.ladder.search.run(galley.list, place, search);
    if (!solution) throw new RangeError(`no breaks in block ${prepared.copy.text.block}`);
    return { galley, solution };
  }

  private withLooseness(
    prepared: Prepared,
    shape: ParagraphShape,
    results: ShapeResults,
    best: SetParagraph,
    looseness: number,
  ): SetParagraph {
    const wanted = best.lines.length + looseness;
    let nearest: Way | null = null;
    let distance = Math.abs(looseness);
    for (const way of this.ways(prepared, shape, results)) {
      const off = Math.abs(way.solution.breaks.length - wanted);
      if (off < distance) [nearest, distance] = [way, off];
    }
    return nearest ? this.paragraph(prepared.copy, shape, results.place, nearest) : best;
  }

  private ways(prepared: Prepared, shape: ParagraphShape, results: ShapeResults): readonly Way[] {
    if (results.lengths) return results.lengths;
    const galley = this.galley(prepared, { hang: shape.hang, tear: false });
    const solutions = breaksByLength(this.ladder, galley.list, results.place);
    results.lengths = solutions.map((solution) => ({ galley, solution }));
    return results.lengths;
  }

  private galley(prepared: Prepared, options: GalleyOptions): Galley {
    const key = `${options.hang}|${options.tear}`;
    let galley = prepared.galleys.get(key);
    if (!galley) {
      galley = this.builder.build(prepared.copy, options);
      prepared.galleys.set(key, galley);
    }
    return galley;
  }

  private paragraph(copy: Copy, shape: ParagraphShape, place: LineWidths, { galley, solution }: Way): SetParagraph {
    return new SetParagraph({ copy, shape, place, galley, solution, settings: this.settings });
  }

  private placeOf(copy: Copy, shape: ParagraphShape): LineWidths {
    const justified = shape.align === 'justify';
    return {
      widths: widthsOf(shape),
      scaling: justified ? shape.scaling : 0,
      ragged: justified ? 0 : this.settings.raggedStretch * emOf(copy),
      lastLineMin: shape.lastLineMin,
    };
  }
}

/** Widths of the lines that differ, and of all the rest at the end. */
function widthsOf({ measure, indentFirst, indentRest, notch }: ParagraphShape): Float64Array {
  const notched = notch ? notch.lines : 0;
  const widths = new Float64Array(Math.max(1, notched) + 1);
  for (let line = 0; line < widths.length; line++) {
    const indent = line === 0 ? indentFirst : indentRest;
    widths[line] = measure - indent - (notch && line < notched ? notch.width : 0);
  }
  return widths;
}

function keyOf({ measure, indentFirst, indentRest, notch, align, hang, scaling, lastLineMin }: ParagraphShape): string {
  const notched = notch ? `${notch.lines}x${notch.width}` : '';
  return `${measure}|${indentFirst}|${indentRest}|${notched}|${align}|${hang}|${scaling}|${lastLineMin}`;
}

function emOf(copy: Copy): number {
  for (const span of copy.text.spans) if (span.kind === 'text') return span.style.size;
  return 0;
}

/** Width of copy on one line, without the letterspace after its last letter. */
function naturalWidth(copy: Copy): number {
  let width = 0;
  copy.pieces.forEach((piece, index) => {
    if (piece.kind === 'space') width += spaceWidth(copy, index, piece);
    else width += wordAt(copy, index)?.width ?? 0;
  });
  return width - (wordAt(copy, copy.pieces.length - 1)?.fount.tracking ?? 0);
}
