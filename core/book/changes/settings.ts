/** Changes of metadata, editions, designs and assets. In: a Book and a change; out: the next Book, and the change back. */
import { type AssetId, assetIdOf, failure, type Outcome } from '#base';
import type { Asset, Book, Metadata } from '../book.ts';
import type { AssetRecord, Change } from '../change.ts';
import { readEdition, readMetadata } from '../valid.ts';
import { type Applied, applied, isPlace, spliced } from './applied.ts';
import { fromBase64, toBase64 } from './base64.ts';

type Of<Kind extends Change['kind']> = Extract<Change, { readonly kind: Kind }>;

export function setMetadata(book: Book, change: Of<'setMetadata'>): Outcome<Applied> {
  const names = Object.keys(change.set) as (keyof Metadata)[];
  const strange = names.find((name) => !(name in book.metadata));
  if (strange !== undefined) return failure(`The metadata has no field "${strange}".`);
  const metadata = readMetadata({ ...book.metadata, ...change.set });
  if (!metadata.ok) return metadata;
  const set: Partial<Metadata> = Object.fromEntries(names.map((name) => [name, book.metadata[name]]));
  return applied({ ...book, metadata: metadata.value }, { ...change, set });
}

/** Adds an edition, or puts it in the place of the one with its id. `index` is its place afterwards. */
export function putEdition(book: Book, change: Of<'putEdition'>): Outcome<Applied> {
  const read = readEdition(change.edition);
  if (!read.ok) return read;
  const at = book.editions.findIndex((each) => each.id === read.value.id);
  const others = at < 0 ? book.editions : spliced(book.editions, at, 1, []);
  if (!isPlace(change.index, others.length)) return failure(`There is no place ${change.index} among the editions.`);
  const old = book.editions[at];
  const inverse: Change = old
    ? { kind: 'putEdition', edition: old, index: at }
    : { kind: 'dropEdition', edition: read.value.id };
  return applied({ ...book, editions: spliced(others, change.index, 0, [read.value]) }, inverse);
}

/** Blocks that were held to the edition keep its id, so that bringing it back brings them back. */
export function dropEdition(book: Book, change: Of<'dropEdition'>): Outcome<Applied> {
  const index = book.editions.findIndex((each) => each.id === change.edition);
  const edition = book.editions[index];
  if (!edition) return failure(`The book has no edition "${change.edition}".`);
  return applied({ ...book, editions: spliced(book.editions, index, 1, []) }, { kind: 'putEdition', edition, index });
}

/** Adds a design, or puts it in the place of the one with its id. `index` is its place afterwards. */
export function putDesign(book: Book, change: Of<'putDesign'>): Outcome<Applied> {
  const at = book.designs.findIndex((each) => each.id === change.design);
  const others = at < 0 ? book.designs : spliced(book.designs, at, 1, []);
  if (!isPlace(change.index, others.length)) return failure(`There is no place ${change.index} among the designs.`);
  const old = book.designs[at];
  const inverse: Change = old
    ? { kind: 'putDesign', design: old.id, settings: old.settings, index: at }
    : { kind: 'dropDesign', design: change.design };
  const design = { id: change.design, settings: change.settings };
  return applied({ ...book, designs: spliced(others, change.index, 0, [design]) }, inverse);
}

export function dropDesign(book: Book, change: Of<'dropDesign'>): Outcome<Applied> {
  const index = book.designs.findIndex((each) => each.id === change.design);
  const design = book.designs[index];
  if (!design) return failure(`The book has no design "${change.design}".`);
  return applied(
    { ...book, designs: spliced(book.designs, index, 1, []) },
    { kind: 'putDesign', design: design.id, settings: design.settings, index },
  );
}

/** A mirror of a book has no bytes of pictures: a record without any names those that its id stands for. */
export function putAsset(book: Book, change: Of<'putAsset'>): Outcome<Applied> {
  const { base64, ...facts } = change.asset;
  const bytes = fromBase64(base64);
  if (!bytes) return failure(`The bytes of the picture "${facts.name}" can't be read.`);
  if (bytes.length > 0 && assetIdOf(bytes) !== facts.id)
    return failure(`The picture "${facts.name}" is not what its id says.`);
  const old = book.assets.get(facts.id);
  const inverse: Change = old ? { kind: 'putAsset', asset: assetRecord(old) } : { kind: 'dropAsset', asset: facts.id };
  return applied(
    withAssets(book, (assets) => assets.set(facts.id, { ...facts, bytes })),
    inverse,
  );
}

export function dropAsset(book: Book, change: Of<'dropAsset'>): Outcome<Applied> {
  const asset = book.assets.get(change.asset);
  if (!asset) return failure(`The book has no picture "${change.asset}".`);
  const next = withAssets(book, (assets) => assets.delete(change.asset));
  return applied(next, { kind: 'putAsset', asset: assetRecord(asset) });
}

/** An asset as it travels in a change. */
export function assetRecord(asset: Asset): AssetRecord {
  const { bytes, ...facts } = asset;
  return { ...facts, base64: toBase64(bytes) };
}

function withAssets(book: Book, edit: (assets: Map<AssetId, Asset>) => void): Book {
  const assets = new Map(book.assets);
  edit(assets);
  return { ...book, assets };
}
