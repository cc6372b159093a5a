/** Where the built program lies: the folder that holds its scripts, `fonts` and `wasm`. */
import { basename, dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the program. Shared code is bundled one folder deeper than the scripts that start. */
export function programFolder(): string {
  const here = dirname(fileURLToPath(import.meta.url));
  return basename(here) === 'chunks' ? dirname(here) : here;
}
