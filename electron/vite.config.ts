/**
 * Bundles the headless command into `dist/reglet.mjs` and what opens the window into `dist/start.mjs`, with the workers,
 * the WebAssembly modules and the fonts beside them, so that a start reads one script instead of hundreds of modules.
 */
import { cpSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { defineConfig, type Plugin } from 'vite';
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

function copyBundledFiles(dist: string): void {
  for (const folder of ['fonts', 'wasm']) mkdirSync(join(dist, folder), { recursive: true });
  for (const font of BUNDLED_FONTS) {
    cpSync(join(packageFolder(font.package), font.path), join(dist, 'fonts', font.file));
    cpSync(join(packageFolder(font.package), font.licencePath), join(dist, 'fonts', font.licenceFile));
  }
  for (const module of BUNDLED_MODULES) {
    cpSync(join(packageFolder(module.package), module.path), join(dist, 'wasm', module.file));
    const { licence } = module;
    if (licence) cpSync(join(packageFolder(module.package), licence.path), join(dist, 'wasm', licence.file));
  }
}

/** The kernel of the paragraph room has its compiler's run-time code in it. */
function copyKernelLicence(dist: string): void {
  mkdirSync(join(dist, 'licences'), { recursive: true });
  cpSync(join(packageFolder('assemblyscript'), 'LICENSE'), join(dist, 'licences/kernel.md'));
}

function copyDemo(dist: string): void {
  mkdirSync(join(dist, 'demo'), { recursive: true });
  cpSync(join(root, 'assets/demo/manuscript.docx'), join(dist, 'demo/manuscript.docx'));
}

/** Takes away the scripts of earlier builds; what else lies there stays. */
function dropOldScripts(dist: string, written: ReadonlySet<string>): void {
  const scripts = [...readdirSync(dist), ...readdirSync(join(dist, 'chunks')).map((name) => `chunks/${name}`)];
  for (const script of scripts) {
    if (script.endsWith('.mjs') && !written.has(script)) rmSync(join(dist, script), { force: true });
  }
}

/** What lies beside the scripts. */
const bundledFiles: Plugin = {
  name: 'bundled-files',
  writeBundle(options, bundle) {
    const dist = options.dir ?? join(root, 'dist');
    dropOldScripts(dist, new Set(Object.keys(bundle)));
    copyBundledFiles(dist);
    copyKernelLicence(dist);
    copyDemo(dist);
  },
};

export default defineConfig({
  root,
  logLevel: 'warn',
  publicDir: false,
  plugins: [bundledFiles],
  ssr: { noExternal: true, external: ['electron'], target: 'node' },
  build: {
    ssr: true,
    target: 'node20',
    outDir: 'dist',
    emptyOutDir: false,
    minify: false,
    // Every library that travels inside the program, with its licence.
    license: { fileName: 'licences/program.md' },
    rollupOptions: {
      input: {
        reglet: join(root, 'electron/reglet.ts'),
        launch: join(root, 'electron/launch/index.ts'),
        warm: join(root, 'electron/warm.ts'),
        'cover-thread': join(root, 'electron/cover-thread.ts'),
        start: join(root, 'electron/start.ts'),
        main: join(root, 'electron/main.ts'),
        'import-worker': join(root, 'electron/import-worker.ts'),
        'press-worker': join(root, 'electron/press-worker.ts'),
        'pack-thread': join(root, 'electron/pack-thread.ts'),
        'shaping-thread': join(root, 'electron/shaping-thread.ts'),
      },
      output: {
        entryFileNames: '[name].mjs',
        chunkFileNames: 'chunks/[name]-[hash].mjs',
        banner: '#!/usr/bin/env node',
      },
    },
  },
});
