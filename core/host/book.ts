/**
 * A book as it crosses the seam. In: a Book; out: plain data without the bytes of its pictures, and the book again on the
 * other side, whose pictures are known by their facts and fetched by address when they have to be shown.
 */
import { type Asset, type Book, type Metadata, schema } from '#book';

/** What the window knows of a picture; its bytes stay with the host. */
export type AssetFacts = Omit<Asset, 'bytes'>;

export interface BookMessage {
  readonly metadata: Metadata;
  readonly editions: Book['editions'];
  readonly designs: Book['designs'];
  readonly assets: readonly AssetFacts[];
  readonly muted: Book['muted'];
  readonly remarks: Book['remarks'];
  /** The text as JSON: one string crosses faster than its thousands of nodes. */
  readonly text: string;
}

const NO_BYTES = new Uint8Array(0);

export function messageOfBook({ assets, text, ...parts }: Book): BookMessage {
  const facts = [...assets.values()].map(({ bytes: _, ...rest }) => rest);
  return { ...parts, assets: facts, text: JSON.stringify(text) };
}

/** The book of a message, which is trusted: it comes from the host. Its pictures have no bytes. */
export function bookOfMessage({ assets, text, ...parts }: BookMessage): Book {
  const known = assets.map((facts) => [facts.id, { ...facts, bytes: NO_BYTES }] as const);
  return { ...parts, assets: new Map(known), text: schema.nodeFromJSON(JSON.parse(text)) };
}
