/**
 * Text operators (ISO 32000-1, 9.4) with the least change of state. In: runs of a page; out: bytes in a sink.
 */
import type { FaceId } from '#base';
import type { GlyphRun, Page } from '#page';
import type { FaceText } from './faceText.ts';
import { utf16Hex } from './objects.ts';
import { type GlyphOperators, RunWriter } from './runWriter.ts';
import type { ByteSink } from './sink.ts';

export class TextWriter implements GlyphOperators {
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

  /** Writes a run of a page whose trimmed top left corner is `origin` in the file's coordinates. */
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

  glyph(glyph: number): void {
    this.startString();
    this.sink.stringUnit(glyph);
  }

  glyphs(glyphs: Uint16Array, from: number, to: number): void {
    this.startString();
    this.sink.stringUnits(glyphs, from, to);
  }

  adjust(thousandths: number): void {
    // A string's bracket parts it from the number; two numbers need a space.
    if (this.inString) this.sink.byte(0x29);
    else this.sink.byte(this.inArray ? 0x20 : 0x5b);
    this.inArray = true;
    this.inString = false;
    this.sink.decimal(thousandths);
  }

  endArray(): void {
    if (this.inString) this.sink.byte(0x29);
    if (this.inArray) this.sink.text(']TJ\n');
    this.inArray = false;
    this.inString = false;
  }

  setRise(rise: number): void {
    if (rise === this.rise) return;
    this.endArray();
    this.sink.thousandths(Math.round(rise * 1000));
    this.sink.text('Ts\n');
    this.rise = rise;
  }

  beginActualText(text: string): void {
    this.endArray();
    this.sink.text(`/Span<</ActualText<${utf16Hex(text)}>>>BDC\n`);
  }

  endActualText(): void {
    this.endArray();
    this.sink.text('EMC\n');
  }

  private startString(): void {
    if (this.inString) return;
    if (!this.inArray) this.sink.byte(0x5b);
    this.sink.byte(0x28);
    this.inArray = true;
    this.inString = true;
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
