/**
 * Navigation: the nav document, and the NCX for reading systems that are older than it. In: the files of the book in
 * spine order and the page breaks written into them; out: two documents.
 */

import { xhtmlDocument } from './page.ts';
import type { PageMark } from './pages.ts';
import { attributes, escapeText, XML_DECLARATION } from './xml.ts';

export interface NavEntry {
  readonly label: string;
  /** From the package document. */
  readonly href: string;
  readonly children: readonly NavEntry[];
}

export interface Landmark {
  readonly type: string;
  readonly label: string;
  readonly href: string;
}

export interface Navigation {
  readonly language: string;
  /** The heading of the contents. */
  readonly title: string;
  readonly toc: readonly NavEntry[];
  readonly landmarks: readonly Landmark[];
  readonly landmarksLabel: string;
  readonly pages: readonly PageMark[];
  readonly pagesLabel: string;
  /** What stands before the contents in the body: page breaks. */
  readonly before: string;
  /** Id attribute of the contents section that this document stands for. */
  readonly sectionId: string;
}

/** Where the contents begin in the nav document. */
export const TOC_ID = 'x-toc';

export function navDocument(navigation: Navigation): string {
  const { title, toc, before, sectionId } = navigation;
  const nav = `<nav id="${TOC_ID}" epub:type="toc" role="doc-toc" aria-labelledby="x-toc-title">\n<h1 id="x-toc-title" class="opener"><span class="title">${escapeText(title)}</span></h1>\n${tocList(toc)}</nav>\n`;
  return xhtmlDocument({
    title,
    language: navigation.language,
    style: 'style.css',
    division: 'frontmatter',
    body: `<div class="contents opener-matter"${sectionId}>\n${before}${nav}</div>\n${landmarksNav(navigation)}${pageListNav(navigation)}`,
  });
}

function tocList(entries: readonly NavEntry[]): string {
  const items = entries.map((entry) => {
    const inner = entry.children.length > 0 ? `\n${tocList(entry.children)}` : '';
    return `<li${inner === '' ? '' : ' class="part"'}>${linkTo(entry.href, entry.label)}${inner}</li>\n`;
  });
  return `<ol>\n${items.join('')}</ol>\n`;
}

function landmarksNav({ landmarks, landmarksLabel }: Navigation): string {
  if (landmarks.length === 0) return '';
  const items = landmarks.map((mark) => `<li>${linkTo(mark.href, mark.label, mark.type)}</li>\n`);
  return hiddenNav({ type: 'landmarks', role: null, label: landmarksLabel }, items);
}

function pageListNav({ pages, pagesLabel }: Navigation): string {
  if (pages.length === 0) return '';
  const items = pages.map((page) => `<li>${linkTo(page.href, page.label)}</li>\n`);
  return hiddenNav({ type: 'page-list', role: 'doc-pagelist', label: pagesLabel }, items);
}

/** For reading systems, not for the page: the nav document may stand in the spine (FACTS E-57). */
function hiddenNav(
  nav: { readonly type: string; readonly role: string | null; readonly label: string },
  items: readonly string[],
): string {
  const values = attributes({
    'epub:type': nav.type,
    role: nav.role,
    'aria-label': nav.label,
    hidden: 'hidden',
  });
  return `<nav${values}>\n<ol>\n${items.join('')}</ol>\n</nav>\n`;
}

function linkTo(href: string, label: string, type: string | null = null): string {
  return `<a${attributes({ href, 'epub:type': type })}>${escapeText(label)}</a>`;
}

export interface NcxParts {
  readonly navigation: Navigation;
  readonly identifier: string;
  readonly title: string;
}

/** The NCX of EPUB 2, still read by old devices; its uid is the book's identifier (FACTS E-42). */
export function ncxDocument({ navigation, identifier, title }: NcxParts): string {
  let order = 0;
  const point = (entry: NavEntry): string => {
    const number = ++order;
    return `<navPoint id="n${number}" playOrder="${number}">
<navLabel><text>${escapeText(entry.label)}</text></navLabel>
<content${attributes({ src: entry.href })}/>
${entry.children.map(point).join('')}</navPoint>
`;
  };
  const points = navigation.toc.map(point).join('');
  const numbers = new Set<number>();
  const pages = navigation.pages.map((page, index) => pageTarget(page, { index, order: ++order, numbers })).join('');
  const meta = [
    ['dtb:uid', identifier],
    ['dtb:depth', String(depthOf(navigation.toc))],
    ['dtb:totalPageCount', String(navigation.pages.length)],
    ['dtb:maxPageNumber', String(Math.max(0, ...numbers))],
  ].map(([name, content]) => `<meta${attributes({ name, content })}/>\n`);
  const pageList =
    pages === ''
      ? ''
      : `<pageList>\n<navLabel><text>${escapeText(navigation.pagesLabel)}</text></navLabel>\n${pages}</pageList>\n`;
  return `${XML_DECLARATION}<ncx${attributes({ xmlns: 'http://www.daisy.org/z3986/2005/ncx/', version: '2005-1', 'xml:lang': navigation.language })}>
<head>
${meta.join('')}</head>
<docTitle><text>${escapeText(title)}</text></docTitle>
<navMap>
${points}</navMap>
${pageList}</ncx>
`;
}

/** A page with a number of its own is `normal`; values of one type may not occur twice. */
function pageTarget(
  page: PageMark,
  { index, order, numbers }: { readonly index: number; readonly order: number; readonly numbers: Set<number> },
): string {
  const number = arabic(page.label);
  const value = number !== null && numbers.has(number) ? null : number;
  if (value !== null) numbers.add(value);
  const values = attributes({
    id: `p${index + 1}`,
    type: number === null ? 'front' : value === null ? 'special' : 'normal',
    value: value === null ? null : String(value),
    playOrder: String(order),
  });
  return `<pageTarget${values}>
<navLabel><text>${escapeText(page.label)}</text></navLabel>
<content${attributes({ src: page.href })}/>
</pageTarget>
`;
}

function arabic(label: string): number | null {
  return /^[1-9]\d{0,6}$/.test(label) ? Number(label) : null;
}

function depthOf(entries: readonly NavEntry[]): number {
  return entries.reduce((depth, entry) => Math.max(depth, 1 + depthOf(entry.children)), 0);
}
