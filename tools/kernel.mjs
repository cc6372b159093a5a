#!/usr/bin/env node
/**
 * Compiles the kernel of the paragraph room (`core/paragraph/kernel/assembly`, AssemblyScript) to WebAssembly and writes it
 * beside its door as a script, so that whoever sets paragraphs has it without reading a file. Does nothing where the
 * script is newer than its sources.
 */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const room = 'core/paragraph/kernel';
const sources = join(root, room, 'assembly');
const target = join(root, room, 'binary.ts');

const OPTIONS = ['--runtime', 'stub', '--use', 'abort=', '--noAssert', '--optimizeLevel', '3', '--converge'];

/** Whether nothing that goes into the script has changed since it was written. */
function isFresh() {
  if (!existsSync(target)) return false;
  const parts = readdirSync(sources).map((name) => join(sources, name));
  const made = statSync(target).mtimeMs;
  return [...parts, sources, fileURLToPath(import.meta.url)].every((part) => statSync(part).mtimeMs < made);
}

export async function compileKernel() {
  if (isFresh()) return;
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
    [`${room}/assembly/index.ts`, '--baseDir', root, '--outFile', 'kernel.wasm', ...OPTIONS],
    options,
  );
  if (error) throw error;
  const text = Buffer.from(binary).toString('base64');
  writeFileSync(
    target,
    `/** The compiled kernel, in base64: made by tools/kernel.mjs from the sources in \`assembly\`. */\nexport const KERNEL =\n  '${text}';\n`,
  );
}

/** For Vitest, which calls it before the tests. */
export const setup = compileKernel;

if (process.argv[1] === fileURLToPath(import.meta.url)) await compileKernel();
