/**
 * Bundles the headless command into `dist/reglet.mjs`, with the WebAssembly modules and the fonts beside it, so that
 * a start reads one script instead of hundreds of modules.
 */
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { defineConfig } from 'vite';
import { BUNDLED_FONTS, BUNDLED_MODULES } from './services/bundled.ts';

const root = resolve(import.meta.dirname, '..');
const require = createRequire(import.meta.url);

/** The folder of an installed package. */
function packageFolder(name: string): string {
  const manifest = `${name}/package.json`;
  try {
    return dirname(require.resolve(manifest));
  } catch {
    return join(root, 'node_modules', name);
  }
}

function copyBundledFiles(): void {
  const dist = join(root, 'dist');
  for (const folder of ['fonts', 'wasm']) mkdirSync(join(dist, folder), { recursive: true });
  for (const font of BUNDLED_FONTS) {
    cpSync(join(packageFolder(font.package), font.path), join(dist, 'fonts', font.file));
    cpSync(join(packageFolder(font.package), font.licencePath), join(dist, 'fonts', font.licenceFile));
  }
  for (const module of BUNDLED_MODULES) {
    cpSync(join(packageFolder(module.package), module.path), join(dist, 'wasm', module.file));
  }
}

export default defineConfig({
  root,
  logLevel: 'warn',
  publicDir: false,
  plugins: [
    {
      name: 'bundled-files',
      // Old chunks go; the type declarations beside them stay.
      buildStart: () => rmSync(join(root, 'dist/chunks'), { recursive: true, force: true }),
      closeBundle: copyBundledFiles,
    },
  ],
  ssr: { noExternal: true, target: 'node' },
  build: {
    ssr: true,
    target: 'node20',
    outDir: 'dist',
    emptyOutDir: false,
    minify: false,
    rollupOptions: {
      input: {
        reglet: join(root, 'electron/command.ts'),
        'ebook-worker': join(root, 'electron/ebook-worker.ts'),
      },
      output: {
        entryFileNames: '[name].mjs',
        chunkFileNames: 'chunks/[name]-[hash].mjs',
        banner: '#!/usr/bin/env node',
      },
    },
  },
});
