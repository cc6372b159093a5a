/**
 * HarfBuzz behind a narrow door. In: font bytes, text and settings; out: glyphs in typed arrays, outlines, ink boxes. One
 * shaper serves all faces; it keeps one buffer and copies results out at once.
 */
import { ArrayPool } from '#base';
import {
  CLUSTER,
  type CompiledSetting,
  FLAGS,
  LEFT_TO_RIGHT,
  OFFSET_X,
  OFFSET_Y,
  RECORD,
  RIGHT_TO_LEFT,
  type ShaperFont,
  ShapingBuffer,
  UNSAFE_TO_BREAK,
} from './buffer.ts';
import type { Shaped, ShapedWords, ShapeSetting, WordStretches } from './face.ts';
import { scriptOf, tag } from './script.ts';
import { type Pointer, startShaperModule, type WasmFunction, type WasmModule } from './wasm.ts';
import { WordShaper } from './wordShaper.ts';

const WRITABLE = 2;
const FEATURE_BYTES = 16;
const EVERYWHERE = 0xffffffff;

export class Shaper {
  private readonly settings = new Map<string, CompiledSetting>();
  private readonly scratch: Pointer;
  private pen: OutlinePen | null = null;
  private readonly buffer: ShapingBuffer;
  private readonly words: WordShaper;
  private readonly malloc: WasmFunction;
  private readonly nominal: WasmFunction;
  private readonly extents: WasmFunction;
  private readonly pool = new ArrayPool();

  private constructor(private readonly module: WasmModule) {
    this.buffer = new ShapingBuffer(module);
    this.words = new WordShaper(this.buffer);
    this.malloc = module.call('malloc');
    this.nominal = module.call('hb_font_get_nominal_glyph');
    this.extents = module.call('hb_font_get_glyph_extents');
    this.scratch = this.malloc(16);
  }

  /** Starts a shaper from the bytes of harfbuzz.wasm. */
  static async start(bytes: Uint8Array): Promise<Shaper> {
    return new Shaper(await startShaperModule(bytes));
  }

  /** Copies a font into the module. */
  addFont(bytes: Uint8Array): ShaperFont {
    const data = this.malloc(bytes.length);
    this.module.bytes.set(bytes, data);
    const blob = this.module.call('hb_blob_create')(data, bytes.length, WRITABLE, 0, 0);
    const face = this.module.call('hb_face_create')(blob, 0);
    return { pointer: this.module.call('hb_font_create')(face) };
  }

  /** Shapes a text of fewer than 65,536 UTF-16 units. */
  shape(font: ShaperFont, text: string, compiled: CompiledSetting): Shaped {
    this.buffer.write(text);
    this.buffer.shape(font, text.length, scriptOf(text), compiled);
    return this.copyResult(text);
  }

  /** Shapes words together; see `FontFace.shapeWords`. */
  shapeWords(font: ShaperFont, words: WordStretches, compiled: CompiledSetting): ShapedWords {
    return this.words.shape(words, font, compiled);
  }

  /** Readies a setting; the same one for equal settings. */
  compile(setting: ShapeSetting): CompiledSetting {
    const key = settingKey(setting);
    const known = this.settings.get(key);
    if (known) return known;
    const tags = setting.features === '' ? [] : setting.features.split(',');
    const compiled = {
      features: this.writeFeatures(tags),
      featureCount: tags.length,
      language: this.languageOf(setting.language),
      direction: setting.direction === 'rtl' ? RIGHT_TO_LEFT : LEFT_TO_RIGHT,
    };
    this.settings.set(key, compiled);
    return compiled;
  }

  /** The nominal glyph of a character, 0 where the font has none. */
  nominalGlyph(font: ShaperFont, codePoint: number): number {
    const found = this.nominal(font.pointer, codePoint, this.scratch);
    return found ? (this.module.words[this.scratch >> 2] ?? 0) : 0;
  }

  /** xMin, yMin, xMax, yMax of a glyph's ink, null where it has none. */
  ink(font: ShaperFont, glyph: number): readonly [number, number, number, number] | null {
    if (!this.extents(font.pointer, glyph, this.scratch)) return null;
    const at = this.scratch >> 2;
    const [left, top, width, height] = this.module.words.subarray(at, at + 4) as unknown as number[];
    if (!width || !height) return null;
    return [left!, top! + height, left! + width, top!];
  }

  /** SVG path data of a glyph's outline, y up. */
  outline(font: ShaperFont, glyph: number): string {
    this.pen ??= new OutlinePen(this.module);
    return this.pen.draw(font.pointer, glyph);
  }

  private copyResult(text: string): Shaped {
    const { infos, positions, glyphs: count, words } = this.buffer;
    const glyphs = this.pool.units(count);
    const advances = this.pool.words(count);
    let width = 0;
    let flagged = 0;
    let moved = 0;
    let inOrder = true;
    for (let i = 0; i < count; i++) {
      const info = infos + i * RECORD;
      const position = positions + i * RECORD;
      glyphs[i] = words[info]!;
      flagged |= words[info + FLAGS]!;
      inOrder = inOrder && words[info + CLUSTER] === i;
      const advance = words[position]!;
      advances[i] = advance;
      width += advance;
      moved |= words[position + OFFSET_X]! | words[position + OFFSET_Y]!;
    }
    const clusters = inOrder ? this.pool.rising(count) : this.clustersOf(words, infos, count);
    const unsafe = flagged & UNSAFE_TO_BREAK ? this.flagsOf(words, infos, count) : null;
    const offsets = moved === 0 ? null : offsetsOf(words, positions, count);
    return { text, glyphs, advances, offsets, clusters, unsafe, width };
  }

  private clustersOf(words: Int32Array, infos: number, count: number): Uint16Array {
    const clusters = this.pool.units(count);
    for (let i = 0; i < count; i++) clusters[i] = words[infos + i * RECORD + CLUSTER]!;
    return clusters;
  }

  private flagsOf(words: Int32Array, infos: number, count: number): Uint8Array {
    const flags = this.pool.bytes(count);
    for (let i = 0; i < count; i++) flags[i] = words[infos + i * RECORD + FLAGS]! & UNSAFE_TO_BREAK;
    return flags;
  }

  private writeFeatures(tags: readonly string[]): Pointer {
    if (tags.length === 0) return 0;
    const pointer = this.malloc(tags.length * FEATURE_BYTES);
    const words = this.module.words;
    tags.forEach((name, i) => {
      const off = name.startsWith('-');
      words.set([tag(off ? name.slice(1) : name), off ? 0 : 1, 0, EVERYWHERE], (pointer + i * FEATURE_BYTES) >> 2);
    });
    return pointer;
  }

  private languageOf(language: string): Pointer {
    const pointer = this.malloc(language.length + 1);
    const bytes = this.module.bytes;
    for (let i = 0; i < language.length; i++) bytes[pointer + i] = language.charCodeAt(i);
    bytes[pointer + language.length] = 0;
    return this.module.call('hb_language_from_string')(pointer, -1);
  }
}

/** A setting as a string, for caches. */
export function settingKey(setting: ShapeSetting): string {
  return `${setting.features}|${setting.language}|${setting.direction}`;
}

function offsetsOf(words: Int32Array, positions: number, count: number): Int32Array {
  const offsets = new Int32Array(count * 2);
  for (let i = 0; i < count; i++) {
    offsets[i * 2] = words[positions + i * RECORD + OFFSET_X]!;
    offsets[i * 2 + 1] = words[positions + i * RECORD + OFFSET_Y]!;
  }
  return offsets;
}

/** Collects the segments of an outline as path data. */
class OutlinePen {
  private parts: string[] = [];
  private readonly functions: Pointer;
  private readonly drawGlyph: WasmFunction;

  constructor(module: WasmModule) {
    this.drawGlyph = module.call('hb_font_draw_glyph');
    this.functions = module.call('hb_draw_funcs_create')();
    this.on(module, 'move_to', 'M', 2);
    this.on(module, 'line_to', 'L', 2);
    this.on(module, 'quadratic_to', 'Q', 4);
    this.on(module, 'cubic_to', 'C', 6);
    this.on(module, 'close_path', 'Z', 0);
  }

  draw(font: Pointer, glyph: number): string {
    this.parts = [];
    this.drawGlyph(font, glyph, this.functions, 0);
    return this.parts.join('');
  }

  /** The callback gets functions, data and state, then the coordinates, then its own data. */
  private on(module: WasmModule, event: string, command: string, coordinates: number): void {
    const callback = module.addCallback(`iii${'f'.repeat(coordinates)}i`, (...args) => {
      this.parts.push(command + args.slice(3, 3 + coordinates).join(' '));
    });
    module.call(`hb_draw_funcs_set_${event}_func`)(this.functions, callback, 0, 0);
  }
}
