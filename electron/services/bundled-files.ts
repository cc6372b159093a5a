/** The files that lie beside the program: WebAssembly modules, fonts, licences. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { programFolder } from './program.ts';

// Read at once, not by way of the thread pool: the few megabytes are there in less time than the turns would take.

/** A bundled WebAssembly module's bytes. */
export function wasmBytes(file: string): Uint8Array {
  return readFileSync(join(programFolder(), 'wasm', file));
}

/** A bundled font's bytes. */
export function fontBytes(file: string): Uint8Array {
  return readFileSync(join(programFolder(), 'fonts', file));
}

/** The licence that travels with a bundled font. */
export function fontLicence(file: string): string {
  return readFileSync(join(programFolder(), 'fonts', file), 'utf8');
}
