/**
 * What a node says, as a short digest. In: a node; out: the same digest for the same words, marks and attributes, whatever
 * the ids and editions. Kept by node identity: an edit reads the edited blocks only.
 *
 * Books keep digests: the same node has to have the same one in every later version. An attribute that stands at its default
 * is not read, so that a new attribute changes none.
 */
import type { Node } from 'prosemirror-model';
import { Digest } from '#base';
import { isSectionHead } from './flat.ts';

const known = new WeakMap<Node, string>();

/** The digest of a node with all inside it. */
export function fingerprint(node: Node): string {
  const before = known.get(node);
  if (before !== undefined) return before;
  const digest = own(node);
  for (let at = 0; at < node.childCount; at++) digest.text(fingerprint(node.child(at)));
  known.set(node, digest.hex);
  return digest.hex;
}

/** The digest of a section without its text: what it is, its title and subtitle. */
export function headFingerprint(section: Node): string {
  const digest = own(section);
  for (const child of section.children) if (isSectionHead(child)) digest.text(fingerprint(child));
  return digest.hex;
}

/** Attributes that say where a node is known and not what it says. */
const UNSAID: ReadonlySet<string> = new Set(['id', 'editions']);

function own(node: Node): Digest {
  const digest = new Digest().text(node.type.name);
  const specs = node.type.spec.attrs ?? {};
  for (const name of Object.keys(node.attrs)) {
    const value: unknown = node.attrs[name];
    if (!UNSAID.has(name) && value !== specs[name]?.default) digest.text(name).text(JSON.stringify(value));
  }
  if (node.isText) digest.text(node.text ?? '').text(JSON.stringify(node.marks));
  return digest;
}
