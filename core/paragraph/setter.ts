/** Sets paragraphs: styled text in, broken lines out, which can place themselves on a page. */
import type { Points } from '#base';
import type { PageBuilder } from '#page';
import { type Breakable, bestBreaks, breaksAtAnyPrice, breaksByLength, Ladder } from './breaker/ladder.ts';
import type { LineWidths } from './breaker/place.ts';
import { WIDTH } from './breaker/places.ts';
import { type BreakableWords, BreakSearch, OVERFULL, type Solution } from './breaker/search.ts';
import { SetParagraph, type SetParts } from './setParagraph.ts';
import { BREAK_SETTINGS, type BreakSettings } from './settings.ts';
import { type Copy, isSpace, missingIn, spaceWidth, trackingAt, wordAt } from './text/copy.ts';
import { FountRack } from './text/fount.ts';
import { CopyReader } from './text/reader.ts';
import { NATURAL, writeLine } from './text/setLine.ts';
import { openStretch } from './text/stretch.ts';
import { NONE } from './text/wordCase.ts';
import type {
  BreakRequest,
  BrokenParagraph,
  LengthChoice,
  LengthsRequest,
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

/** What a setter knows of one paragraph: its copy, and how it was set to the latest shapes. */
class Prepared {
  readonly jobs = new Map<string, Job>();
  /** How it was set on one line, which is so wherever it has room for that. */
  single: { readonly solution: Solution; readonly hang: boolean } | null = null;

  /** @param wordsUpTo all its words stand before this one; 0 where they have been shaped. */
  constructor(
    readonly setter: Setter,
    readonly copy: Copy,
    readonly wordsUpTo: number,
  ) {}
}

/** What a shape comes to, whatever is set to it: its key, and its lines for text of an em, which justified ones do not ask. */
interface KnownShape {
  readonly key: string;
  em: number;
  place: LineWidths;
}

/** A paragraph to be set to one shape. */
class Job implements Breakable, SetParts {
  best: SetParagraph | null = null;
  /** The solutions of other lengths that were last asked for. */
  others: { readonly most: number; readonly farthest: number; readonly found: readonly Solution[] } | null = null;
  readonly isLong: boolean;
  private byLooseness: Map<number, BrokenParagraph> | null = null;

  constructor(
    private readonly prepared: Prepared,
    readonly shape: ParagraphShape,
    readonly place: LineWidths,
    private readonly ladder: Ladder,
  ) {
    this.isLong = prepared.copy.count >= LONG;
  }

  get copy(): Copy {
    return this.prepared.copy;
  }

  open(words: BreakableWords): void {
    this.ladder.search.open(this.copy, { hang: this.hang, words });
  }

  /** Finds the best breaks. */
  solve(): Solution {
    const { single } = this.prepared;
    if (single && single.hang === this.hang && this.holds(single.solution)) return single.solution;
    const found = this.search();
    if (found.lines !== 1 || !this.holds(found)) return found;
    // What its stretch adds is nothing, and differs by rounding from measure to measure.
    const solution = { ...found, demerits: this.settings.linePenalty ** 2 };
    this.prepared.single = { solution, hang: this.hang };
    return solution;
  }

  private search(): Solution {
    const solution = bestBreaks(this.ladder, this);
    if (solution.demerits < OVERFULL) return solution;
    // Breaks words wherever it takes to keep all lines inside the measure.
    this.open('torn');
    return breaksAtAnyPrice(this.ladder, this);
  }

  /** Whether a solution of one line has room as it is: no other has fewer demerits then. */
  private holds({ ends }: Solution): boolean {
    return ends[WIDTH]! <= this.place.widths[0]!;
  }

  private get hang(): boolean {
    return hangsOut(this.copy, this.shape);
  }

  get settings(): BreakSettings {
    return this.ladder.settings;
  }

  ofLooseness(looseness: number, make: () => BrokenParagraph): BrokenParagraph {
    this.byLooseness ??= new Map();
    const known = this.byLooseness.get(looseness) ?? make();
    this.byLooseness.set(looseness, known);
    return known;
  }
}

/** Lengths offered: within so many lines of the best. */
const FARTHEST = 2;
/** Words and spaces from which two of three paragraphs need divided words: it does not pay to list the others apart. */
const LONG = 300;
/** Shapes that a paragraph remembers. */
const KEPT_SHAPES = 4;

class Setter implements ParagraphSetter {
  private readonly settings: BreakSettings;
  private readonly reader: CopyReader;
  private readonly ladder: Ladder;
  private readonly shapes = new WeakMap<ParagraphShape, KnownShape>();
  // The shape that was asked for last: it mostly comes again.
  private lastShape: ParagraphShape | null = null;
  private lastKnown: KnownShape | null = null;
  private readonly shapesAside: () => boolean;

  constructor({ library, hyphenator, settings }: SetterParts) {
    this.settings = { ...BREAK_SETTINGS, ...settings };
    this.reader = new CopyReader(new FountRack(library, hyphenator));
    this.shapesAside = () => library.shapesAside;
    this.ladder = new Ladder(new BreakSearch(this.settings), this.settings);
  }

  break({ text, shape, looseness }: BreakRequest): BrokenParagraph {
    const job = this.job(text, shape);
    if (looseness === 0) return this.best(job);
    return job.ofLooseness(looseness, () => this.withLooseness(job, looseness));
  }

  countLines(text: StyledText, shape: ParagraphShape): number {
    const job = this.newJob(this.prepare(text), shape);
    const { demerits, lines } = bestBreaks(this.ladder, job);
    return demerits < OVERFULL ? lines : Number.POSITIVE_INFINITY;
  }

  lengths({ text, shape, most }: LengthsRequest): readonly LengthChoice[] {
    const job = this.job(text, shape);
    const best = this.best(job);
    const { demerits } = best;
    const choices: LengthChoice[] = [{ looseness: 0, lines: best.lineCount, demerits, set: () => best }];
    for (const solution of this.others(job, most, FARTHEST)) {
      const { lines, demerits } = solution;
      const looseness = lines - best.lineCount;
      if (looseness !== 0) choices.push({ looseness, lines, demerits, set: () => new SetParagraph(job, solution) });
    }
    return choices.sort((a, b) => a.looseness - b.looseness);
  }

  line(text: StyledText, size: Points): SingleLine {
    const { copy } = this.prepare(text);
    const stretch = { ...openStretch(), copy, toPiece: copy.count };
    return {
      width: naturalWidth(copy) * size,
      missing: missingIn(copy),
      place(x: Points, y: Points, page: PageBuilder, placing: Placing = {}) {
        writeLine({ stretch, spacing: NATURAL, size }, x, y, page, placing);
      },
    };
  }

  readAhead(texts: Iterable<StyledText>): void {
    if (!this.shapesAside()) return;
    for (const text of texts) {
      if (this.known(text)) continue;
      const copy = this.reader.readAhead(text);
      text.kept = new Prepared(this, copy, copy.words.count);
      copy.words.shapeAside();
    }
  }

  keepLists(text: StyledText, shape: ParagraphShape): boolean {
    const { copy } = this.prepare(text);
    return this.ladder.search.keepLists(copy, hangsOut(copy, shape));
  }

  private prepare(text: StyledText): Prepared {
    const known = this.known(text);
    if (known) {
      known.copy.words.finishUpTo(known.wordsUpTo);
      return known;
    }
    const prepared = new Prepared(this, this.reader.read(text), 0);
    text.kept = prepared;
    return prepared;
  }

  private known({ kept }: StyledText): Prepared | null {
    return kept instanceof Prepared && kept.setter === this ? kept : null;
  }

  private job(text: StyledText, shape: ParagraphShape): Job {
    const prepared = this.prepare(text);
    const { jobs } = prepared;
    const { key } = this.knownShape(shape);
    const known = jobs.get(key);
    if (known) return known;
    if (jobs.size >= KEPT_SHAPES) jobs.delete(jobs.keys().next().value!);
    const job = this.newJob(prepared, shape);
    jobs.set(key, job);
    return job;
  }

  private newJob(prepared: Prepared, shape: ParagraphShape): Job {
    const known = this.knownShape(shape);
    if (shape.align !== 'justify') {
      const em = emOf(prepared.copy);
      if (em !== known.em) known.place = { ...known.place, ragged: this.settings.raggedStretch * em };
      known.em = em;
    }
    return new Job(prepared, shape, known.place, this.ladder);
  }

  /** What is known of a shape, found once where the very object comes again: most of a book has one of two. */
  private knownShape(shape: ParagraphShape): KnownShape {
    if (shape === this.lastShape) return this.lastKnown!;
    let known = this.shapes.get(shape);
    if (!known) {
      known = { key: keyOf(shape), em: 0, place: placeOf(shape) };
      this.shapes.set(shape, known);
    }
    this.lastShape = shape;
    this.lastKnown = known;
    return known;
  }

  private best(job: Job): SetParagraph {
    job.best ??= new SetParagraph(job, job.solve());
    return job.best;
  }

  private withLooseness(job: Job, looseness: number): BrokenParagraph {
    const best = this.best(job);
    const wanted = best.lineCount + looseness;
    let nearest: Solution | null = null;
    let distance = Math.abs(looseness);
    for (const solution of this.others(job, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)) {
      const off = Math.abs(solution.lines - wanted);
      if (off < distance) [nearest, distance] = [solution, off];
    }
    return nearest ? new SetParagraph(job, nearest) : best;
  }

  /** The best solution of each number of lines that is so far from the best of all, or nearer. */
  private others(job: Job, most: number, farthest: number): readonly Solution[] {
    if (job.others?.most === most && job.others.farthest === farthest) return job.others.found;
    const best = this.best(job).lineCount;
    const wanted = (lines: number): boolean => Math.abs(lines - best) <= farthest;
    const found = breaksByLength(this.ladder, job, { most, wanted });
    job.others = { most, farthest, found };
    return found;
  }
}

/** Lines that run to the left do not hang. */
function hangsOut({ directions }: Copy, { hang }: ParagraphShape): boolean {
  return hang && directions?.base !== 1;
}

/** Where lines of a shape stand; ragged ones still want their stretch. */
function placeOf(shape: ParagraphShape): LineWidths {
  const { scaling, lastLineMin, size, align } = shape;
  const own = align === 'justify' ? scaling : 0;
  return { widths: widthsOf(shape), scaling: own, ragged: 0, lastLineMin: lastLineMin / size };
}

/** Widths of the lines that differ, and of all the rest at the end, as shares of the text size. */
function widthsOf({ size, measure, indentFirst, indentRest, notch }: ParagraphShape): Float64Array {
  const notched = notch ? notch.lines : 0;
  const widths = new Float64Array(Math.max(1, notched) + 1);
  for (let line = 0; line < widths.length; line++) {
    const indent = line === 0 ? indentFirst : indentRest;
    widths[line] = (measure - indent - (notch && line < notched ? notch.width : 0)) / size;
  }
  return widths;
}

function keyOf(shape: ParagraphShape): string {
  const { size, measure, indentFirst, indentRest, notch, align, hang, scaling, lastLineMin } = shape;
  const notched = notch ? `${notch.lines}x${notch.width}` : '';
  return `${size}|${measure}|${indentFirst}|${indentRest}|${notched}|${align}|${hang}|${scaling}|${lastLineMin}`;
}

function emOf(copy: Copy): number {
  for (const span of copy.text.spans) if (span.kind === 'text') return span.style.size;
  return 0;
}

/** Width of copy on one line as a share of the text size, without the letterspace after its last letter. */
function naturalWidth(copy: Copy): number {
  let width = 0;
  for (let index = 0; index < copy.count; index++) {
    const word = wordAt(copy, index);
    if (word !== NONE) width += copy.words.widthOf(word);
    else if (isSpace(copy, index)) width += spaceWidth(copy, index);
  }
  return width - trackingAt(copy, copy.count - 1);
}
