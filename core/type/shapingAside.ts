/**
 * Shaping on another thread, ahead of whoever sets the words: a sixth of the time that a whole book takes to lay out. In:
 * words and a setting; out: the very glyphs that `FontFace.shapeWords` gives. Both ends are here; how a thread is started
 * and how a job gets there is the host's affair. Words and glyphs lie in memory that both threads see, so that the one can
 * wait for the other without going back to its messages.
 */
import type { FaceId } from '#base';
import type { CompiledSetting, ShaperFont } from './buffer.ts';
import type { FontFace, ShapedWords, ShapeSetting, WordStretches } from './face.ts';
import { Shaper, settingKey } from './shaper.ts';

/** What is sent to the thread. */
export interface ShapingJob {
  readonly face: FaceId;
  /** The font file, the first time that a face is needed. */
  readonly font: Uint8Array | null;
  readonly setting: ShapeSetting;
  /** Laid out as `JobMemory` says. */
  readonly memory: SharedArrayBuffer;
  readonly words: number;
  readonly units: number;
}

/** Milliseconds after which a thread that gives no answer is given up: many times what any batch takes. */
const PATIENCE = 5000;

// States of a job.
const WAITING = 0;
const DONE = 1;
/** The thread could not do it, or the glyphs were more than there is room for. */
const FAILED = 2;

/** Words that were handed over. */
export interface BegunWords {
  /** The same words, to be shaped here where the thread fails. */
  readonly words: WordStretches;
  /** Waits for the thread; null where it failed. */
  readonly wait: () => ShapedWords | null;
}

/** This thread's end. */
export class ShapingAside {
  private readonly sent = new Set<FaceId>();
  private failed = false;

  /** @param post sends a job to the thread. */
  constructor(private readonly post: (job: ShapingJob) => void) {}

  /** False once the thread has failed. */
  get works(): boolean {
    return !this.failed;
  }

  /** To be called by whoever learns that the thread is gone. */
  giveUp(): void {
    this.failed = true;
  }

  /** Hands words over; null where there is no thread any more. */
  begin(face: Pick<FontFace, 'id' | 'bytes'>, words: WordStretches, setting: ShapeSetting): BegunWords | null {
    if (this.failed) return null;
    const { count } = words;
    const first = count === 0 ? 0 : words.bounds[0]!;
    const units = count === 0 ? 0 : words.bounds[count * 2 - 1]! - first;
    const memory = new JobMemory(new SharedArrayBuffer(JobMemory.size(count, units)), count, units);
    memory.units.set(words.units.subarray(first, first + units));
    for (let i = 0; i < count * 2; i++) memory.bounds[i] = words.bounds[i]! - first;
    const font = this.sent.has(face.id) ? null : face.bytes;
    this.sent.add(face.id);
    this.post({ face: face.id, font, setting, memory: memory.buffer, words: count, units });
    return { words: memory, wait: () => this.wait(memory) };
  }

  private wait(memory: JobMemory): ShapedWords | null {
    if (!this.failed && Atomics.wait(memory.header, 0, WAITING, PATIENCE) === 'timed-out') this.failed = true;
    return Atomics.load(memory.header, 0) === DONE ? memory : null;
  }
}

/** Starts the other thread's end, from the bytes of harfbuzz.wasm. */
export async function startShapingServer(module: Uint8Array): Promise<ShapingServer> {
  return new ShapingServer(await Shaper.start(module));
}

class ShapingServer {
  private readonly fonts = new Map<FaceId, ShaperFont>();
  private readonly settings = new Map<string, CompiledSetting>();

  constructor(private readonly shaper: Shaper) {}

  /** Does a job. What goes wrong here goes wrong again where the words are wanted, and is reported there. */
  serve(job: ShapingJob): void {
    const memory = new JobMemory(job.memory, job.words, job.units);
    let done = false;
    try {
      done = memory.take(this.shaper.shapeWords(this.fontOf(job), memory, this.settingOf(job.setting)));
    } catch {
      done = false;
    }
    Atomics.store(memory.header, 0, done ? DONE : FAILED);
    Atomics.notify(memory.header, 0);
  }

  private fontOf({ face, font }: ShapingJob): ShaperFont {
    const known = this.fonts.get(face);
    if (known) return known;
    if (!font) throw new RangeError(`font face "${face}" was not sent`);
    const added = this.shaper.addFont(font);
    this.fonts.set(face, added);
    return added;
  }

  private settingOf(setting: ShapeSetting): CompiledSetting {
    const key = settingKey(setting);
    const compiled = this.settings.get(key) ?? this.shaper.compile(setting);
    this.settings.set(key, compiled);
    return compiled;
  }
}

/** A job's words and glyphs in memory that both threads see: the state first, then columns, the widest before the others. */
class JobMemory implements WordStretches, ShapedWords {
  readonly header: Int32Array;
  readonly bounds: Int32Array;
  readonly starts: Int32Array;
  readonly counts: Int32Array;
  readonly widths: Int32Array;
  readonly advances: Int32Array;
  readonly units: Uint16Array;
  readonly glyphs: Uint16Array;
  readonly clusters: Uint16Array;
  readonly moved: Uint8Array;
  readonly unsafe: Uint8Array;

  constructor(
    readonly buffer: SharedArrayBuffer,
    readonly count: number,
    units: number,
  ) {
    const room = roomFor(units);
    let at = 0;
    const next = (bytes: number): number => {
      at += bytes;
      return at - bytes;
    };
    this.header = new Int32Array(buffer, next(4), 1);
    this.bounds = new Int32Array(buffer, next(count * 8), count * 2);
    this.starts = new Int32Array(buffer, next(count * 4), count);
    this.counts = new Int32Array(buffer, next(count * 4), count);
    this.widths = new Int32Array(buffer, next(count * 4), count);
    this.advances = new Int32Array(buffer, next(room * 4), room);
    this.units = new Uint16Array(buffer, next(units * 2), units);
    this.glyphs = new Uint16Array(buffer, next(room * 2), room);
    this.clusters = new Uint16Array(buffer, next(room * 2), room);
    this.moved = new Uint8Array(buffer, next(count), count);
    this.unsafe = new Uint8Array(buffer, next(room), room);
  }

  /** Bytes for so many words of so many units in all. */
  static size(count: number, units: number): number {
    return 4 + count * 21 + units * 2 + roomFor(units) * 9;
  }

  /** Takes shaped words in; false where there is no room for their glyphs. */
  take(shaped: ShapedWords): boolean {
    const { count } = this;
    const glyphs = glyphsOf(shaped, count);
    if (glyphs > this.glyphs.length) return false;
    for (const name of ['starts', 'counts', 'widths', 'moved'] as const)
      this[name].set(shaped[name].subarray(0, count));
    for (const name of ['advances', 'glyphs', 'clusters', 'unsafe'] as const) {
      this[name].set(shaped[name].subarray(0, glyphs));
    }
    return true;
  }
}

/** Glyphs for which there is room: letters with an accent may be taken apart, few fonts do more. */
function roomFor(units: number): number {
  return units * 2 + 16;
}

function glyphsOf({ starts, counts }: ShapedWords, words: number): number {
  let end = 0;
  for (let word = 0; word < words; word++) end = Math.max(end, starts[word]! + counts[word]!);
  return end;
}
