#!/usr/bin/env node
/**
 * Sets up what the tests need: the packages of the lock file, and the programs that outputs are checked with. As root
 * on Debian it installs the missing ones; elsewhere it names them and stops.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');

/** A program that a test calls, and the Debian package that has it. */
const PROGRAMS = [
  { program: 'java', package: 'default-jre-headless', reason: 'EPUBCheck' },
  { program: 'pdftotext', package: 'poppler-utils', reason: 'reading text out of a PDF' },
  { program: 'qpdf', package: 'qpdf', reason: 'checking the structure of a PDF' },
  { program: 'mutool', package: 'mupdf-tools', reason: 'a second reader for PDFs' },
  { program: 'chromium', package: 'chromium', reason: 'opening ebooks and the bench' },
];

function run(command, args) {
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  return result.status === 0;
}

function isInstalled(program) {
  return (process.env.PATH ?? '').split(':').some((folder) => existsSync(join(folder, program)));
}

/** True when every package of the lock file is there in its version. */
function packagesAreInstalled() {
  const marker = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(marker)) return false;
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const present = JSON.parse(readFileSync(marker, 'utf8')).packages;
  return Object.entries(wanted).every(
    ([path, entry]) => path === '' || entry.optional || present[path]?.version === entry.version,
  );
}

if (!packagesAreInstalled() && !run('npm', ['ci', '--no-audit', '--no-fund'])) process.exit(1);

const missing = PROGRAMS.filter(({ program }) => !isInstalled(program));
if (missing.length > 0) {
  const names = missing.map((each) => each.package);
  const canInstall = process.getuid?.() === 0 && isInstalled('apt-get');
  if (!canInstall) {
    for (const each of missing) console.error(`${each.program} is missing (needed for ${each.reason}).`);
    console.error(`Install these and run the tests again: ${names.join(' ')} (the names of Debian's packages).`);
    process.exit(1);
  }
  if (
    !run('apt-get', ['update', '-qq']) ||
    !run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...names])
  ) {
    console.error(`Could not install ${names.join(', ')}.`);
    process.exit(1);
  }
}
