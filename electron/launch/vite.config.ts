/**
 * Bundles the command itself into `dist/command`, as CommonJS, which `scripts.ts` can load with what V8 kept of it: of
 * modules Node keeps nothing that a program could hand over.
 */
import { rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { defineConfig, type Plugin } from 'vite';

const root = resolve(import.meta.dirname, '../..');

/** What V8 made of earlier scripts goes with them. */
const emptied: Plugin = {
  name: 'emptied',
  buildStart() {
    rmSync(join(root, 'dist/command'), { recursive: true, force: true });
  },
};

export default defineConfig({
  root,
  logLevel: 'warn',
  publicDir: false,
  plugins: [emptied],
  ssr: { noExternal: true, target: 'node' },
  build: {
    ssr: true,
    target: 'node20',
    outDir: 'dist/command',
    emptyOutDir: false,
    minify: false,
    rollupOptions: {
      input: { command: join(root, 'electron/command.ts') },
      output: { format: 'cjs', entryFileNames: '[name].cjs', chunkFileNames: 'chunks/[name]-[hash].cjs' },
    },
  },
});
