/**
 * The packaged program: packed by the builder as for Linux, against a stand-in for Electron's runtime folder that carries
 * the same fuse wire. What is packed is compared with what the program loads, both ways.
 */
import { execFileSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, posix, resolve } from 'node:path';
import { extractFile, listPackage } from '@electron/asar';
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { init, parse } from 'es-module-lexer';
import { beforeAll, describe, expect, it } from 'vitest';
import { BUNDLED_FONTS, BUNDLED_MODULES } from '../../electron/services/bundled.ts';
import { freshFolder, root } from '../e2e/command.ts';

/** What Electron's fuse tool looks for in a binary: a sentence, the wire's version, its length, and a fuse each. */
const FUSE_WIRE = Buffer.concat([
  Buffer.from('dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX'),
  Buffer.from([1, 9]),
  Buffer.from('000000000'),
]);

/** A folder shaped like Electron's runtime for Linux. */
function standIn(folder: string): string {
  for (const each of ['resources', 'locales']) mkdirSync(join(folder, each), { recursive: true });
  writeFileSync(join(folder, 'electron'), Buffer.concat([Buffer.from('\x7fELF'), Buffer.alloc(64), FUSE_WIRE]));
  chmodSync(join(folder, 'electron'), 0o755);
  for (const each of ['LICENSE', 'LICENSES.chromium.html', 'resources.pak', 'version', 'locales/en-US.pak']) {
    writeFileSync(join(folder, each), 'stand-in');
  }
  return folder;
}

/** The states of a fuse are characters of the wire. */
const [DISABLED, ENABLED] = [48, 49];

let archive: string;
let packed: readonly string[];
let executable: string;

beforeAll(async () => {
  await init;
  const folder = freshFolder();
  const out = join(folder, 'out');
  execFileSync(
    process.execPath,
    [
      join(root, 'node_modules/electron-builder/cli.js'),
      '--linux',
      '--dir',
      `--config.electronDist=${standIn(join(folder, 'electron'))}`,
      `--config.directories.output=${out}`,
    ],
    { cwd: root, stdio: 'pipe' },
  );
  const unpacked = join(out, readdirSync(out).find((name) => name.endsWith('-unpacked')) ?? '');
  archive = join(unpacked, 'resources/app.asar');
  executable = join(unpacked, 'reglet');
  packed = listPackage(archive, { isPack: false })
    .map((path) => path.replaceAll('\\', '/').slice(1))
    .filter((path) => !('files' in (JSON.parse(statOf(path)) as object)));
}, 120_000);

/** Folders are listed too; a folder's node in the archive holds `files`. */
function statOf(path: string): string {
  try {
    extractFile(archive, path);
    return '{}';
  } catch {
    return '{"files":{}}';
  }
}

function textOf(path: string): string {
  return extractFile(archive, path).toString('utf8');
}

/** The names that a script imports, at once or later; a preload script requires. */
function importsOf(path: string): readonly string[] {
  const text = textOf(path);
  if (path.endsWith('.cjs')) return [...text.matchAll(/\brequire\("([^"]+)"\)/g)].map(([, name]) => name ?? '');
  return parse(text)[0].flatMap(({ specifier }) => specifier ?? []);
}

/** What a script of the program loads of the program. */
function loadsOf(path: string): readonly string[] {
  const names = importsOf(path).filter((name) => name.startsWith('.'));
  return names.map((name) => posix.join(posix.dirname(path), name));
}

/** What it loads from elsewhere. */
function outsidersOf(path: string): readonly string[] {
  return importsOf(path).filter((name) => !/^(\.|node:)/.test(name) && !builtinModules.includes(name));
}

describe('the packaged program', () => {
  it('holds every script that its scripts load', () => {
    const scripts = packed.filter((path) => /\.(mjs|cjs)$/.test(path));
    expect(scripts).toEqual(expect.arrayContaining(['dist/main.mjs', 'dist/preload.cjs']));
    const loaded = scripts.flatMap(loadsOf);
    expect(loaded.length).toBeGreaterThan(20);
    const missing = loaded.filter((path) => !packed.includes(path));
    expect(missing).toEqual([]);
  });

  it('needs no package beside it but Electron itself', () => {
    const needed = packed.filter((path) => /\.(mjs|cjs)$/.test(path)).flatMap(outsidersOf);
    expect([...new Set(needed)].filter((name) => name !== 'electron')).toEqual([]);
    expect(JSON.parse(textOf('package.json'))).toMatchObject({ main: 'dist/main.mjs', dependencies: {} });
  });

  it('holds the window with all that its page names', () => {
    const page = textOf('dist/renderer/index.html');
    const named = [...page.matchAll(/(?:src|href)="\.\/([^"]+)"/g)].map(([, name]) => `dist/renderer/${name}`);
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((path) => !packed.includes(path))).toEqual([]);
    const built = readdirSync(join(root, 'dist/renderer'), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) =>
        posix.join('dist/renderer', posix.relative(join(root, 'dist/renderer'), join(entry.parentPath, entry.name))),
      );
    expect(built.filter((path) => !packed.includes(path))).toEqual([]);
  });

  it('holds every font and module with its licence, the demo, and the licences of what is bundled', () => {
    const wanted = [
      'LICENSE',
      'dist/demo/manuscript.docx',
      'dist/licences/program.md',
      'dist/licences/kernel.md',
      'dist/renderer/licences.md',
      ...BUNDLED_FONTS.flatMap((font) => [`dist/fonts/${font.file}`, `dist/fonts/${font.licenceFile}`]),
      ...BUNDLED_MODULES.map((module) => `dist/wasm/${module.file}`),
      'dist/wasm/harfbuzz-LICENSE.txt',
    ];
    expect(wanted.filter((path) => !packed.includes(path))).toEqual([]);
    for (const font of BUNDLED_FONTS)
      expect(textOf(`dist/fonts/${font.licenceFile}`)).toContain('SIL OPEN FONT LICENSE');
  });

  it('holds nothing that does not belong', () => {
    const belongs = [
      /^(package\.json|LICENSE)$/,
      /^dist\/demo\/manuscript\.docx$/,
      /^dist\/[a-z-]+\.(mjs|cjs)$/,
      /^dist\/chunks\/[\w.-]+\.mjs$/,
      /^dist\/renderer\/([\w-]+\/)?[\w.-]+\.(html|js|css|wasm|svg|png|md|woff2|ttf)$/,
      /^dist\/fonts\/[\w-]+\.(ttf|otf|txt)$/,
      /^dist\/wasm\/[\w-]+\.(wasm|txt)$/,
      /^dist\/licences\/[\w-]+\.md$/,
    ];
    expect(packed.filter((path) => !belongs.some((pattern) => pattern.test(path)))).toEqual([]);
    expect(packed.filter((path) => /\.(ts|tsx|map|tsbuildinfo)$|node_modules|\/test\//.test(path))).toEqual([]);
  });

  it('has its fuses set', async () => {
    const wire = await getCurrentFuseWire(executable);
    const states = (options: readonly FuseV1Options[]): unknown[] => options.map((option) => wire[option]);
    expect(
      states([
        FuseV1Options.RunAsNode,
        FuseV1Options.EnableNodeOptionsEnvironmentVariable,
        FuseV1Options.EnableNodeCliInspectArguments,
        FuseV1Options.GrantFileProtocolExtraPrivileges,
      ]),
    ).toEqual(Array(4).fill(DISABLED));
    expect(
      states([
        FuseV1Options.EnableCookieEncryption,
        FuseV1Options.EnableEmbeddedAsarIntegrityValidation,
        FuseV1Options.OnlyLoadAppFromAsar,
      ]),
    ).toEqual(Array(3).fill(ENABLED));
  });

  it('has an icon of its own', () => {
    expect(existsSync(resolve(root, 'assets/packaging/icon.png'))).toBe(true);
    expect(readFileSync(join(root, 'assets/packaging/icon.png')).subarray(1, 4).toString()).toBe('PNG');
    expect(dirname(executable)).toContain('unpacked');
  });
});
