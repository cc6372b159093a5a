/**
 * Prose in three languages that is not part of the project: out of packages that Debian carries, fetched when the bench
 * asks for them and kept in `.cache`. Novels out of copyright come from the texts that a generator of sample data is
 * seeded with; the modern prose with much dialogue from the translations of a game's campaigns. Each becomes a DOCX as an
 * author would send it: straight quotation marks, two hyphens for a dash, no French spaces.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { toDocx } from './novel.mjs';

/** @typedef {import('./novel.mjs').Chapter} Chapter */
/** @typedef {{ id: string, about: import('./novel.mjs').About, chapters: (folder: string) => Chapter[] }} Source */

const SAMPLES = 'php-faker';
const GAME = 'wesnoth-1.16-utbs';

/** @type {readonly Source[]} */
const SOURCES = [
  {
    id: 'fr-novel',
    about: { title: 'Madame Bovary', author: 'Gustave Flaubert', language: 'fr-FR' },
    chapters: (folder) => byHeadings(sample(folder, 'fr_FR'), /^[IVXL]+$/),
  },
  {
    id: 'fr-tales',
    about: { title: 'La Chasse-galerie', author: 'Honoré Beaugrand', language: 'fr-CA' },
    chapters: (folder) => byHeadings(sample(folder, 'fr_CA'), /^[IVXL]+$/),
  },
  {
    id: 'fr-dialogue',
    about: { title: 'Sous les soleils', author: '', language: 'fr-FR' },
    chapters: (folder) => spoken(folder, 'fr'),
  },
  {
    id: 'de-letters',
    about: { title: 'Die Leiden des jungen Werther', author: 'Johann Wolfgang von Goethe', language: 'de-DE' },
    chapters: (folder) => gathered(byHeadings(sample(folder, 'de_DE'), /^(?:Am|Den) \d+\. \S+(?: \d+)?$/), 6),
  },
  {
    id: 'de-dialogue',
    about: { title: 'Unter den Sonnen', author: '', language: 'de-DE' },
    chapters: (folder) => spoken(folder, 'de'),
  },
  {
    id: 'en-novel',
    about: { title: 'Alice’s Adventures in Wonderland', author: 'Lewis Carroll', language: 'en-GB' },
    chapters: (folder) => byHeadings(sample(folder, 'en_US'), /^CHAPTER [IVX]+\. /),
  },
];

/** Fetches what is not there yet. Gives the manuscripts' paths by their names; null where a package can't be had. */
/** @param {string} folder @returns {ReadonlyMap<string, string> | null} */
export function manuscripts(folder) {
  mkdirSync(folder, { recursive: true });
  if (![SAMPLES, GAME].every((name) => fetched(folder, name))) return null;
  /** @type {Map<string, string>} */
  const paths = new Map();
  for (const { id, about, chapters } of SOURCES) {
    const path = join(folder, `${id}.docx`);
    if (!existsSync(path)) writeFileSync(path, toDocx(chapters(folder), about));
    paths.set(id, path);
  }
  return paths;
}

/** Downloads a package and unpacks it, without installing anything. @param {string} folder @param {string} name */
function fetched(folder, name) {
  const into = join(folder, name);
  if (existsSync(into)) return true;
  if (spawnSync('apt-get', ['download', name], { cwd: folder }).status !== 0) return false;
  const file = readdirSync(folder).find((each) => each.startsWith(`${name}_`) && each.endsWith('.deb'));
  return file !== undefined && spawnSync('dpkg-deb', ['-x', join(folder, file), into]).status === 0;
}

/** The text that a locale's sentences are made from. @param {string} folder @param {string} locale */
function sample(folder, locale) {
  const file = join(folder, SAMPLES, 'usr/share/php/Faker/Provider', locale, 'Text.php');
  return /<<<'EOT'\n([\s\S]*?)\nEOT;/.exec(readFileSync(file, 'utf8'))?.[1] ?? '';
}

/** Chapters that begin at lines of a form; what stands before the first is left out. @param {string} text @param {RegExp} heading */
function byHeadings(text, heading) {
  /** @type {Chapter[]} */
  const chapters = [];
  for (const block of text.split(/\n\s*\n/)) {
    // A compound divided at its own hyphen where a line of the file ended.
    const whole = block.replace(/(\p{L}-)\n(?=\p{L})/gu, '$1');
    const line = whole.replace(/\s+/g, ' ').replaceAll('_', '').trim();
    if (heading.test(line)) chapters.push({ heading: line, paragraphs: [] });
    else if (line !== '' && !/^\p{Lu}+ PARTIE$/u.test(line)) chapters.at(-1)?.paragraphs.push(line);
  }
  return chapters;
}

/** So many chapters made into one; their headings become paragraphs. @param {readonly Chapter[]} chapters @param {number} many */
function gathered(chapters, many) {
  /** @type {Chapter[]} */
  const books = [];
  for (const [i, { heading, paragraphs }] of chapters.entries()) {
    if (i % many === 0) books.push({ heading: `${books.length + 1}`, paragraphs: [] });
    books.at(-1)?.paragraphs.push(heading, ...paragraphs);
  }
  return books;
}

const LONG_ENOUGH = 60;
const TO_A_CHAPTER = 90;

/** The speeches and reports of a campaign; not in the order of its story, which their files do not tell. */
/** @param {string} folder @param {string} language */
function spoken(folder, language) {
  const root = join(folder, GAME, 'usr/share/games/wesnoth');
  const path = readdirSync(root, { recursive: true }).find((each) =>
    String(each).endsWith(`locale/${language}/LC_MESSAGES/wesnoth-utbs.mo`),
  );
  const texts = translations(readFileSync(join(root, String(path))))
    .map((text) => text.replace(/\s+/g, ' ').trim())
    .filter((text) => text.length >= LONG_ENOUGH && /[.!?\u2026»“"]$/.test(text) && !/[<>{}|^]/.test(text));
  /** @type {Chapter[]} */
  const chapters = [];
  for (let from = 0; from < texts.length; from += TO_A_CHAPTER) {
    chapters.push({ heading: `${chapters.length + 1}`, paragraphs: texts.slice(from, from + TO_A_CHAPTER) });
  }
  return chapters;
}

/** The translations in a compiled catalogue (GNU gettext's .mo, written by a machine that puts low bytes first). */
/** @param {Buffer} mo */
function translations(mo) {
  const count = mo.readUInt32LE(8);
  const table = mo.readUInt32LE(16);
  return Array.from({ length: count }, (_, i) => {
    const from = mo.readUInt32LE(table + i * 8 + 4);
    return mo.toString('utf8', from, from + mo.readUInt32LE(table + i * 8));
  }).slice(1);
}
