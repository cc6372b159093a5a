/**
 * One glyph run on its way to the text operators. In: a stretch of a page's pools; out: codes, adjustments and spans with a
 * text of their own. The glyphs stand within a hundredth of a point of where the page says: each adjustment carries the
 * rounding of those before it.
 */
import type { GlyphRun, Page } from '#page';
import type { FaceText } from './faceText.ts';

/** Farthest that a glyph may stand from its place, in points. */
const TOLERANCE = 0.005;

/** A gap inside a word, in thousandths of the font size, beyond which readers see two words (poppler's figure is 100). */
const WIDE_GAP = 80;

/** Characters that show nothing, such as joiners and the soft hyphen. */
const INVISIBLE = /^\p{Default_Ignorable_Code_Point}+$/u;

/** The operators that a run needs. */
export interface GlyphOperators {
  /** A glyph's code inside the current string. */
  glyph(glyph: number): void;
  /** The codes of glyphs, from the first to before the last. */
  glyphs(glyphs: Uint16Array, from: number, to: number): void;
  /** Moves the pen left by thousandths of the font size, given in thousandths of those. */
  adjust(thousandths: number): void;
  /** Raises the glyphs that follow, in points, y up. */
  setRise(rise: number): void;
  /** Begins a span that reads as `text`, whatever its glyphs read as (ISO 32000-1, 14.9.4). */
  beginActualText(text: string): void;
  endActualText(): void;
}

/** Writes one run. */
export class RunWriter {
  /** Where the reader's pen stands to the left of where it should, in points. */
  private lag = 0;
  /** Points to a thousandth of the font size. */
  private readonly unit: number;
  private readonly step: number;
  private readonly last: number;
  private readonly leftward: boolean;

  constructor(
    private readonly page: Page,
    private readonly run: GlyphRun,
    private readonly face: FaceText,
    private readonly out: GlyphOperators,
  ) {
    this.unit = ((Math.round(run.size * 1000) / 1000) * (Math.round((run.scale ?? 1) * 100_000) / 100_000)) / 1000;
    // Whole thousandths of the size are fine enough for text sizes, tenths for display.
    this.step = this.unit * 0.5 <= TOLERANCE ? 1 : 0.1;
    this.last = run.start + run.count - 1;
    this.leftward = page.clusters[run.start]! > page.clusters[this.last]!;
  }

  /** `lag`: how far the line's start stands to the left of the run's, in points. */
  write(lag: number): void {
    this.lag = lag;
    if (this.isLetterspaced()) this.wholeWords();
    else this.glyphs(this.run.start, this.last + 1);
  }

  /** Glyph by glyph, from the first to before the last. */
  private glyphs(from: number, to: number): void {
    const simple = !this.leftward && this.page.offsets === null;
    for (let i = from; i < to; ) {
      if (simple) i = this.plainGlyphs(i, to);
      if (i === to) return;
      const next = this.clusterStop(i);
      this.cluster(i, next);
      i = next;
    }
  }

  /** Nearly all glyphs: one for one character, on the baseline. Gives the first that is not so, or `to`. */
  private plainGlyphs(from: number, to: number): number {
    for (let at = from; at < to; ) {
      if (!this.isPlain(at)) return at;
      if (this.lag >= TOLERANCE || this.lag <= -TOLERANCE) this.catchUp();
      const stop = this.stretchEnd(at, to);
      this.out.glyphs(this.page.glyphs, at, stop);
      at = stop;
    }
    return to;
  }

  private isPlain(i: number): boolean {
    const { clusters, glyphs } = this.page;
    const { text } = this.run;
    const begin = clusters[i]!;
    const end = i < this.last ? clusters[i + 1]! : text.length;
    return end === begin + 1 && this.face.readsAs(glyphs[i]!, text.charCodeAt(begin));
  }

  /**
   * Where a stretch of plain glyphs ends that needs no adjustment; the first is known to be plain. Notes how far the pen
   * has come. This loop runs a million times in a novel: it reads the face's tables itself and calls next to nothing.
   */
  private stretchEnd(from: number, to: number): number {
    const { clusters, glyphs, advances } = this.page;
    const { face, unit, last } = this;
    const { single, widths, used } = face;
    const { text } = this.run;
    let { lag } = this;
    let i = from;
    do {
      const begin = clusters[i]!;
      const end = i < last ? clusters[i + 1]! : text.length;
      const glyph = glyphs[i]!;
      if (end !== begin + 1) break;
      const letter = text.charCodeAt(begin);
      if (single[glyph] !== letter && !face.readsAs(glyph, letter)) break;
      used[glyph] = 1;
      lag += advances[i]! - (widths[glyph]! || face.widthOf(glyph)) * unit;
      i++;
    } while (i < to && lag < TOLERANCE && lag > -TOLERANCE);
    this.lag = lag;
    return i;
  }

  /** The first glyph after the cluster that begins at `i`. */
  private clusterStop(i: number): number {
    const { clusters } = this.page;
    let next = i + 1;
    while (next <= this.last && clusters[next] === clusters[i]) next++;
    return next;
  }

  /** Whether a letter stands so far from the next that a reader would see two words. */
  private isLetterspaced(): boolean {
    if (this.leftward) return false;
    const { glyphs, advances } = this.page;
    const { face, unit, last } = this;
    const { widths } = face;
    for (let i = this.run.start; i < last; i++) {
      const glyph = glyphs[i]!;
      const width = widths[glyph]! || face.widthOf(glyph);
      if (advances[i]! > (width + WIDE_GAP) * unit && !face.isSpace(glyph)) return true;
    }
    return false;
  }

  private isWide(i: number): boolean {
    const glyph = this.page.glyphs[i]!;
    return this.page.advances[i]! > (this.face.widthOf(glyph) + WIDE_GAP) * this.unit && !this.face.isSpace(glyph);
  }

  /** Letterspaced words are spans that read as one. */
  private wholeWords(): void {
    const { glyphs, clusters } = this.page;
    for (let i = this.run.start; i <= this.last; ) {
      let stop = i;
      let wide = false;
      while (stop <= this.last && !this.face.isSpace(glyphs[stop]!)) {
        wide = wide || this.isWide(stop);
        stop = this.clusterStop(stop);
      }
      if (wide) this.span(i, stop, this.run.text.slice(clusters[i]!, this.clusterEnd(i, stop)));
      else this.glyphs(i, stop);
      if (stop <= this.last) this.glyphs(stop, stop + 1);
      i = stop + 1;
    }
  }

  private cluster(from: number, to: number): void {
    const text = this.run.text.slice(this.page.clusters[from]!, this.clusterEnd(from, to));
    if (this.showsNothing(from, to, text)) return;
    if (this.readsPlainly(from, to, text)) for (let i = from; i < to; i++) this.set(i);
    else this.span(from, to, text);
  }

  /** Joiners and the like are set with the space's glyph and no width; a reader would take that for a space. */
  private showsNothing(from: number, to: number, text: string): boolean {
    const { glyphs, advances } = this.page;
    if (to !== from + 1 || !this.face.isSpace(glyphs[from]!) || !INVISIBLE.test(text)) return false;
    this.lag += advances[from]!;
    return true;
  }

  /** Text runs against the page's order where it is read from right to left. */
  private clusterEnd(from: number, to: number): number {
    const { clusters } = this.page;
    if (this.leftward) return from > this.run.start ? clusters[from - 1]! : this.run.text.length;
    return to <= this.last ? clusters[to]! : this.run.text.length;
  }

  /** Whether glyph by glyph the readings give the cluster's text. */
  private readsPlainly(from: number, to: number, text: string): boolean {
    const { glyphs } = this.page;
    if (to === from + 1) return text !== '' && this.face.readsAsText(glyphs[from]!, text);
    if (this.leftward || to - from !== text.length) return false;
    let plain = true;
    for (let i = from; i < to; i++) plain = this.face.readsAs(glyphs[i]!, text.charCodeAt(i - from)) && plain;
    return plain;
  }

  private span(from: number, to: number, text: string): void {
    this.catchUp();
    this.out.beginActualText(text);
    for (let i = from; i < to; i++) {
      this.face.use(this.page.glyphs[i]!);
      this.set(i);
    }
    this.out.endActualText();
  }

  private set(i: number): void {
    const { offsets } = this.page;
    const dx = offsets ? offsets[i * 2]! : 0;
    const dy = offsets ? offsets[i * 2 + 1]! : 0;
    this.lag += dx;
    this.out.setRise(-dy);
    this.setPlain(i);
    this.lag -= dx;
  }

  private setPlain(i: number): void {
    const { glyphs, advances } = this.page;
    const glyph = glyphs[i]!;
    if (this.lag >= TOLERANCE || this.lag <= -TOLERANCE) this.catchUp();
    this.out.glyph(glyph);
    this.lag += advances[i]! - this.face.widthOf(glyph) * this.unit;
  }

  /** Moves the reader's pen where it has fallen behind or run ahead by more than the tolerance. */
  private catchUp(): void {
    const steps = Math.round(-this.lag / this.unit / this.step);
    if (steps === 0) return;
    const adjustment = steps * this.step;
    this.out.adjust(Math.round(adjustment * 1000));
    this.lag += adjustment * this.unit;
  }
}
