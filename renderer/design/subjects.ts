/**
 * What of the author's own book shows what a group of settings sets. In: the book's text and a group; out: the section, and
 * the block in it, that a specimen should show.
 */
import type { Node } from 'prosemirror-model';
import type { BlockId, SectionId } from '#base';
import type { GroupName } from './settings/groups.ts';

export interface Subject {
  readonly section: SectionId;
  /** null for the section's first page. */
  readonly block: BlockId | null;
}

/** How much of a page is shown: two pages whole, one page whole, the head of a page, the lines around a block. */
export type Excerpt = 'spread' | 'page' | 'head' | 'lines';

export const EXCERPTS: Readonly<Record<GroupName, Excerpt>> = {
  text: 'lines',
  fine: 'lines',
  margins: 'spread',
  heads: 'spread',
  openers: 'head',
  leadIn: 'lines',
  breaks: 'lines',
  subheads: 'lines',
  parts: 'head',
  matter: 'head',
  titles: 'page',
  imprint: 'page',
  dedication: 'head',
  contents: 'head',
  quotations: 'lines',
  verse: 'lines',
  lists: 'lines',
  captions: 'lines',
  notes: 'lines',
};

/** Kinds of block that a group sets, and kinds of section. */
const BLOCKS: Partial<Readonly<Record<GroupName, readonly string[]>>> = {
  subheads: ['heading'],
  quotations: ['quotation', 'setOff'],
  verse: ['verse'],
  lists: ['table', 'list'],
  captions: ['caption'],
};
const SECTIONS: Partial<Readonly<Record<GroupName, readonly string[]>>> = {
  openers: ['chapter', 'prologue'],
  parts: ['part'],
  matter: ['acknowledgments', 'aboutAuthor', 'foreword', 'preface', 'introduction', 'afterword', 'contents'],
  titles: ['titlePage', 'halfTitle'],
  imprint: ['copyright'],
  dedication: ['dedication', 'epigraph'],
  contents: ['contents'],
};

/** The first thing in the book that a group sets; null where it has none. */
export function subjectOf(text: Node, group: GroupName): Subject | null {
  const blocks = BLOCKS[group];
  if (blocks) return firstBlock(text, (node) => blocks.includes(node.type.name));
  const sections = SECTIONS[group];
  if (sections) return firstSection(text, sections);
  if (group === 'breaks') return afterBreak(text);
  if (group === 'notes') return firstBlock(text, (node, parent) => parent?.type.name === 'note' && node.isTextblock);
  return runningText(text, group === 'leadIn' ? 0 : FURTHER_ON);
}

/** Paragraphs after which a page of nothing but text is likely. */
const FURTHER_ON = 12;

function firstSection(text: Node, kinds: readonly string[]): Subject | null {
  for (const kind of kinds) {
    const section = text.children.find((each) => each.attrs['kind'] === kind);
    if (section) return { section: idOf(section), block: null };
  }
  return null;
}

/** The chapter's paragraph at a place, or its last. */
function runningText(text: Node, at: number): Subject | null {
  const chapter = text.children.find((each) => each.attrs['kind'] === 'chapter') ?? text.firstChild;
  const paragraphs = chapter?.children.filter((each) => each.type.name === 'paragraph') ?? [];
  const paragraph = paragraphs[at] ?? paragraphs.at(-1);
  return chapter && paragraph ? { section: idOf(chapter), block: idOf(paragraph) } : null;
}

/** A break that is white alone leaves nothing on its page: what follows it shows where it is. */
function afterBreak(text: Node): Subject | null {
  for (const section of text.children) {
    const at = section.children.findIndex((each) => each.type.name === 'sceneBreak');
    const next = at < 0 ? undefined : section.children[at + 1];
    if (next) return { section: idOf(section), block: leafOf(section, idOf(next)) };
  }
  return null;
}

function firstBlock(text: Node, isWanted: (node: Node, parent: Node | null) => boolean): Subject | null {
  for (const section of text.children) {
    let found: BlockId | null = null;
    section.descendants((node, _at, parent) => {
      if (found === null && isWanted(node, parent)) found = idOf(node);
      return found === null;
    });
    if (found !== null) return { section: idOf(section), block: leafOf(section, found) };
  }
  return null;
}

/** What stands on pages is lines: a block of blocks is found by its first one. */
function leafOf(section: Node, block: BlockId): BlockId {
  let leaf = block;
  section.descendants((node) => {
    if (idOf(node) !== leaf || node.isTextblock) return true;
    leaf = node.firstChild ? idOf(node.firstChild) : leaf;
    return true;
  });
  return leaf;
}

function idOf(node: Node): string {
  return String(node.attrs['id']);
}
