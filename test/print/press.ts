/**
 * A small press for tests: pages are set by hand with real shaping, written, and read back by other programs. `print`
 * checks what holds of every file: a clean structure, fonts embedded, the same bytes twice.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateSync, inflateSync } from 'node:zlib';
import { expect } from 'vitest';
import { type Page, PageBuilder } from '#page';
import { type PrintRequest, writePdf } from '#print';
import type { FontFace, FontLibrary } from '#type';

export interface LineLook {
  readonly face: FontFace;
  readonly size?: number;
  readonly features?: string;
  readonly direction?: 'ltr' | 'rtl';
  readonly scale?: number;
  readonly grey?: number;
  readonly furniture?: boolean;
  /** Points added to each advance, by glyph. */
  readonly stretch?: (glyph: number) => number;
  /** What the run reads as, where it is not what was shaped. */
  readonly reads?: string;
  readonly block?: string;
}

/** Sets one line of text on a page and gives its right end. */
export function setLine(page: PageBuilder, text: string, [x, y]: readonly [number, number], look: LineLook): number {
  const { face, size = 11, scale = 1 } = look;
  const shaped = face.shape(text, {
    features: look.features ?? '',
    language: 'en-US',
    direction: look.direction ?? 'ltr',
  });
  const points = (size * scale) / face.unitsPerEm;
  page.beginRun({
    face: face.id,
    size,
    x,
    y,
    ...(look.scale === undefined ? {} : { scale }),
    ...(look.grey === undefined ? {} : { grey: look.grey }),
    ...(look.furniture === undefined ? {} : { furniture: look.furniture }),
    ...(look.block === undefined ? {} : { at: { block: look.block, offset: 0 } }),
  });
  let end = x;
  shaped.glyphs.forEach((glyph, i) => {
    const advance = shaped.advances[i]! * points + (look.stretch?.(i) ?? 0);
    end += advance;
    page.glyph(glyph, advance, shaped.clusters[i]!);
    if (shaped.offsets) page.offsetLast(shaped.offsets[i * 2]! * points, -shaped.offsets[i * 2 + 1]! * points);
  });
  page.endRun(look.reads ?? text);
  return end;
}

/** A page of the block; `fill` sets it. */
export function page(
  index: number,
  fill: (page: PageBuilder) => void = () => undefined,
  frame: Partial<Page> = {},
): Page {
  const builder = new PageBuilder();
  fill(builder);
  return builder.finish({
    index,
    side: index % 2 === 0 ? 'recto' : 'verso',
    folio: { label: String(index + 1), style: 'arabic', value: index + 1, printed: true },
    section: 's1',
    blank: false,
    opener: false,
    size: { width: 396, height: 612 },
    ...frame,
  });
}

export const document = {
  title: 'The Weir',
  author: 'Nell Harrow',
  subject: 'A novel',
  keywords: ['river', 'mill'],
  language: 'en-GB',
  creator: 'Reglet',
  date: 1_700_000_000,
};

export function request(library: FontLibrary, pages: readonly Page[], more: Partial<PrintRequest> = {}): PrintRequest {
  return {
    pages,
    library,
    asset: () => undefined,
    document,
    outline: [],
    deflate: (bytes) => deflateSync(bytes),
    ...more,
  };
}

/** A written file on disk. */
export interface Proof {
  readonly bytes: Uint8Array;
  readonly run: (program: string, ...args: readonly string[]) => string;
}

/** Writes a file and checks what holds of every file. `FILE` among a program's arguments is its path. */
export function print(made: PrintRequest): Proof {
  const bytes = writePdf(made);
  expect(Buffer.compare(Buffer.from(writePdf(made)), Buffer.from(bytes))).toBe(0);
  const proof = {
    bytes,
    run: (program: string, ...args: readonly string[]) => runOn(bytes, program, args).toString('utf8'),
  };
  expect(proof.run('qpdf', '--check', 'FILE')).toContain('No syntax or stream encoding errors');
  for (const line of fontLines(proof)) expect(line).toMatch(/ yes yes yes /);
  expect(contents(bytes).match(/^.* (rg|RG|k|K|G|cs|CS|sc|SC|scn|SCN)$/gm)).toBeNull();
  return proof;
}

/** The lines of the font table: name, type, encoding, embedded, subset, map to Unicode. */
export function fontLines(proof: Proof): string[] {
  return proof
    .run('pdffonts', 'FILE')
    .split('\n')
    .slice(2)
    .filter((line) => line !== '');
}

/** Everything that is painted, deflated streams opened (fonts and pictures among them). */
export function contents(bytes: Uint8Array): string {
  const file = Buffer.from(bytes).toString('latin1');
  let text = '';
  for (const match of file.matchAll(/<<([^>]*)>>\s*stream\n([\s\S]*?)\nendstream/g)) {
    if (/\/Length1|\/Subtype|\/Type/.test(match[1]!)) continue;
    text += inflateSync(Buffer.from(match[2]!, 'latin1')).toString('latin1');
  }
  return text;
}

function runOn(bytes: Uint8Array, program: string, args: readonly string[]): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'reglet-print-'));
  try {
    const path = join(folder, 'book.pdf');
    writeFileSync(path, bytes);
    const result = spawnSync(
      program,
      args.map((arg) => (arg === 'FILE' ? path : arg)),
      { maxBuffer: 1 << 28 },
    );
    if (result.error) throw result.error;
    expect(result.stderr.toString().replace(/warning: ICC support is not available\n?/g, '')).toBe('');
    expect(result.status).toBe(0);
    return result.stdout;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export interface TracedGlyph {
  readonly page: number;
  readonly glyph: number;
  readonly unicode: string;
  readonly x: number;
  /** From the bottom of the sheet. */
  readonly y: number;
}

/** Every glyph that a second program would paint, in order. */
export function traced(proof: Proof): TracedGlyph[] {
  const glyphs: TracedGlyph[] = [];
  let page = -1;
  for (const line of proof.run('mutool', 'trace', 'FILE').split('\n')) {
    if (line.startsWith('<page ')) page++;
    const found = /<g unicode="([^"]*)" glyph="(\d+)" x="([^"]*)" y="([^"]*)"/.exec(line);
    if (found)
      glyphs.push({ page, unicode: found[1]!, glyph: Number(found[2]), x: Number(found[3]), y: Number(found[4]) });
  }
  return glyphs;
}

/** Where the display list says that each glyph stands, on pages without bleed. */
export function listed(pages: readonly Page[]): Omit<TracedGlyph, 'unicode'>[] {
  const glyphs: Omit<TracedGlyph, 'unicode'>[] = [];
  for (const one of pages) {
    for (const item of one.items) {
      if (item.kind !== 'glyphs') continue;
      let pen = item.x;
      for (let i = item.start; i < item.start + item.count; i++) {
        const dx = one.offsets?.[i * 2] ?? 0;
        const dy = one.offsets?.[i * 2 + 1] ?? 0;
        glyphs.push({ page: one.index, glyph: one.glyphs[i]!, x: pen + dx, y: one.size.height - item.y - dy });
        pen += one.advances[i]!;
      }
    }
  }
  return glyphs;
}

/** The first page as a picture in letters, one for each point: `#` black, `+` grey, `.` paper. */
export function picture(proof: Proof): string[] {
  const raster = runOn(proof.bytes, 'mutool', [
    'draw',
    '-q',
    '-F',
    'pnm',
    '-c',
    'gray',
    '-A',
    '0',
    '-o',
    '-',
    'FILE',
    '1',
  ]);
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(raster.toString('latin1', 0, 40))!;
  const width = Number(head[1]);
  const rows: string[] = [];
  for (let at = head[0].length; at < raster.length; at += width) {
    rows.push(
      Array.from(raster.subarray(at, at + width), (value) => (value < 40 ? '#' : value < 215 ? '+' : '.')).join(''),
    );
  }
  return rows;
}
