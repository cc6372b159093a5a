/**
 * Makes the bytes of a DOCX file in memory, for tests of the reader and of recognition.
 *
 *   docx([p('Chapter One', { style: 'Heading1' }), p(['It was ', r('dark', { italic: true }), note('Very.')])])
 *
 * In: paragraphs, tables and raw XML; out: the zipped package. What the helpers don't know goes in by `xml(...)`.
 */
import { strToU8, zipSync } from 'fflate';

/** What the helpers return; turned into XML when the package is made, so that notes and images get their numbers. */
export interface Piece {
  readonly write: (to: Package) => string;
}

export type Content = string | Piece;

export interface RunLook {
  readonly style?: string;
  readonly italic?: boolean;
  readonly bold?: boolean;
  readonly underline?: boolean;
  readonly smallCaps?: boolean;
  readonly allCaps?: boolean;
  readonly strike?: boolean;
  readonly hidden?: boolean;
  readonly raised?: 'superscript' | 'subscript';
  readonly language?: string;
  /** Points. */
  readonly size?: number;
  /** Further run properties as XML. */
  readonly xml?: string;
}

export interface ParagraphLook {
  /** The style's id: `Heading1`, `Title`, `Quote`; see STYLES below. */
  readonly style?: string;
  readonly align?: 'left' | 'center' | 'right' | 'both';
  /** Points. */
  readonly indentFirst?: number;
  readonly indentLeft?: number;
  readonly indentRight?: number;
  readonly spaceBefore?: number;
  readonly spaceAfter?: number;
  readonly pageBreakBefore?: boolean;
  /** 1 to 9. */
  readonly outlineLevel?: number;
  /** Numbering instance and level (from 0). */
  readonly list?: readonly [id: number, level: number];
  /** The paragraph ends a section; the word is the kind of break *that the section itself began with*. */
  readonly section?: 'nextPage' | 'oddPage' | 'evenPage' | 'continuous';
  /** A line below. */
  readonly rule?: boolean;
  /** The paragraph mark is a tracked deletion. */
  readonly markDeleted?: boolean;
  /** Looks of every run given as plain text. */
  readonly run?: RunLook;
  /** Further paragraph properties as XML. */
  readonly xml?: string;
}

export interface DocxOptions {
  readonly title?: string;
  readonly author?: string;
  readonly language?: string;
  /** W3CDTF, `2024-05-06T07:08:09Z`. */
  readonly modified?: string;
  /** `w:style` elements after the usual ones (a repeated id replaces). */
  readonly styles?: string;
  /** The whole content of `w:styles`, instead of the usual one. */
  readonly allStyles?: string;
  /** The content of `w:numbering`. */
  readonly numbering?: string;
  /** The last `w:sectPr` of the body, `<w:sectPr/>` where not given. */
  readonly section?: string;
  /** More parts, or other content for usual ones; null leaves a usual part out. */
  readonly parts?: Readonly<Record<string, string | Uint8Array | null>>;
  /** More `Relationship` elements of the main part. */
  readonly relationships?: string;
}

const W = 'http://schemas.openxmlformats.org/wordprocessingml/2006/main';
const REL = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** Every namespace that test XML uses, as attributes of a root element. */
export const NAMESPACES = [
  `xmlns:w="${W}"`,
  `xmlns:r="${REL}"`,
  'xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"',
  'xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"',
  'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"',
  'xmlns:pic="http://schemas.openxmlformats.org/drawingml/2006/picture"',
  'xmlns:wps="http://schemas.microsoft.com/office/word/2010/wordprocessingShape"',
  'xmlns:v="urn:schemas-microsoft-com:vml"',
  'xmlns:o="urn:schemas-microsoft-com:office:office"',
  'xmlns:m="http://schemas.openxmlformats.org/officeDocument/2006/math"',
].join(' ');

/** The parts that grow while the content is written. */
class Package {
  readonly notes: Record<'foot' | 'end', string[]> = { foot: [], end: [] };
  readonly relationships: string[] = [];
  readonly media = new Map<string, Uint8Array>();
  readonly comments: string[] = [];

  relate(type: string, target: string, external: boolean): string {
    const id = `rIdX${this.relationships.length + 1}`;
    const mode = external ? ' TargetMode="External"' : '';
    this.relationships.push(`<Relationship Id="${id}" Type="${REL}/${type}" Target="${escapeXml(target)}"${mode}/>`);
    return id;
  }
}

/** Text as XML character data or attribute value. */
export function escapeXml(text: string): string {
  return text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[c] ?? '&quot;');
}

function piece(write: Piece['write']): Piece {
  return { write };
}

function writeAll(to: Package, content: Content | readonly Content[], look?: RunLook): string {
  const list = Array.isArray(content) ? (content as readonly Content[]) : [content as Content];
  return list.map((each) => (typeof each === 'string' ? r(each, look) : each).write(to)).join('');
}

/** XML put in as it stands. */
export function xml(text: string): Piece {
  return piece(() => text);
}

function runProperties(look: RunLook): string {
  const on = (flag: boolean | undefined, name: string) =>
    flag === undefined ? '' : flag ? `<w:${name}/>` : `<w:${name} w:val="0"/>`;
  const inner = [
    look.style ? `<w:rStyle w:val="${look.style}"/>` : '',
    on(look.bold, 'b'),
    on(look.italic, 'i'),
    on(look.allCaps, 'caps'),
    on(look.smallCaps, 'smallCaps'),
    on(look.strike, 'strike'),
    on(look.hidden, 'vanish'),
    look.size === undefined ? '' : `<w:sz w:val="${look.size * 2}"/>`,
    look.underline === undefined ? '' : `<w:u w:val="${look.underline ? 'single' : 'none'}"/>`,
    look.raised ? `<w:vertAlign w:val="${look.raised}"/>` : '',
    look.language ? `<w:lang w:val="${look.language}"/>` : '',
    look.xml ?? '',
  ].join('');
  return inner && `<w:rPr>${inner}</w:rPr>`;
}

const CONTROLS = new Map([
  ['\t', '<w:tab/>'],
  ['\n', '<w:br/>'],
  ['\f', '<w:br w:type="page"/>'],
]);

/** A run. `\t` becomes a tab, `\n` a soft return, `\f` a page break. */
export function r(text: string, look: RunLook = {}): Piece {
  const content = text
    .split(/([\t\n\f])/)
    .map((part) => CONTROLS.get(part) ?? (part && `<w:t xml:space="preserve">${escapeXml(part)}</w:t>`))
    .join('');
  return piece(() => `<w:r>${runProperties(look)}${content}</w:r>`);
}

/** A run of raw XML: `rx('<w:noBreakHyphen/>')`. */
export function rx(content: string, look: RunLook = {}): Piece {
  return piece(() => `<w:r>${runProperties(look)}${content}</w:r>`);
}

const twips = (points: number) => Math.round(points * 20);

function attributes(values: Readonly<Record<string, number | undefined>>): string {
  return Object.entries(values)
    .map(([name, points]) => (points === undefined ? '' : ` w:${name}="${twips(points)}"`))
    .join('');
}

function paragraphProperties(look: ParagraphLook): string {
  const first = look.indentFirst;
  const indent = attributes({
    left: look.indentLeft,
    right: look.indentRight,
    firstLine: first !== undefined && first >= 0 ? first : undefined,
    hanging: first !== undefined && first < 0 ? -first : undefined,
  });
  const spacing = attributes({ before: look.spaceBefore, after: look.spaceAfter });
  const [list, level] = look.list ?? [];
  const inner = [
    look.style ? `<w:pStyle w:val="${look.style}"/>` : '',
    look.pageBreakBefore ? '<w:pageBreakBefore/>' : '',
    list === undefined ? '' : `<w:numPr><w:ilvl w:val="${level}"/><w:numId w:val="${list}"/></w:numPr>`,
    look.rule ? '<w:pBdr><w:bottom w:val="single" w:sz="6" w:space="1" w:color="auto"/></w:pBdr>' : '',
    spacing && `<w:spacing${spacing}/>`,
    indent && `<w:ind${indent}/>`,
    look.align ? `<w:jc w:val="${look.align}"/>` : '',
    look.outlineLevel ? `<w:outlineLvl w:val="${look.outlineLevel - 1}"/>` : '',
    look.xml ?? '',
    look.markDeleted ? '<w:rPr><w:del w:id="900" w:author="Editor"/></w:rPr>' : '',
    look.section ? `<w:sectPr><w:type w:val="${look.section}"/></w:sectPr>` : '',
  ].join('');
  return inner && `<w:pPr>${inner}</w:pPr>`;
}

/** A paragraph; an empty one without arguments. */
export function p(content: Content | readonly Content[] = [], look: ParagraphLook = {}): Piece {
  return piece((to) => `<w:p>${paragraphProperties(look)}${writeAll(to, content, look.run)}</w:p>`);
}

/** A table of rows of cells; a cell is text or blocks. */
export function table(rows: readonly (readonly (Content | readonly Piece[])[])[]): Piece {
  const cell = (to: Package, content: Content | readonly Piece[]) =>
    `<w:tc><w:tcPr/>${typeof content === 'string' ? p(content).write(to) : writeAll(to, content)}</w:tc>`;
  return piece((to) => {
    const body = rows.map((cells) => `<w:tr>${cells.map((each) => cell(to, each)).join('')}</w:tr>`);
    return `<w:tbl><w:tblPr/><w:tblGrid/>${body.join('')}</w:tbl>`;
  });
}

/** A link to a web address, or to a bookmark if it begins with `#`. */
export function link(href: string, content: Content | readonly Content[]): Piece {
  return piece((to) => {
    const target = href.startsWith('#')
      ? `w:anchor="${escapeXml(href.slice(1))}"`
      : `r:id="${to.relate('hyperlink', href, true)}"`;
    return `<w:hyperlink ${target}>${writeAll(to, content)}</w:hyperlink>`;
  });
}

/** A complex field with its instruction and shown result. */
export function field(instruction: string, result: Content | readonly Content[]): Piece {
  return piece((to) => {
    const mark = (type: string) => `<w:r><w:fldChar w:fldCharType="${type}"/></w:r>`;
    const code = `<w:r><w:instrText xml:space="preserve">${escapeXml(instruction)}</w:instrText></w:r>`;
    return `${mark('begin')}${code}${mark('separate')}${writeAll(to, result)}${mark('end')}`;
  });
}

/** A tracked insertion. */
export function ins(content: Content | readonly Content[]): Piece {
  return piece((to) => `<w:ins w:id="901" w:author="Editor">${writeAll(to, content)}</w:ins>`);
}

/** A tracked deletion. */
export function del(text: string): Piece {
  const content = `<w:r><w:delText xml:space="preserve">${escapeXml(text)}</w:delText></w:r>`;
  return piece(() => `<w:del w:id="902" w:author="Editor">${content}</w:del>`);
}

/** A comment on some content. */
export function comment(text: string, content: Content | readonly Content[]): Piece {
  return piece((to) => {
    const id = to.comments.length;
    to.comments.push(`<w:comment w:id="${id}" w:author="Editor">${p(text).write(to)}</w:comment>`);
    const range = (edge: string) => `<w:commentRange${edge} w:id="${id}"/>`;
    return `${range('Start')}${writeAll(to, content)}${range('End')}<w:r><w:commentReference w:id="${id}"/></w:r>`;
  });
}

/** A footnote or endnote: text, or paragraphs. */
export function note(content: Content | readonly Piece[], place: 'foot' | 'end' = 'foot'): Piece {
  return piece((to) => {
    const mark = `<w:r><w:rPr><w:vertAlign w:val="superscript"/></w:rPr><w:${place}noteRef/></w:r>`;
    const body = typeof content === 'string' ? p(` ${content}`).write(to) : writeAll(to, content);
    const marked = body.replace(/<w:p>(<w:pPr>.*?<\/w:pPr>)?/, (open) => open + mark);
    const id = to.notes[place].push(marked) + 1;
    return `<w:r><w:${place}noteReference w:id="${id}"/></w:r>`;
  });
}

/** An inline picture. */
export function image(
  bytes: Uint8Array,
  { alt = '', width = 100, name = 'picture.png' }: { alt?: string; width?: number; name?: string } = {},
): Piece {
  return piece((to) => {
    const file = `${to.media.size + 1}-${name}`;
    to.media.set(`word/media/${file}`, bytes);
    const id = to.relate('image', `media/${file}`, false);
    const cx = Math.round(width * 12700);
    return (
      `<w:r><w:drawing><wp:inline><wp:extent cx="${cx}" cy="${cx}"/>` +
      `<wp:docPr id="${to.media.size}" name="${name}" descr="${escapeXml(alt)}"/>` +
      '<a:graphic><a:graphicData uri="http://schemas.openxmlformats.org/drawingml/2006/picture"><pic:pic>' +
      `<pic:blipFill><a:blip r:embed="${id}"/></pic:blipFill></pic:pic></a:graphicData></a:graphic>` +
      '</wp:inline></w:drawing></w:r>'
    );
  });
}

const style = (type: string, id: string, name: string, rest = '') =>
  `<w:style w:type="${type}" w:styleId="${id}"><w:name w:val="${name}"/>${rest}</w:style>`;

const heading = (level: number) =>
  style(
    'paragraph',
    `Heading${level}`,
    `heading ${level}`,
    `<w:basedOn w:val="Normal"/><w:pPr><w:outlineLvl w:val="${level - 1}"/></w:pPr><w:rPr><w:b/></w:rPr>`,
  );

/** The usual styles: Normal (12 pt, en-US), headings 1 to 3, Title, Subtitle, Quote, notes, links, Emphasis. */
const STYLES = [
  '<w:docDefaults><w:rPrDefault><w:rPr><w:sz w:val="24"/><w:lang w:val="en-US"/></w:rPr></w:rPrDefault></w:docDefaults>',
  '<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/></w:style>',
  heading(1),
  heading(2),
  heading(3),
  style('paragraph', 'Title', 'Title', '<w:basedOn w:val="Normal"/><w:pPr><w:jc w:val="center"/></w:pPr>'),
  style('paragraph', 'Subtitle', 'Subtitle', '<w:basedOn w:val="Normal"/>'),
  style('paragraph', 'Quote', 'Quote', '<w:basedOn w:val="Normal"/><w:rPr><w:i/></w:rPr>'),
  style('paragraph', 'FootnoteText', 'footnote text', '<w:basedOn w:val="Normal"/>'),
  style('character', 'Emphasis', 'Emphasis', '<w:rPr><w:i/></w:rPr>'),
  style('character', 'Hyperlink', 'Hyperlink', '<w:rPr><w:u w:val="single"/></w:rPr>'),
].join('');

const root = (name: string, content: string) => `${HEAD}<w:${name} ${NAMESPACES}>${content}</w:${name}>`;

function notesPart(place: 'foot' | 'end', notes: readonly string[]): string {
  const separator = `<w:${place}note w:type="separator" w:id="0"><w:p><w:r><w:separator/></w:r></w:p></w:${place}note>`;
  const list = notes.map((each, index) => `<w:${place}note w:id="${index + 2}">${each}</w:${place}note>`);
  return root(`${place}notes`, separator + list.join(''));
}

function coreProperties(options: DocxOptions): string {
  const entry = (name: string, value: string | undefined) =>
    value === undefined ? '' : `<${name}>${escapeXml(value)}</${name}>`;
  return (
    `${HEAD}<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties"` +
    ' xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/">' +
    entry('dc:title', options.title) +
    entry('dc:creator', options.author) +
    entry('dc:language', options.language) +
    entry('dcterms:modified', options.modified) +
    '</cp:coreProperties>'
  );
}

const relationships = (list: string) =>
  `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${list}</Relationships>`;

const relationship = (id: string, type: string, target: string) =>
  `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`;

const RELATED = ['styles', 'numbering', 'footnotes', 'endnotes', 'comments'];

/** The bytes of a DOCX file with these blocks. */
export function docx(blocks: readonly Piece[], options: DocxOptions = {}): Uint8Array {
  const files: Record<string, Uint8Array> = {};
  for (const [name, content] of Object.entries(docxParts(blocks, options))) {
    files[name] = typeof content === 'string' ? strToU8(content) : content;
  }
  return zipSync(files, { level: 1, mtime: new Date(1980, 0, 2) });
}

/** The parts of that package before zipping, for tests that look at the XML or spoil it. */
export function docxParts(blocks: readonly Piece[], options: DocxOptions = {}): Record<string, string | Uint8Array> {
  const to = new Package();
  const body = writeAll(to, blocks);
  const metadata = 'http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties';
  const main = RELATED.map((type) => relationship(`rId-${type}`, `${REL}/${type}`, `${type}.xml`)).join('');
  const parts: Record<string, string | Uint8Array | null> = {
    '[Content_Types].xml': `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
    '_rels/.rels': relationships(
      relationship('rId1', `${REL}/officeDocument`, 'word/document.xml') +
        relationship('rId2', metadata, 'docProps/core.xml'),
    ),
    'docProps/core.xml': coreProperties(options),
    'word/document.xml': root('document', `<w:body>${body}${options.section ?? '<w:sectPr/>'}</w:body>`),
    'word/styles.xml': root('styles', options.allStyles ?? STYLES + (options.styles ?? '')),
    'word/numbering.xml': root('numbering', options.numbering ?? ''),
    'word/footnotes.xml': notesPart('foot', to.notes.foot),
    'word/endnotes.xml': notesPart('end', to.notes.end),
    'word/comments.xml': root('comments', to.comments.join('')),
    'word/_rels/document.xml.rels': relationships(main + to.relationships.join('') + (options.relationships ?? '')),
    'word/_rels/footnotes.xml.rels': relationships(to.relationships.join('')),
    'word/_rels/endnotes.xml.rels': relationships(to.relationships.join('')),
    ...Object.fromEntries(to.media),
    ...options.parts,
  };
  return Object.fromEntries(
    Object.entries(parts).filter((each): each is [string, string | Uint8Array] => each[1] !== null),
  );
}
