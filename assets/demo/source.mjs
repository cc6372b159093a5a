/**
 * The demo's source: plain text files with a light markup of their own come in, a list of sections with their blocks
 * goes out. The text is kept clean here; how an author would have typed it is the business of untidy.mjs.
 *
 * Markup: a head of `key: value` lines and a blank line, then paragraphs with blank lines between them.
 *   _emphasis_   ^[a note]   {-deleted-}{+inserted+}   #star #hash #blank (scene breaks)   [image FILE] caption
 *   [letter] ... [/letter], and the same for sign, telegram and poem; in a poem each line is a verse, `>` indents it.
 * Front and back matter share a file: `[dedication]` alone begins the section of that kind.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * @typedef {{ kind: 'text', text: string, emphasis: boolean, change: 'none' | 'deleted' | 'inserted' }
 *   | { kind: 'note', spans: Span[] }} Span
 * @typedef {'body' | 'letter' | 'sign' | 'telegram' | 'poem' | 'attribution'} Role
 * @typedef {{ kind: 'paragraph', role: Role, spans: Span[], indent: number }
 *   | { kind: 'stanzaEnd' }
 *   | { kind: 'setOffStart' | 'setOffEnd', role: Role }
 *   | { kind: 'sceneBreak', notation: 'star' | 'hash' | 'blank' }
 *   | { kind: 'image', file: string, caption: string }} Block
 * @typedef {{ kind: string, heading: string | null, title: string | null, blocks: Block[],
 *   manner: Record<string, string> }} Section
 * @typedef {{ title: string, author: string, front: Section[], body: Section[], back: Section[] }} Source
 */

/** The set-off texts that the markup knows. */
const SET_OFF = ['letter', 'sign', 'telegram', 'poem'];

/** What the short names of front and back matter stand for, and the heading that an author gives each. */
const MATTER = {
  copyright: { kind: 'copyright', heading: null },
  dedication: { kind: 'dedication', heading: null },
  epigraph: { kind: 'epigraph', heading: null },
  acknowledgments: { kind: 'acknowledgments', heading: 'Acknowledgments' },
  about: { kind: 'aboutAuthor', heading: 'About the Author' },
};

/**
 * Read every file of the folder in the order of the names.
 * @param {string} folder
 * @returns {Source}
 */
export function readSource(folder) {
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.txt'))
    .sort();
  const first = files[0];
  const last = files.at(-1);
  if (first === undefined || last === undefined) throw new RangeError(`no text in ${folder}`);
  const read = (/** @type {string} */ name) => readFileSync(join(folder, name), 'utf8');
  const { head, rest } = splitHead(read(first));
  return {
    title: head['title'] ?? '',
    author: head['author'] ?? '',
    front: parseMatter(rest),
    body: files.slice(1, -1).map((name) => parseSection(read(name))),
    back: parseMatter(read(last)),
  };
}

/** @param {string} text */
function splitHead(text) {
  const end = text.indexOf('\n\n');
  /** @type {Record<string, string>} */
  const head = {};
  for (const line of text.slice(0, end).split('\n')) {
    const colon = line.indexOf(':');
    head[line.slice(0, colon)] = line.slice(colon + 1).trim();
  }
  return { head, rest: text.slice(end + 2) };
}

/** @param {string} text @returns {Section} */
function parseSection(text) {
  const { head, rest } = splitHead(text);
  const { kind = 'chapter', heading = '', title = '', ...manner } = head;
  return { kind, heading, title: title === '' ? null : title, manner, blocks: parseBlocks(rest) };
}

/** @param {string} text @returns {Section[]} */
function parseMatter(text) {
  return text
    .split(/^\[(?=(?:copyright|dedication|epigraph|acknowledgments|about)\])/m)
    .filter((piece) => piece.trim() !== '')
    .map((piece) => {
      const close = piece.indexOf(']');
      const matter = MATTER[/** @type {keyof typeof MATTER} */ (piece.slice(0, close))];
      return { ...matter, title: matter.heading, manner: {}, blocks: parseBlocks(piece.slice(close + 1)) };
    });
}

/** @param {string} text @returns {Block[]} */
function parseBlocks(text) {
  /** @type {Block[]} */
  const blocks = [];
  /** @type {Role} */
  let role = 'body';
  for (const piece of text.split(/\n\n+|\n(?=\[\/)|(?<=^\[(?:letter|sign|telegram|poem)\])\n/m)) {
    const line = piece.trim();
    if (line === '') continue;
    const tag = /^\[(\/?)(\w+)\]$/.exec(line);
    if (tag && SET_OFF.includes(tag[2] ?? '')) {
      const named = /** @type {Role} */ (tag[2]);
      role = tag[1] === '' ? named : 'body';
      blocks.push({ kind: tag[1] === '' ? 'setOffStart' : 'setOffEnd', role: named });
    } else blocks.push(...parsePiece(line, role));
  }
  return blocks;
}

/** @param {string} line @param {Role} role @returns {Block[]} */
function parsePiece(line, role) {
  const mark = /^#(star|hash|blank)$/.exec(line);
  if (mark) return [{ kind: 'sceneBreak', notation: /** @type {'star' | 'hash' | 'blank'} */ (mark[1]) }];
  const image = /^\[image (\S+)\] (.+)$/.exec(line);
  if (image) return [{ kind: 'image', file: image[1] ?? '', caption: image[2] ?? '' }];
  if (role === 'poem') return [...line.split('\n').map(parseVerse), { kind: 'stanzaEnd' }];
  const attribution = /^-- (.+)$/.exec(line);
  if (attribution) {
    return [{ kind: 'paragraph', role: 'attribution', spans: parseSpans(attribution[1] ?? ''), indent: 0 }];
  }
  return [{ kind: 'paragraph', role, spans: parseSpans(line), indent: 0 }];
}

/** @param {string} line @returns {Block} */
function parseVerse(line) {
  const text = line.replace(/^>+/, '');
  return { kind: 'paragraph', role: 'poem', spans: parseSpans(text), indent: line.length - text.length };
}

/**
 * Split a paragraph's text into spans.
 * @param {string} text
 * @returns {Span[]}
 */
export function parseSpans(text) {
  /** @type {Span[]} */
  const spans = [];
  let emphasis = false;
  for (const piece of text.split(/(\^\[[^\]]*\]|\{-.*?-\}|\{\+.*?\+\}|_)/)) {
    if (piece === '_') emphasis = !emphasis;
    else if (piece.startsWith('^[')) spans.push({ kind: 'note', spans: parseSpans(piece.slice(2, -1)) });
    else if (piece.startsWith('{-')) {
      spans.push({ kind: 'text', text: piece.slice(2, -2), emphasis, change: 'deleted' });
    } else if (piece.startsWith('{+')) {
      spans.push({ kind: 'text', text: piece.slice(2, -2), emphasis, change: 'inserted' });
    } else if (piece !== '') spans.push({ kind: 'text', text: piece, emphasis, change: 'none' });
  }
  if (emphasis) throw new RangeError(`unclosed emphasis in ${JSON.stringify(text)}`);
  return spans;
}
