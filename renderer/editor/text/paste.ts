/**
 * What is pasted, cleaned to the model. In: HTML from word processors, the web or this program; out: blocks and marks that
 * the book knows, and nothing else: no fonts, sizes, colours, classes, pictures from afar.
 */
import { DOMParser, DOMSerializer, type Node, type StyleParseRule, type TagParseRule } from 'prosemirror-model';
import { FIELD_NAMES, type NodeName, SET_OFF_FORMS, schema } from '#book';

/** How this program's own nodes are written to the clipboard, so that they come back whole. */
const OWN = 'data-node';

const OWN_ATTRS: { readonly [Name in NodeName]?: readonly string[] } = {
  paragraph: ['align'],
  sceneBreak: ['mark'],
  quotation: [],
  epigraph: [],
  attribution: [],
  verse: [],
  stanza: [],
  verseLine: ['indent'],
  setOff: ['form'],
  figure: ['asset', 'alt', 'decorative', 'width', 'place'],
  caption: [],
  field: ['name'],
  note: [],
};

/** Writes a selection to the clipboard. */
export const clipboardSerializer = new DOMSerializer(
  {
    ...DOMSerializer.nodesFromSchema(schema),
    ...Object.fromEntries(
      Object.entries(OWN_ATTRS).map(([name, attrs]) => [name, (node: Node) => ownElement(name, node, attrs)]),
    ),
  },
  DOMSerializer.marksFromSchema(schema),
);

const TAGS: { readonly [Name in NodeName]?: string } = {
  paragraph: 'p',
  verseLine: 'p',
  quotation: 'blockquote',
  epigraph: 'blockquote',
  figure: 'figure',
  caption: 'figcaption',
  field: 'span',
  note: 'span',
  sceneBreak: 'hr',
};

function ownElement(name: string, node: Node, attrs: readonly string[]) {
  const tag = TAGS[name as NodeName] ?? 'div';
  const own = {
    [OWN]: name,
    ...Object.fromEntries(attrs.map((each) => [`data-${each}`, JSON.stringify(node.attrs[each])])),
  };
  return node.isLeaf ? ([tag, own] as const) : ([tag, own, 0] as const);
}

function ownRule(name: NodeName, attrs: readonly string[]): TagParseRule {
  return {
    tag: `[${OWN}="${name}"]`,
    node: name,
    priority: 90,
    getAttrs: (element) => {
      try {
        return Object.fromEntries(attrs.flatMap((each) => given(element, each)));
      } catch {
        return false;
      }
    },
  };
}

function given(element: HTMLElement, name: string): [string, unknown][] {
  const text = element.getAttribute(`data-${name}`);
  if (text === null) return [];
  const value: unknown = JSON.parse(text);
  if (name === 'form' && !SET_OFF_FORMS.some((each) => each === value)) return [];
  if (name === 'name' && !FIELD_NAMES.some((each) => each === value)) throw new RangeError('no such field');
  return [[name, value]];
}

const heading = (tag: string, level: number): TagParseRule => ({ tag, node: 'heading', attrs: { level } });

const BLOCKS: readonly TagParseRule[] = [
  heading('h1', 1),
  heading('h2', 1),
  heading('h3', 2),
  heading('h4', 3),
  heading('h5', 3),
  heading('h6', 3),
  { tag: 'hr', node: 'sceneBreak' },
  { tag: 'blockquote', node: 'quotation' },
  { tag: 'ul', node: 'list', attrs: { ordered: false } },
  {
    tag: 'ol',
    node: 'list',
    getAttrs: (element) => ({ ordered: true, start: Number(element.getAttribute('start')) || 1 }),
  },
  { tag: 'li', node: 'listItem' },
  { tag: 'table', node: 'table' },
  { tag: 'tr', node: 'tableRow', getAttrs: (row) => ({ header: row.querySelector('td') === null }) },
  { tag: 'td, th', node: 'tableCell' },
  { tag: 'br', node: 'lineBreak' },
  { tag: 'p', node: 'paragraph', getAttrs: (element) => ({ align: alignOf(element) }) },
  // Pictures from elsewhere are brought in by a command, where their alternative text is asked for.
  { tag: 'img, picture, svg, video, audio, iframe, object', ignore: true },
  { tag: 'script, style, title, head, meta, link, template, noscript', ignore: true },
];

function alignOf(element: HTMLElement): string | null {
  const align = element.style.textAlign || element.getAttribute('align');
  if (align === 'center') return 'center';
  return align === 'right' || align === 'end' ? 'end' : null;
}

const MARK_TAGS: readonly TagParseRule[] = [
  {
    tag: 'em, i, cite, var, dfn',
    mark: 'emphasis',
    getAttrs: (element) => element.style.fontStyle !== 'normal' && null,
  },
  // Word processors on the web wrap all that is copied in a <b> that is not bold.
  { tag: 'strong, b', mark: 'strong', getAttrs: (element) => element.style.fontWeight !== 'normal' && null },
  { tag: 'sup', mark: 'superscript' },
  { tag: 'sub', mark: 'subscript' },
  { tag: 's, del, strike', mark: 'strikethrough' },
  { tag: '.small-caps', mark: 'smallCaps' },
  {
    tag: 'a[href]',
    mark: 'link',
    getAttrs: (element) => {
      const href = element.getAttribute('href') ?? '';
      return /^(https?|mailto):/i.test(href) ? { href } : false;
    },
  },
  { tag: 'span[lang]:not([data-node])', mark: 'language', getAttrs: (element) => languageOf(element) },
];

/** A passage's language, where it is not just what the whole page is marked with. */
function languageOf(element: HTMLElement): { tag: string } | false {
  const tag = element.getAttribute('lang') ?? '';
  return element.dataset['own'] === 'yes' && tag !== '' ? { tag } : false;
}

const MARK_STYLES: readonly StyleParseRule[] = [
  { style: 'font-style', mark: 'emphasis', getAttrs: (value) => /^(italic|oblique)/.test(value) && null },
  { style: 'font-weight', mark: 'strong', getAttrs: (value) => /^(bold|[6-9]\d\d)/.test(value) && null },
  { style: 'font-variant', mark: 'smallCaps', getAttrs: (value) => value.includes('small-caps') && null },
  { style: 'font-variant-caps', mark: 'smallCaps', getAttrs: (value) => value.includes('small-caps') && null },
  { style: 'vertical-align', mark: 'superscript', getAttrs: (value) => value === 'super' && null },
  { style: 'text-decoration', mark: 'strikethrough', getAttrs: (value) => value.includes('line-through') && null },
];

/** Reads what is pasted. */
export const clipboardParser = new DOMParser(schema, [
  ...Object.entries(OWN_ATTRS).map(([name, attrs]) => ownRule(name as NodeName, attrs)),
  ...BLOCKS,
  ...MARK_TAGS,
  ...MARK_STYLES,
]);

/** What word processors write around the text and mean nothing by. */
export function cleanedHtml(html: string): string {
  const page = new globalThis.DOMParser().parseFromString(html, 'text/html');
  for (const element of page.querySelectorAll(
    'o\\:p, xml, style, script, meta, link, title, [style*="mso-element:comment"]',
  )) {
    element.remove();
  }
  for (const element of page.querySelectorAll<HTMLElement>('[style*="mso-list"]')) unlist(element);
  for (const paragraph of page.querySelectorAll('p, div')) {
    if (paragraph.children.length === 0 && /^[\s\u00a0]*$/.test(paragraph.textContent ?? '')) paragraph.remove();
  }
  const comments = page.createTreeWalker(page.body, NodeFilter.SHOW_COMMENT);
  const found: globalThis.Node[] = [];
  while (comments.nextNode()) found.push(comments.currentNode);
  for (const comment of found) comment.parentNode?.removeChild(comment);
  return page.body.innerHTML;
}

/** A list of a word processor is paragraphs with typed bullets: the bullet goes, the paragraph becomes an item. */
function unlist(element: HTMLElement): void {
  for (const bullet of element.querySelectorAll('[style*="mso-list:Ignore"], [style*="mso-list: Ignore"]'))
    bullet.remove();
  const item = element.ownerDocument.createElement('li');
  item.append(...element.childNodes);
  const before = element.previousElementSibling;
  if (before?.tagName === 'UL' && before.hasAttribute('data-made')) {
    before.append(item);
    element.remove();
    return;
  }
  const list = element.ownerDocument.createElement('ul');
  list.setAttribute('data-made', '');
  list.append(item);
  element.replaceWith(list);
}

/** Plain text as paragraphs: an empty line or a single one ends a paragraph, whichever the text uses. */
export function plainParagraphs(text: string): readonly string[] {
  const lines = text.replace(/\r\n?/g, '\n').split(/\n/);
  const empty = lines.filter((line) => line.trim() === '').length;
  const filled = lines.length - empty;
  // Text that is broken at a measure has empty lines between its paragraphs and lines of like length within.
  const hardWrapped = empty > 0 && filled > 2 * (empty + 1) && lines.every((line) => line.length < 90);
  if (!hardWrapped) return lines.map((line) => line.trim()).filter((line) => line !== '');
  return text
    .replace(/\r\n?/g, '\n')
    .split(/\n\s*\n/)
    .map((paragraph) => paragraph.replace(/\s*\n\s*/g, ' ').trim())
    .filter((paragraph) => paragraph !== '');
}
