/** Where the built program lies: the folder that holds its scripts, `fonts` and `wasm`. */
import { basename, dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Folders of scripts that are loaded by those that start. */
const BELOW: readonly string[] = ['chunks', 'command'];

/** The folder of the program. What others load is bundled deeper than the scripts that start. */
export function programFolder(): string {
  let here = dirname(fileURLToPath(import.meta.url));
  while (BELOW.includes(basename(here))) here = dirname(here);
  return here;
}
