#!/usr/bin/env node
/**
 * Compiles the kernels of the core (`core/<room>/kernel/assembly`, AssemblyScript) to WebAssembly and writes each beside its
 * door as a script, so that whoever needs it has it without reading a file. Does nothing where the script is newer than its
 * sources.
 */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');

/** Rooms with a kernel, and what they have in common. */
const KERNELS = ['core/paragraph/kernel', 'core/makeup/kernel'];
const COMMON = 'core/base/assembly';

const OPTIONS = ['--runtime', 'stub', '--use', 'abort=', '--noAssert', '--optimizeLevel', '3', '--converge'];

/** Whether nothing that goes into a script has changed since it was written. @param {string} kernel */
function isFresh(kernel) {
  const target = join(root, kernel, 'binary.ts');
  if (!existsSync(target)) return false;
  const folders = [join(root, kernel, 'assembly'), join(root, COMMON)];
  const parts = folders.flatMap((folder) => [folder, ...readdirSync(folder).map((name) => join(folder, name))]);
  const made = statSync(target).mtimeMs;
  return [...parts, fileURLToPath(import.meta.url)].every((part) => statSync(part).mtimeMs < made);
}

/** @param {string} kernel */
async function compile(kernel) {
  const { default: asc } = await import('assemblyscript/asc');
  let binary = new Uint8Array();
  const options = {
    stdout: process.stdout,
    stderr: process.stderr,
    writeFile: (/** @type {string} */ _, /** @type {Uint8Array} */ contents) => {
      binary = contents;
    },
  };
  const { error } = await asc.main(
    [`${kernel}/assembly/index.ts`, '--baseDir', root, '--outFile', 'kernel.wasm', ...OPTIONS],
    options,
  );
  if (error) throw error;
  const text = Buffer.from(binary).toString('base64');
  writeFileSync(
    join(root, kernel, 'binary.ts'),
    `/** The compiled kernel, in base64: made by tools/kernel.mjs from the sources in \`assembly\`. */\nexport const KERNEL =\n  '${text}';\n`,
  );
}

export async function compileKernels() {
  for (const kernel of KERNELS) if (!isFresh(kernel)) await compile(kernel);
}

/** For Vitest, which calls it before the tests. */
export const setup = compileKernels;

if (process.argv[1] === fileURLToPath(import.meta.url)) await compileKernels();
