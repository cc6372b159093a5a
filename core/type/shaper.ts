/**
 * HarfBuzz behind a narrow door. In: font bytes, text and settings; out: glyphs in typed arrays, outlines, ink boxes. One
 * shaper serves all faces; it keeps one buffer and copies results out at once.
 */
import type { Shaped, ShapeSetting } from './face.ts';
import { ArrayPool } from './pool.ts';
import { scriptOf, tag } from './script.ts';
import { type Pointer, startShaperModule, type WasmFunction, type WasmModule } from './wasm.ts';

const LEFT_TO_RIGHT = 4;
const RIGHT_TO_LEFT = 5;
const WRITABLE = 2;
const UNSAFE_TO_BREAK = 1;
/** `hb_glyph_info_t` and `hb_glyph_position_t` are both five 32-bit words. */
const RECORD = 5;
const FEATURE_BYTES = 16;
const EVERYWHERE = 0xffffffff;

/** A setting with its features and language in the module's memory. */
export interface CompiledSetting {
  readonly features: Pointer;
  readonly featureCount: number;
  readonly language: Pointer;
  readonly direction: number;
}

/** A font in the module's memory. */
export interface ShaperFont {
  readonly pointer: Pointer;
}

export class Shaper {
  private readonly buffer: Pointer;
  private readonly settings = new Map<string, CompiledSetting>();
  private textRoom = 0;
  private textPointer: Pointer = 0;
  private readonly scratch: Pointer;
  private pen: OutlinePen | null = null;
  private readonly hb: ShaperCalls;
  private readonly pool = new ArrayPool();

  private constructor(private readonly module: WasmModule) {
    this.hb = shaperCalls(module);
    this.buffer = module.call('hb_buffer_create')();
    this.scratch = this.hb.malloc(16);
  }

  /** Starts a shaper from the bytes of harfbuzz.wasm. */
  static async start(bytes: Uint8Array): Promise<Shaper> {
    return new Shaper(await startShaperModule(bytes));
  }

  /** Copies a font into the module. */
  addFont(bytes: Uint8Array): ShaperFont {
    const data = this.hb.malloc(bytes.length);
    this.module.bytes.set(bytes, data);
    const blob = this.module.call('hb_blob_create')(data, bytes.length, WRITABLE, 0, 0);
    const face = this.module.call('hb_face_create')(blob, 0);
    return { pointer: this.module.call('hb_font_create')(face) };
  }

  /** Shapes a text of fewer than 65,536 UTF-16 units. */
  shape(font: ShaperFont, text: string, compiled: CompiledSetting): Shaped {
    if (text.length > 0xffff) throw new RangeError(`text of ${text.length} units is too long to shape at once`);
    const { hb, buffer } = this;
    hb.clear(buffer);
    hb.setDirection(buffer, compiled.direction);
    hb.setScript(buffer, scriptOf(text));
    hb.setLanguage(buffer, compiled.language);
    hb.addText(buffer, this.writeText(text), text.length, 0, text.length);
    hb.shape(font.pointer, buffer, compiled.features, compiled.featureCount);
    const count = hb.length(buffer);
    return this.copyResult(text, count, hb.infos(buffer, 0) >> 2, hb.positions(buffer, 0) >> 2);
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
    const found = this.hb.nominalGlyph(font.pointer, codePoint, this.scratch);
    return found ? (this.module.words[this.scratch >> 2] ?? 0) : 0;
  }

  /** xMin, yMin, xMax, yMax of a glyph's ink, null where it has none. */
  ink(font: ShaperFont, glyph: number): readonly [number, number, number, number] | null {
    if (!this.hb.extents(font.pointer, glyph, this.scratch)) return null;
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

  private copyResult(text: string, count: number, infos: number, positions: number): Shaped {
    const words = this.module.words;
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
      flagged |= words[info + 1]!;
      inOrder = inOrder && words[info + 2] === i;
      const advance = words[position]!;
      advances[i] = advance;
      width += advance;
      moved |= words[position + 2]! | words[position + 3]!;
    }
    const clusters = inOrder ? this.pool.rising(count) : this.clustersOf(words, infos, count);
    const unsafe = flagged & UNSAFE_TO_BREAK ? this.flagsOf(words, infos, count) : null;
    const offsets = moved === 0 ? null : offsetsOf(words, positions, count);
    return { text, glyphs, advances, offsets, clusters, unsafe, width };
  }

  private clustersOf(words: Int32Array, infos: number, count: number): Uint16Array {
    const clusters = this.pool.units(count);
    for (let i = 0; i < count; i++) clusters[i] = words[infos + i * RECORD + 2]!;
    return clusters;
  }

  private flagsOf(words: Int32Array, infos: number, count: number): Uint8Array {
    const flags = this.pool.bytes(count);
    for (let i = 0; i < count; i++) flags[i] = words[infos + i * RECORD + 1]! & UNSAFE_TO_BREAK;
    return flags;
  }

  private writeText(text: string): Pointer {
    if (text.length > this.textRoom) {
      if (this.textPointer) this.hb.free(this.textPointer);
      this.textRoom = Math.max(256, text.length * 2);
      this.textPointer = this.hb.malloc(this.textRoom * 2);
    }
    const units = this.module.units;
    const start = this.textPointer >> 1;
    for (let i = 0; i < text.length; i++) units[start + i] = text.charCodeAt(i);
    return this.textPointer;
  }

  private writeFeatures(tags: readonly string[]): Pointer {
    if (tags.length === 0) return 0;
    const pointer = this.hb.malloc(tags.length * FEATURE_BYTES);
    const words = this.module.words;
    tags.forEach((name, i) => {
      const off = name.startsWith('-');
      words.set([tag(off ? name.slice(1) : name), off ? 0 : 1, 0, EVERYWHERE], (pointer + i * FEATURE_BYTES) >> 2);
    });
    return pointer;
  }

  private languageOf(language: string): Pointer {
    const pointer = this.hb.malloc(language.length + 1);
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
    offsets[i * 2] = words[positions + i * RECORD + 2]!;
    offsets[i * 2 + 1] = words[positions + i * RECORD + 3]!;
  }
  return offsets;
}

/** The exports used for each word, looked up once. */
interface ShaperCalls {
  readonly malloc: WasmFunction;
  readonly free: WasmFunction;
  readonly clear: WasmFunction;
  readonly setDirection: WasmFunction;
  readonly setScript: WasmFunction;
  readonly setLanguage: WasmFunction;
  readonly addText: WasmFunction;
  readonly shape: WasmFunction;
  readonly length: WasmFunction;
  readonly infos: WasmFunction;
  readonly positions: WasmFunction;
  readonly nominalGlyph: WasmFunction;
  readonly extents: WasmFunction;
}

function shaperCalls(module: WasmModule): ShaperCalls {
  return {
    malloc: module.call('malloc'),
    free: module.call('free'),
    clear: module.call('hb_buffer_clear_contents'),
    setDirection: module.call('hb_buffer_set_direction'),
    setScript: module.call('hb_buffer_set_script'),
    setLanguage: module.call('hb_buffer_set_language'),
    addText: module.call('hb_buffer_add_utf16'),
    shape: module.call('hb_shape'),
    length: module.call('hb_buffer_get_length'),
    infos: module.call('hb_buffer_get_glyph_infos'),
    positions: module.call('hb_buffer_get_glyph_positions'),
    nominalGlyph: module.call('hb_font_get_nominal_glyph'),
    extents: module.call('hb_font_get_glyph_extents'),
  };
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
