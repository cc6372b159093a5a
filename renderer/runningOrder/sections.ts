/** New, copied and renamed sections. In: a book and what is wanted; out: changes. */
import type { Node } from 'prosemirror-model';
import { ReplaceStep, type Step } from 'prosemirror-transform';
import type { SectionId } from '#base';
import {
  type Book,
  type Change,
  flatText,
  furnish,
  INLINE_OBJECT,
  type Json,
  matterOf,
  replaceText,
  type SectionKind,
  schema,
  sectionName,
} from '#book';
import { newId, type SectionRow } from '../state/index.ts';

/** Kinds that begin without a title of their own. */
const UNTITLED: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'halfTitle',
  'frontispiece',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'part',
  'chapter',
]);

export interface Added {
  readonly change: Change;
  readonly section: SectionId;
}

/** A new section of a kind, in the place where such a section belongs, after the one in view where that fits. */
export function addSection(book: Book, rows: readonly SectionRow[], kind: SectionKind, after: SectionId | null): Added {
  const node = sectionOf(book, kind);
  const section = node.attrs['id'] as SectionId;
  const index = placeFor(rows, kind, after);
  return { section, change: { kind: 'addSection', index, section: node.toJSON() as Json } };
}

/** The index at which a new section of a kind is put. */
export function placeFor(rows: readonly SectionRow[], kind: SectionKind, after: SectionId | null): number {
  const at = rows.findIndex((row) => row.id === after);
  const matter = matterOf(kind);
  if (at >= 0 && (matter === null || rows[at]?.matter === matter)) return endOfGroup(rows, at, kind) + 1;
  if (matter === 'front') return rows.findLastIndex((row) => row.matter === 'front') + 1;
  if (matter === 'body') {
    const last = rows.findLastIndex((row) => row.matter === 'body');
    return last < 0 ? rows.findLastIndex((row) => row.matter === 'front') + 1 : last + 1;
  }
  return rows.length;
}

/** A new part comes after the chapters of the one before it. */
function endOfGroup(rows: readonly SectionRow[], at: number, kind: SectionKind): number {
  const part = kind === 'part' ? (rows[at]?.part ?? (rows[at]?.kind === 'part' ? rows[at].id : null)) : null;
  return part === null
    ? at
    : Math.max(
        at,
        rows.findLastIndex((row) => row.part === part),
      );
}

function sectionOf(book: Book, kind: SectionKind): Node {
  if (kind === 'copyright') return copyrightPage(book);
  const id = newId('section');
  const language = book.metadata.language;
  const title = UNTITLED.has(kind)
    ? []
    : [schema.nodes.sectionTitle.create({ id: newId('block') }, schema.text(sectionName(kind, language)))];
  const isMade = kind === 'halfTitle' || kind === 'titlePage' || kind === 'contents' || kind === 'part';
  const text = isMade ? [] : [schema.nodes.paragraph.create({ id: newId('block') })];
  return schema.nodes.section.create({ id, kind, ...numbering(book, kind) }, [...title, ...text]);
}

/** A new chapter or part is numbered as the others of its kind are. */
function numbering(book: Book, kind: SectionKind): { numbered: boolean; label: string | null } {
  const sibling = book.text.children.findLast((each) => each.attrs['kind'] === kind);
  const numbered = sibling ? Boolean(sibling.attrs['numbered']) : kind === 'chapter' || kind === 'part';
  return { numbered, label: (sibling?.attrs['label'] as string | null | undefined) ?? null };
}

/** The lines that a new book's copyright page has. */
function copyrightPage(book: Book): Node {
  const others = book.text.children.filter((each) => each.attrs['kind'] !== 'copyright');
  const furnished = furnish({ ...book, text: schema.nodes.book.create(null, others) });
  const page = furnished.text.children.find((each) => each.attrs['kind'] === 'copyright');
  if (!page) throw new RangeError('a furnished book has a copyright page');
  return withNewIds(page);
}

/** A copy of a section, after it. */
export function duplicate(book: Book, section: SectionId): Added | null {
  const index = indexOf(book, section);
  if (index < 0) return null;
  const copy = withNewIds(book.text.child(index));
  return {
    section: copy.attrs['id'] as SectionId,
    change: { kind: 'addSection', index: index + 1, section: copy.toJSON() as Json },
  };
}

function withNewIds(node: Node): Node {
  return schema.nodeFromJSON(withNewIdsIn(node.toJSON() as Json));
}

function withNewIdsIn(json: Json): Json {
  if (Array.isArray(json)) return json.map((each: Json) => withNewIdsIn(each));
  if (typeof json !== 'object' || json === null) return json;
  return Object.fromEntries(
    Object.entries(json).map(([name, value]): [string, Json] => {
      if (name === 'attrs' && typeof value === 'object' && value !== null && 'id' in value) {
        return [name, { ...value, id: newId('block') }];
      }
      return [name, withNewIdsIn(value as Json)];
    }),
  );
}

/** The title as it can be typed; null where it holds more than characters (a note, a line break) and is edited in the text. */
export function typedTitle(book: Book, section: SectionId): string | null {
  const title = titleNode(book, section);
  if (!title) return '';
  const flat = flatText(title);
  return flat.includes(INLINE_OBJECT) || flat.includes('\n') ? null : flat;
}

/** Gives a section another title; what stays of it keeps its italics. Null where it is the same. */
export function retitle(book: Book, section: SectionId, typed: string): Change | null {
  const text = typed.trim();
  const title = titleNode(book, section);
  const flat = title ? flatText(title) : '';
  if (text === flat.trim()) return null;
  if (!title) return edit(section, insertTitle(text));
  if (text === '') return edit(section, new ReplaceStep(0, title.nodeSize, schema.nodes.section.create().slice(0)));
  const start = sharedStart(flat, text);
  const end = sharedEnd(flat.slice(start), text.slice(start));
  // What is added takes the look of the letter before it, so that letter is put again with it.
  const from = start > 0 && start === flat.length - end ? start - 1 : start;
  return replaceText(book, {
    section,
    block: String(title.attrs['id']),
    from,
    to: flat.length - end,
    text: text.slice(from, text.length - end),
  });
}

function insertTitle(text: string): Step {
  const title = schema.nodes.sectionTitle.create({ id: newId('block') }, schema.text(text));
  const slice = schema.nodes.section.create(null, title).slice(0, title.nodeSize);
  return new ReplaceStep(0, 0, slice);
}

function edit(section: SectionId, step: Step): Change {
  return { kind: 'editText', section, steps: [step.toJSON() as Json] };
}

function sharedStart(one: string, other: string): number {
  let at = 0;
  while (at < one.length && at < other.length && one[at] === other[at]) at++;
  return at;
}

function sharedEnd(one: string, other: string): number {
  let count = 0;
  while (count < one.length && count < other.length && one.at(-1 - count) === other.at(-1 - count)) count++;
  return count;
}

function titleNode(book: Book, section: SectionId): Node | null {
  const first = book.text.children[indexOf(book, section)]?.firstChild;
  return first?.type === schema.nodes.sectionTitle ? first : null;
}

function indexOf(book: Book, section: SectionId): number {
  return book.text.children.findIndex((each) => each.attrs['id'] === section);
}

/** Splits a section before the block in which a place stands; null where nothing would be left before it. */
export function splitAt(book: Book, section: SectionId, block: string): Added | null {
  const node = book.text.children[indexOf(book, section)];
  const blocks = node?.children.filter((each) => each.type.isInGroup('block')) ?? [];
  const at = blocks.findIndex((each) => holds(each, block));
  const begins = blocks[at];
  if (at < 1 || !begins) return null;
  const added = newId('section');
  return {
    section: added,
    change: { kind: 'splitSection', section, block: String(begins.attrs['id']), added, set: {} },
  };
}

function holds(node: Node, id: string): boolean {
  if (node.attrs['id'] === id) return true;
  return node.children.some((child) => holds(child, id));
}
