/**
 * Writes manuscript.docx, the kind of file that authors send, and truth.json, what an import of it must find, both from
 * the sources in text/, into this folder or the one named as argument. The same sources give the same bytes.
 */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Document, Packer } from 'docx';
import { unzipSync, zipSync } from 'fflate';
import { ALT, drawMap } from './drawing.mjs';
import { composeManuscript } from './manuscript.mjs';
import { readSource } from './source.mjs';
import { truthOf } from './truth.mjs';

/** The date that the file bears, whatever day it is written. */
const WRITTEN = '2026-01-09T10:00:00Z';
/** Archives keep local time without a zone: local parts give the same bytes everywhere. */
const ARCHIVED = new Date(2026, 0, 9, 10, 0, 0);

const here = dirname(fileURLToPath(import.meta.url));
const folder = process.argv[2] ?? here;

async function main() {
  const source = readSource(join(here, 'text'));
  const drawing = { bytes: await drawMap(), width: 1500, height: 1020, alt: ALT };
  const document = new Document(composeManuscript({ source, drawing, written: WRITTEN }));
  const bytes = withFixedDates(new Uint8Array(await Packer.toBuffer(document)));
  writeFileSync(join(folder, 'manuscript.docx'), bytes);
  writeFileSync(join(folder, 'truth.json'), `${JSON.stringify(truthOf(source), null, 2)}\n`);
  const words = truthOf(source).sections.reduce((sum, section) => sum + section.words, 0);
  console.log(`manuscript.docx: ${words} words, ${bytes.length} bytes`);
}

/**
 * The same archive with fixed dates, inside and out, its entries in order of name after the one that says what it is.
 * @param {Uint8Array} bytes
 */
function withFixedDates(bytes) {
  const entries = unzipSync(bytes);
  const names = Object.keys(entries).filter((name) => !name.endsWith('/'));
  names.sort((a, b) => Number(b === '[Content_Types].xml') - Number(a === '[Content_Types].xml') || (a < b ? -1 : 1));
  /** @type {import('fflate').Zippable} */
  const archive = {};
  for (const name of names) {
    const entry = entries[name] ?? new Uint8Array();
    archive[name] = name === 'docProps/core.xml' ? dated(entry) : entry;
  }
  return zipSync(archive, { mtime: ARCHIVED, level: 9 });
}

/** @param {Uint8Array} xml */
function dated(xml) {
  const text = new TextDecoder().decode(xml);
  return new TextEncoder().encode(text.replace(/(<dcterms:(?:created|modified)[^>]*>)[^<]*/g, `$1${WRITTEN}`));
}

await main();
