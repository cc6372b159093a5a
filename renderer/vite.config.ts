/** Bundles the window into `dist/renderer`: one page, its worker and its pictures, addressed relative to the page. */
import { resolve } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const root = import.meta.dirname;

export default defineConfig({
  root,
  base: './',
  logLevel: 'warn',
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: resolve(root, '../dist/renderer'),
    emptyOutDir: true,
    target: 'chrome130',
    sourcemap: false,
    license: { fileName: 'licences.md' },
    // Everything is a file of its own, so that the content security policy can do without data addresses.
    assetsInlineLimit: 0,
  },
});
