/**
 * The title page. In: the section, empty or with the lines that the author typed; out: title, subtitle, author, whatever
 * else was typed, publisher, in this order.
 */
import type { Node } from 'prosemirror-model';
import { authorsOf, type Metadata, namesInARow, textOf, type ViewSection } from '#book';
import { renderBlocks } from './blocks.ts';
import type { FileContext } from './context.ts';
import { renderInline } from './inline.ts';
import { attributes, escapeText } from './xml.ts';

const ROLES = ['title', 'subtitle', 'author', 'other', 'publisher'] as const;
type Role = (typeof ROLES)[number];

interface Line {
  readonly role: Role;
  /** Id attribute, '' for a line that stands nowhere in the text. */
  readonly id: string;
  readonly html: string;
}

export function renderTitlePage(section: ViewSection, file: FileContext): string {
  const lines = section.generated ? composed(section, file) : typed(section, file);
  let titled = false;
  return ROLES.flatMap((role) => lines.filter((line) => line.role === role))
    .map((line) => {
      const element = line.role === 'title' && !titled ? 'h1' : 'p';
      titled ||= line.role === 'title';
      return elementOf(element, line);
    })
    .join('');
}

function elementOf(element: 'h1' | 'p', { role, id, html }: Line): string {
  if (role === 'other') return html;
  const values = attributes({
    class: `book-${role}`,
    'epub:type': role === 'title' && element === 'h1' ? 'fulltitle' : role === 'subtitle' ? 'subtitle' : null,
    role: role === 'subtitle' ? 'doc-subtitle' : null,
  });
  return `<${element}${id}${values}>${html}</${element}>\n`;
}

/** The lines that the book's particulars give. */
function composed(section: ViewSection, file: FileContext): readonly Line[] {
  const { metadata } = file.book.view;
  const said: readonly (readonly [Role, string | null])[] = [
    ['title', section.titleText || metadata.title],
    ['subtitle', metadata.subtitle],
    ['author', namesInARow(authorsOf(metadata), file.book.language)],
    ['publisher', metadata.publisher],
  ];
  return said.flatMap(([role, text]) => {
    const words = text?.trim() ?? '';
    return words === '' ? [] : [{ role, id: '', html: escapeText(words) }];
  });
}

/** What the author typed, each line by what it says. */
function typed(section: ViewSection, file: FileContext): readonly Line[] {
  const { metadata } = file.book.view;
  const nodes = [section.title, section.subtitle, ...section.blocks].filter((node) => node !== null);
  return nodes.map((node) => {
    const role = node.isTextblock ? roleOf(node, metadata) : 'other';
    if (role === 'other') return { role, id: '', html: renderBlocks([node], file, { opens: false, rank: 2 }) };
    return { role, id: file.idAttribute(node.attrs['id']), html: renderInline(node, file) };
  });
}

function roleOf(node: Node, metadata: Metadata): Role {
  const said = plain(textOf(node));
  const author = plain(namesInARow(authorsOf(metadata), metadata.language));
  if (node.type.name === 'sectionTitle' || (said !== '' && said === plain(metadata.title))) return 'title';
  if (node.type.name === 'sectionSubtitle' || (said !== '' && said === plain(metadata.subtitle ?? '')))
    return 'subtitle';
  if (author !== '' && (said === author || said === `by ${author}`)) return 'author';
  return said !== '' && said === plain(metadata.publisher ?? '') ? 'publisher' : 'other';
}

/** Letters and digits only, so that a comma or a line break makes no difference. */
function plain(text: string): string {
  return text
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .toLowerCase();
}
