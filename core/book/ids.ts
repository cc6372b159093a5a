/**
 * The ids of a text. In: sections; out: the ids in them, and what would clash. Kept by node identity: an edit reads the
 * edited section only.
 */
import type { Node } from 'prosemirror-model';

const idLists = new WeakMap<Node, readonly string[]>();
const idSets = new WeakMap<Node, ReadonlySet<string>>();
const nodesOf = new WeakMap<Node, ReadonlyMap<string, Node>>();

/** Every id in a section, its own first, in reading order; a node without one counts as ''. */
export function idsOf(section: Node): readonly string[] {
  let ids = idLists.get(section);
  if (!ids) {
    ids = collectedIds(section);
    idLists.set(section, ids);
  }
  return ids;
}

/** Every id in the book. */
export function idsInBook(text: Node): Set<string> {
  return new Set(text.children.flatMap((section) => idsOf(section)));
}

/**
 * The first id that `after` brings into the book and that is taken already (or empty), else null. `before` is the
 * section that `after` stands for, or null where it is new.
 */
export function clashingId(text: Node, before: Node | null, after: Node): string | null {
  const had = new Set(before ? idsOf(before) : []);
  const seen = new Set<string>();
  for (const id of idsOf(after)) {
    const isNew = !had.has(id);
    if (seen.has(id) || (isNew && (id === '' || isTaken(text, before, id)))) return id;
    seen.add(id);
  }
  return null;
}

function isTaken(text: Node, except: Node | null, id: string): boolean {
  return text.children.some((section) => section !== except && idSetOf(section).has(id));
}

function idSetOf(section: Node): ReadonlySet<string> {
  let ids = idSets.get(section);
  if (!ids) {
    ids = new Set(idsOf(section));
    idSets.set(section, ids);
  }
  return ids;
}

/** The ids that a text has lost where it became another; sections that are the same nodes are not looked into. */
export function lostIds(before: Node, after: Node): ReadonlySet<string> {
  if (isTyping(before, after)) return new Set();
  const removed = missingIn(after, before);
  const there = missingIn(before, after).map(idSetOf);
  return new Set(removed.flatMap(idsOf).filter((id) => !there.some((ids) => ids.has(id))));
}

/** Whether no section has come, gone or moved, and each has the blocks that it had: with every key this is asked. */
function isTyping(before: Node, after: Node): boolean {
  if (before.childCount !== after.childCount) return false;
  for (let at = 0; at < before.childCount; at++) {
    const [old, now] = [before.child(at), after.child(at)];
    if (old !== now && !sameIds(idsOf(old), idsOf(now))) return false;
  }
  return true;
}

function sameIds(some: readonly string[], others: readonly string[]): boolean {
  if (some.length !== others.length) return false;
  for (let at = 0; at < some.length; at++) if (some[at] !== others[at]) return false;
  return true;
}

/** The sections of `text` that are none of `other`. */
function missingIn(other: Node, text: Node): readonly Node[] {
  const known = new Set(other.children);
  return text.children.filter((section) => !known.has(section));
}

/** Whether the text has a node of this id. */
export function hasId(text: Node, id: string): boolean {
  return text.children.some((section) => idSetOf(section).has(id));
}

/**
 * The node of an id, a section or what is inside one; null where there is none.
 * @param section where it stands, if that is known: no other section is looked into.
 */
export function nodeById(text: Node, id: string, section?: string): Node | null {
  for (const each of text.children) {
    if (section !== undefined && each.attrs['id'] !== section) continue;
    const found = nodesIn(each).get(id);
    if (found) return found;
  }
  return null;
}

function nodesIn(section: Node): ReadonlyMap<string, Node> {
  let nodes = nodesOf.get(section);
  if (!nodes) {
    nodes = collectedNodes(section);
    nodesOf.set(section, nodes);
  }
  return nodes;
}

function collectedNodes(section: Node): ReadonlyMap<string, Node> {
  const nodes = new Map<string, Node>([[String(section.attrs['id']), section]]);
  section.descendants((node) => {
    const id: unknown = node.attrs['id'];
    if (typeof id === 'string') nodes.set(id, node);
    return !node.isText;
  });
  return nodes;
}

function collectedIds(section: Node): readonly string[] {
  const ids: string[] = [String(section.attrs['id'])];
  section.descendants((node) => {
    const id: unknown = node.attrs['id'];
    if (typeof id === 'string') ids.push(id);
    return !node.isText;
  });
  return ids;
}

/** An id that two nodes of the text share, or '' where one has none; null where all is well. */
export function repeatedId(text: Node): string | null {
  const seen = new Set<string>();
  for (const section of text.children) {
    for (const id of idsOf(section)) {
      if (id === '' || seen.has(id)) return id;
      seen.add(id);
    }
  }
  return null;
}
