/**
 * Outlines of glyphs, each sent once. In: pages on their way to the window; out: for every face, the glyphs on them that
 * were not sent before.
 */
import type { FaceId } from '#base';
import type { Page } from '#page';
import type { FontLibrary } from '#type';
import type { OutlinesReply } from './messages.ts';

/** A face has no more glyphs than this (OpenType, `maxp`: a 16-bit number). */
const GLYPHS = 65536;

export class OutlineSender {
  private readonly sent: Map<FaceId, Uint8Array>;

  /** @param before whoever sent outlines until now: with more fonts, those of the others stay what they were. */
  constructor(
    readonly library: FontLibrary,
    before: OutlineSender | null = null,
  ) {
    this.sent = before?.sent ?? new Map();
  }

  /** What has to go before these pages. */
  before(pages: readonly Page[]): readonly OutlinesReply[] {
    const fresh = new Map<FaceId, number[]>();
    for (const page of pages) {
      for (const item of page.items) {
        if (item.kind === 'glyphs') this.collect(page, item, fresh);
      }
    }
    return [...fresh].map(([face, glyphs]) => this.reply(face, glyphs));
  }

  private collect(
    page: Page,
    run: { readonly face: FaceId; readonly start: number; readonly count: number },
    fresh: Map<FaceId, number[]>,
  ): void {
    const sent = this.sentOf(run.face);
    for (let at = run.start; at < run.start + run.count; at++) {
      const glyph = page.glyphs[at]!;
      if (sent[glyph]) continue;
      sent[glyph] = 1;
      const glyphs = fresh.get(run.face);
      if (glyphs) glyphs.push(glyph);
      else fresh.set(run.face, [glyph]);
    }
  }

  private sentOf(face: FaceId): Uint8Array {
    let sent = this.sent.get(face);
    if (!sent) {
      sent = new Uint8Array(GLYPHS);
      this.sent.set(face, sent);
    }
    return sent;
  }

  private reply(id: FaceId, glyphs: readonly number[]): OutlinesReply {
    const face = this.library.face(id);
    const paths = glyphs.map((glyph) => face.outline(glyph));
    return { kind: 'outlines', face: id, unitsPerEm: face.unitsPerEm, glyphs, paths };
  }
}
