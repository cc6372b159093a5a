/**
 * Glyph runs as text operators (ISO 32000-1, 9.4). In: runs of a page's pools; out: bytes in a sink. A run's glyphs stand
 * within a hundredth of a point of where the page says: each adjustment carries the rounding of those before it.
 */
import type { FaceId } from '#base';
import type { GlyphRun, Page } from '#page';
import type { FaceText } from './faceText.ts';
import type { ByteSink } from './sink.ts';

/** Farthest that a glyph may stand from its place, in points. */
const TOLERANCE = 0.005;

/** Characters that show nothing, such as joiners and the soft hyphen. */
const INVISIBLE = /^\p{Default_Ignorable_Code_Point}+$/u;

export class TextWriter {
  private open = false;
  private face: FaceText | null = null;
  private size = 0;
  private scale = 1;
  private grey = 0;
  private rise = 0;
  /** Start of the current line, in whole thousandths of a point. */
  private lineX = 0;
  private lineY = 0;
  private inArray = false;
  private inString = false;

  constructor(
    private readonly sink: ByteSink,
    private readonly faceOf: (id: FaceId) => FaceText,
  ) {}

  /** Begins a page: the graphics state is fresh. */
  startPage(): void {
    this.open = false;
    this.face = null;
    this.size = 0;
    this.scale = 1;
    this.grey = 0;
    this.rise = 0;
  }

  /** Ends the text object, before anything that is not text. */
  close(): void {
    if (!this.open) return;
    this.sink.text('ET\n');
    this.open = false;
  }

  /** Sets the fill grey, 0 black. Shared with rules and paths. */
  fillGrey(grey: number): void {
    if (grey === this.grey) return;
    this.sink.thousandths(Math.round(grey * 1000));
    this.sink.text('g\n');
    this.grey = grey;
  }

  /** Writes a run; `left` and `bottom` are the trim's corner, `height` its height. */
  run(page: Page, run: GlyphRun, origin: { readonly x: number; readonly top: number }): void {
    this.startText();
    this.fillGrey(run.grey ?? 0);
    this.setFont(run);
    this.moveTo(Math.round((origin.x + run.x) * 1000), Math.round((origin.top - run.y) * 1000));
    if (run.furniture) this.sink.text('/Artifact BMC\n');
    new RunWriter(page, run, this.face!, this).write(run.x + origin.x - this.lineX / 1000);
    this.endArray();
    this.setRise(0);
    if (run.furniture) this.sink.text('EMC\n');
  }

  /** A glyph's code inside the current string. */
  glyph(glyph: number): void {
    if (!this.inString) {
      if (!this.inArray) this.sink.byte(0x5b);
      this.sink.byte(0x28);
      this.inArray = true;
      this.inString = true;
    }
    this.sink.stringUnit(glyph);
  }

  /** Moves the pen left by thousandths of the font size, given in thousandths of those. */
  adjust(thousandths: number): void {
    if (this.inString) this.sink.byte(0x29);
    else if (!this.inArray) this.sink.byte(0x5b);
    this.inArray = true;
    this.inString = false;
    this.sink.thousandths(thousandths);
  }

  endArray(): void {
    if (this.inString) this.sink.byte(0x29);
    if (this.inArray) this.sink.text(']TJ\n');
    this.inArray = false;
    this.inString = false;
  }

  /** Raises the glyphs that follow, in points, y up. */
  setRise(rise: number): void {
    if (rise === this.rise) return;
    this.endArray();
    this.sink.thousandths(Math.round(rise * 1000));
    this.sink.text('Ts\n');
    this.rise = rise;
  }

  /** Begins a span that reads as `text`, whatever its glyphs read as (ISO 32000-1, 14.9.4). */
  beginActualText(text: string): void {
    this.endArray();
    let hex = 'FEFF';
    for (let i = 0; i < text.length; i++) hex += text.charCodeAt(i).toString(16).toUpperCase().padStart(4, '0');
    this.sink.text(`/Span<</ActualText<${hex}>>>BDC\n`);
  }

  endActualText(): void {
    this.endArray();
    this.sink.text('EMC\n');
  }

  private startText(): void {
    if (this.open) return;
    this.sink.text('BT\n');
    this.open = true;
    this.lineX = 0;
    this.lineY = 0;
  }

  private setFont(run: GlyphRun): void {
    const face = this.faceOf(run.face);
    if (face !== this.face || run.size !== this.size) {
      this.sink.text(`/${face.resource} `);
      this.sink.thousandths(Math.round(run.size * 1000));
      this.sink.text('Tf\n');
      this.face = face;
      this.size = run.size;
    }
    const scale = run.scale ?? 1;
    if (scale === this.scale) return;
    this.sink.thousandths(Math.round(scale * 100_000));
    this.sink.text('Tz\n');
    this.scale = scale;
  }

  private moveTo(x: number, y: number): void {
    this.sink.thousandths(x - this.lineX);
    this.sink.thousandths(y - this.lineY);
    this.sink.text('Td\n');
    this.lineX = x;
    this.lineY = y;
  }
}

/** One run on its way to the sink: clusters become plain codes or spans with a text of their own. */
class RunWriter {
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
    private readonly out: TextWriter,
  ) {
    this.unit = ((Math.round(run.size * 1000) / 1000) * (Math.round((run.scale ?? 1) * 100_000) / 100_000)) / 1000;
    // Whole thousandths of the size are fine enough for text sizes, tenths for display.
    this.step = this.unit * 0.5 <= TOLERANCE ? 1 : 0.1;
    this.last = run.start + run.count - 1;
    this.leftward = page.clusters[run.start]! > page.clusters[this.last]!;
  }

  write(lag: number): void {
    this.lag = lag;
    const { clusters, glyphs, offsets } = this.page;
    const { text } = this.run;
    const simple = !this.leftward && offsets === null;
    for (let i = this.run.start; i <= this.last; ) {
      const begin = clusters[i]!;
      const end = i < this.last ? clusters[i + 1]! : text.length;
      // Nearly all glyphs: one for one character, on the baseline.
      if (simple && end === begin + 1 && this.face.readsAs(glyphs[i]!, text.charCodeAt(begin))) {
        this.setPlain(i);
        i++;
        continue;
      }
      let next = i + 1;
      while (next <= this.last && clusters[next] === begin) next++;
      this.cluster(i, next);
      i = next;
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
    const spoken = !this.run.furniture;
    this.catchUp();
    if (spoken) this.out.beginActualText(text);
    for (let i = from; i < to; i++) {
      this.face.use(this.page.glyphs[i]!);
      this.set(i);
    }
    if (spoken) this.out.endActualText();
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
