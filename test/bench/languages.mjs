/**
 * The typographic figures of prose in English, French and German, in every design and at three trims, read from the PDFs:
 * `node test/bench/languages.mjs`, after `npm run build`. The texts are fetched (see novels.mjs); what can't be had is left out.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { manuscripts } from './novels.mjs';
import { qualityOf } from './quality.mjs';
import { percent, table } from './tables.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const folder = join(root, '.cache/bench/languages');
const command = resolve(process.env['REGLET'] ?? join(root, 'dist/reglet.mjs'));
const DESIGNS = ['quoin', 'tympan', 'frisket'];
const TRIMS = ['5x8in', '5.5x8.5in', '6x9in'];

/** @param {string} manuscript @param {string} design @param {string} trim */
function figures(manuscript, design, trim) {
  const out = join(folder, 'out');
  rmSync(out, { recursive: true, force: true });
  const options = ['--edition', 'print', '--design', design, '--trim', trim, '--out', out];
  const run = spawnSync(process.execPath, [command, 'make', manuscript, ...options], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(run.stderr);
  const pdf = readdirSync(out, { recursive: true }).find((name) => String(name).endsWith('.pdf'));
  const q = qualityOf(join(out, String(pdf)));
  return [
    percent(q.hyphenShare),
    q.spaceMean.toFixed(2),
    percent(q.looseShare),
    percent(q.tightShare),
    String(q.hyphenRuns),
    `${q.widows}, ${q.orphans}`,
    percent(q.unevenShare),
    percent(q.turnShare),
    percent(q.runtShare, 2),
  ];
}

const HEAD = ['hyphens', 'mean', 'over 1.5x', 'under 0.75x', 'three', 'alone', 'unequal', 'at the turn', 'short words'];

/** @returns {ReadonlyMap<string, string>} */
function texts() {
  const found = manuscripts(folder);
  if (found === null) console.log('The packages with the texts are not to be had: only what the bench has kept.\n');
  const kept = join(root, '.cache/bench/moby-dick.docx');
  return new Map([...(found ?? []), ...(existsSync(kept) ? [/** @type {const} */ (['bench novel', kept])] : [])]);
}

for (const [id, manuscript] of texts()) {
  const rows = DESIGNS.flatMap((design) =>
    TRIMS.map((trim) => [`${design}, ${trim}`, ...figures(manuscript, design, trim)]),
  );
  table([[id, ...HEAD], ...rows]);
}
