/** Counts what the manuscript holds, from its clean source: sections in, the content of truth.json out. */

/** @typedef {import('./truth.ts').DemoTruth} DemoTruth */
/** @typedef {import('./truth.ts').DemoSection} DemoSection */
/** @typedef {import('./source.mjs').Section} Section */
/** @typedef {import('./source.mjs').Span} Span */

/** Between the lines of a heading that stands on more than one; a heading reads as one line. */
const LINE_END = ' / ';

const WORD = /[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*/gu;

/**
 * @param {import('./source.mjs').Source} source
 * @returns {DemoTruth}
 */
export function truthOf(source) {
  const sections = [...source.front, ...source.body, ...source.back].map(count);
  return { title: source.title, author: source.author, sections };
}

/** @param {Section} section @returns {DemoSection} */
function count(section) {
  const counts = { words: 0, sceneBreaks: 0, notes: 0, emphases: 0, images: 0 };
  for (const block of section.blocks) {
    if (block.kind === 'sceneBreak') counts.sceneBreaks += 1;
    else if (block.kind === 'image') {
      counts.images += 1;
      counts.words += wordsIn(block.caption);
    } else if (block.kind === 'paragraph') {
      counts.words += wordsIn(finalText(block.spans));
      counts.notes += block.spans.filter((span) => span.kind === 'note').length;
      counts.emphases += block.spans.filter((span) => span.kind === 'text' && span.emphasis).length;
    }
  }
  const heading = section.heading?.replace(LINE_END, ': ') ?? null;
  return { kind: section.kind, heading, title: section.title, ...counts };
}

/** Authors type the copyright sign as a c in brackets, which is no word. @param {string} text */
function wordsIn(text) {
  return text.replace('Copyright (c)', 'Copyright \u00a9').match(WORD)?.length ?? 0;
}

/** The text as finally accepted. @param {readonly Span[]} spans */
function finalText(spans) {
  return spans.map((span) => (span.kind === 'text' && span.change !== 'deleted' ? span.text : '')).join('');
}
