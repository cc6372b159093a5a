/**
 * The one buffer through which all text goes to HarfBuzz. In: UTF-16 units, a font, a script and a setting; out: where the
 * glyphs lie in the module's memory, until the next text.
 */
import type { Pointer, WasmFunction, WasmModule } from './wasm.ts';

/** `hb_glyph_info_t` and `hb_glyph_position_t` are both five 32-bit words. */
export const RECORD = 5;
/** Words of a glyph's info: id, flags, cluster. */
export const FLAGS = 1;
export const CLUSTER = 2;
/** Words of a glyph's position: advance, offsets. */
export const OFFSET_X = 2;
export const OFFSET_Y = 3;
/** `HB_GLYPH_FLAG_UNSAFE_TO_BREAK` */
export const UNSAFE_TO_BREAK = 1;
/** Longest text that goes in at once: clusters are kept in 16 bits. */
export const MOST_UNITS = 0xffff;

/** `HB_DIRECTION_LTR` and `HB_DIRECTION_RTL` */
export const LEFT_TO_RIGHT = 4;
export const RIGHT_TO_LEFT = 5;

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

export class ShapingBuffer {
  /** After shaping: the number of glyphs, and where their infos and positions begin in `words`. */
  glyphs = 0;
  infos = 0;
  positions = 0;
  private readonly buffer: Pointer;
  private readonly hb: BufferCalls;
  private room = 0;
  private pointer: Pointer = 0;

  constructor(private readonly module: WasmModule) {
    this.hb = bufferCalls(module);
    this.buffer = module.call('hb_buffer_create')();
  }

  /** The module's memory. Take it anew after each call. */
  get words(): Int32Array {
    return this.module.words;
  }

  /** Makes room for a text; gives the place in `units` at which to write it. */
  open(length: number): number {
    if (length > MOST_UNITS) throw new RangeError(`text of ${length} units is too long to shape at once`);
    if (length > this.room) {
      if (this.pointer) this.hb.free(this.pointer);
      this.room = Math.max(256, length * 2);
      this.pointer = this.hb.malloc(this.room * 2);
    }
    return this.pointer >> 1;
  }

  get units(): Uint16Array {
    return this.module.units;
  }

  write(text: string): void {
    const start = this.open(text.length);
    const { units } = this;
    for (let i = 0; i < text.length; i++) units[start + i] = text.charCodeAt(i);
  }

  /** Shapes the first so many units written. */
  shape(font: ShaperFont, length: number, script: number, setting: CompiledSetting): void {
    const { hb, buffer } = this;
    hb.clear(buffer);
    hb.setDirection(buffer, setting.direction);
    hb.setScript(buffer, script);
    hb.setLanguage(buffer, setting.language);
    hb.addText(buffer, this.pointer, length, 0, length);
    hb.shape(font.pointer, buffer, setting.features, setting.featureCount);
    this.glyphs = hb.length(buffer);
    this.infos = hb.infos(buffer, 0) >> 2;
    this.positions = hb.positions(buffer, 0) >> 2;
  }
}

/** The exports used for each text, looked up once. */
interface BufferCalls {
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
}

function bufferCalls(module: WasmModule): BufferCalls {
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
  };
}
