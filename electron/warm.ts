/**
 * The last step of a build: makes the demo book with the built command, and keeps what V8 compiled on the way, so that
 * later starts need not.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { commandScripts, compileForShortRun } from './launch/index.ts';
import { programFolder } from './services/program.ts';

compileForShortRun();
const scripts = commandScripts();
const { main } = scripts.load('command.cjs') as typeof import('./command.ts');
const out = mkdtempSync(join(tmpdir(), 'reglet-build-'));
const write = process.stdout.write;
try {
  process.stdout.write = () => true;
  const status = await main(['make', join(programFolder(), 'demo/manuscript.docx'), '--out', out]);
  if (status !== 0) throw new Error('the built command could not make the demo book');
  scripts.keep();
} finally {
  process.stdout.write = write;
  rmSync(out, { recursive: true, force: true });
}
process.exit(0);
