/**
 * Runs the scripts of the built command, and spares V8 from compiling them anew at every start. In: a folder of CommonJS
 * scripts, beside each of them perhaps what V8 made of it before; out: what a script exports. What was kept is V8's own
 * and only good for the very same V8 with the very same flags: V8 looks, and compiles as ever where it is not.
 */
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { Script } from 'node:vm';

type Exports = Readonly<Record<string, unknown>>;
type Body = (exports: Exports, require: (name: string) => unknown, module: { exports: Exports }, file: string) => void;

interface Loaded {
  readonly script: Script;
  readonly source: Uint8Array;
  readonly module: { exports: Exports };
}

/** What V8 made of a script lies beside it, after the digest of the script. */
const keptBeside = (file: string): string => `${file}.cache`;
const DIGEST = 32;

/** V8 itself compares no more of a script than its length. */
function digestOf(source: Uint8Array): Buffer {
  return createHash('sha256').update(source).digest();
}

export class Scripts {
  private readonly loaded = new Map<string, Loaded>();
  private readonly builtIn: NodeJS.Require;

  constructor(private readonly folder: string) {
    this.builtIn = createRequire(join(folder, 'scripts.cjs'));
  }

  /** What a script of the folder exports; it is run when it is first asked for. */
  load(name: string): Exports {
    const file = resolve(this.folder, name);
    const known = this.loaded.get(file);
    if (known) return known.module.exports;
    const source = readFileSync(file);
    const script = new Script(`(function (exports, require, module, __filename) {${source.toString('utf8')}\n})`, {
      filename: file,
      ...keptOf(file, source),
    });
    const module = { exports: {} };
    this.loaded.set(file, { script, source, module });
    const body = script.runInThisContext() as Body;
    body(module.exports, (wanted) => this.require(file, wanted), module, file);
    return module.exports;
  }

  /** For each script that was run, whether V8 took what was kept of it; none of those of which nothing was kept. */
  taken(): ReadonlyMap<string, boolean> {
    const taken = new Map<string, boolean>();
    for (const [file, { script }] of this.loaded) {
      if (script.cachedDataRejected !== undefined) taken.set(file, !script.cachedDataRejected);
    }
    return taken;
  }

  /** Keeps what V8 has made of the scripts so far, with every function that ran. */
  keep(): void {
    for (const [file, { script, source }] of this.loaded) {
      writeFileSync(keptBeside(file), Buffer.concat([digestOf(source), script.createCachedData()]));
    }
  }

  private require(from: string, wanted: string): unknown {
    return wanted.startsWith('.') ? this.load(resolve(from, '..', wanted)) : this.builtIn(wanted);
  }
}

function keptOf(file: string, source: Uint8Array): { readonly cachedData?: Buffer } {
  try {
    const kept = readFileSync(keptBeside(file));
    return kept.subarray(0, DIGEST).equals(digestOf(source)) ? { cachedData: kept.subarray(DIGEST) } : {};
  } catch {
    // Nothing was kept.
    return {};
  }
}
