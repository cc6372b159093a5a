/**
 * Smaller font files. In: a font file and the glyphs or characters that a book uses; out: a font file. Started when the
 * first subset is asked for, since a book that is only read on screen needs none.
 */
import { tag } from './script.ts';
import { type Pointer, startSubsetterModule, type WasmModule } from './wasm.ts';

/** `hb_subset_flags_t`. */
const NO_HINTING = 0x01;
const RETAIN_GLYPH_IDS = 0x02;
const NOTDEF_OUTLINE = 0x40;
const NO_LAYOUT_CLOSURE = 0x200;

/** `hb_subset_sets_t`. */
const UNICODES = 1;
const DROPPED_TABLES = 3;
const NAME_IDS = 4;
const FEATURES = 6;

const WRITABLE = 2;

/** What a page description never reads: it names glyphs by id and places each one. */
const PRINT_DROPS = ['GSUB', 'GPOS', 'GDEF', 'BASE', 'JSTF', 'kern', 'cmap', 'name', 'OS/2', 'DSIG', 'STAT', 'meta'];

/** Signatures, spacing hints of old systems and the like: of no use to a reading system. */
const EBOOK_DROPS = ['DSIG', 'STAT', 'meta', 'LTSH', 'VDMX', 'hdmx'];

/** What tells of axes, and is left empty by pinning them. */
const VARIATIONS = ['fvar', 'avar', 'gvar', 'cvar', 'HVAR', 'VVAR', 'MVAR', 'STAT'];

/** Features beside HarfBuzz's defaults (kern, liga, calt, ccmp, mark and their like) that a book's styles switch on. */
const EBOOK_FEATURES = ['smcp', 'c2sc', 'onum', 'lnum', 'pnum', 'sups'];

/** Names 0 to 6 are kept by default; 7 trademark, 13 licence, 14 licence address: a font's terms travel with it. */
const LICENCE_NAMES = [7, 13, 14];

export class Subsetter {
  private module: WasmModule | null = null;

  constructor(private readonly wasm: Uint8Array) {}

  /** Only these glyphs, under their old ids, without layout tables, cmap and names. */
  forPrint(font: Uint8Array, glyphs: Iterable<number>): Uint8Array {
    return this.run(font, (module, input) => {
      module.call('hb_subset_input_set_flags')(
        input,
        NO_HINTING | RETAIN_GLYPH_IDS | NOTDEF_OUTLINE | NO_LAYOUT_CLOSURE,
      );
      addAll(module, module.call('hb_subset_input_glyph_set')(input), glyphs);
      addAll(module, module.call('hb_subset_input_set')(input, DROPPED_TABLES), PRINT_DROPS.map(tag));
    });
  }

  /** These characters and what the kept features make of them; cmap and names kept. */
  forEbook(font: Uint8Array, codePoints: Iterable<number>): Uint8Array {
    return this.run(font, (module, input) => {
      module.call('hb_subset_input_set_flags')(input, NO_HINTING | NOTDEF_OUTLINE);
      addAll(module, module.call('hb_subset_input_set')(input, UNICODES), codePoints);
      addAll(module, module.call('hb_subset_input_set')(input, DROPPED_TABLES), EBOOK_DROPS.map(tag));
      addAll(module, module.call('hb_subset_input_set')(input, FEATURES), EBOOK_FEATURES.map(tag));
      addAll(module, module.call('hb_subset_input_set')(input, NAME_IDS), LICENCE_NAMES);
    });
  }

  /** A variable font at one place on its axes (a tag and a value each), as a font that does not vary; all else kept. */
  pin(font: Uint8Array, axes: Readonly<Record<string, number>>): Uint8Array {
    return this.run(font, (module, input, face) => {
      module.call('hb_subset_input_keep_everything')(input);
      addAll(module, module.call('hb_subset_input_set')(input, DROPPED_TABLES), VARIATIONS.map(tag));
      module.call('hb_subset_input_pin_all_axes_to_default')(input, face);
      for (const [axis, value] of Object.entries(axes)) {
        module.call('hb_subset_input_pin_axis_location')(input, face, tag(axis), value);
      }
    });
  }

  private run(font: Uint8Array, choose: (module: WasmModule, input: Pointer, face: Pointer) => void): Uint8Array {
    this.module ??= startSubsetterModule(this.wasm);
    const module = this.module;
    const data = module.call('malloc')(font.length);
    module.bytes.set(font, data);
    const blob = module.call('hb_blob_create')(data, font.length, WRITABLE, 0, 0);
    const face = module.call('hb_face_create')(blob, 0);
    const input = module.call('hb_subset_input_create_or_fail')();
    choose(module, input, face);
    const subset = module.call('hb_subset_or_fail')(face, input);
    const bytes = subset ? bytesOfFace(module, subset) : null;
    module.call('hb_subset_input_destroy')(input);
    module.call('hb_face_destroy')(face);
    module.call('hb_blob_destroy')(blob);
    module.call('free')(data);
    if (!bytes) throw new RangeError('the font could not be reduced to a subset');
    return bytes;
  }
}

function addAll(module: WasmModule, set: Pointer, values: Iterable<number>): void {
  const add = module.call('hb_set_add');
  for (const value of values) add(set, value);
}

function bytesOfFace(module: WasmModule, face: Pointer): Uint8Array {
  const blob = module.call('hb_face_reference_blob')(face);
  const start = module.call('hb_blob_get_data')(blob, 0);
  const length = module.call('hb_blob_get_length')(blob);
  const bytes = module.bytes.slice(start, start + length);
  module.call('hb_blob_destroy')(blob);
  module.call('hb_face_destroy')(face);
  return bytes;
}
