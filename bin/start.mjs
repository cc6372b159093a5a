#!/usr/bin/env node
/**
 * `npm start`: builds the program where it is missing or older than its sources, then starts it. What the build says goes
 * to standard error, so that standard output holds the address alone.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const built = [join(root, 'dist/start.mjs'), join(root, 'dist/renderer/index.html')];
const SOURCES = ['core', 'electron', 'renderer', 'assets', 'package.json'];

/** When the newest file at or below a path was changed. */
function newest(path) {
  const about = statSync(path);
  if (!about.isDirectory()) return about.mtimeMs;
  return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

function isStale() {
  if (!built.every((path) => existsSync(path))) return true;
  const oldest = Math.min(...built.map((path) => statSync(path).mtimeMs));
  return SOURCES.some((source) => existsSync(join(root, source)) && newest(join(root, source)) > oldest);
}

function build() {
  process.stderr.write('Building the program first.\n');
  const result = spawnSync('npm', ['run', '--silent', 'bundle'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) process.exit(result.status ?? 1);
}

if (isStale()) build();
await import(pathToFileURL(built[0]).href);
