/** Bundles and runs the kill test (run.ts), which is written in TypeScript like the program that it kills. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';

const root = resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(join(root, 'node_modules/.kill-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
await build({
  root,
  configFile: false,
  logLevel: 'error',
  build: {
    ssr: join(root, 'test/kill/run.ts'),
    outDir: folder,
    target: 'node20',
    rollupOptions: { external: ['vite'], output: { entryFileNames: 'run.mjs' } },
  },
});
await import(pathToFileURL(join(folder, 'run.mjs')).href);
