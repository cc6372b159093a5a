/**
 * Bundles what runs only in Electron: `dist/preload.cjs`, one file without imports, since a sandboxed preload script can
 * load nothing but Electron's own module.
 */
import { join, resolve } from 'node:path';
import { defineConfig } from 'vite';

const root = resolve(import.meta.dirname, '../..');

export default defineConfig({
  root,
  logLevel: 'warn',
  publicDir: false,
  ssr: { noExternal: true, external: ['electron'], target: 'node' },
  build: {
    ssr: true,
    target: 'node20',
    outDir: 'dist',
    emptyOutDir: false,
    rollupOptions: {
      input: { preload: join(root, 'electron/shell/preload.ts') },
      output: { format: 'cjs', entryFileNames: '[name].cjs' },
    },
  },
});
