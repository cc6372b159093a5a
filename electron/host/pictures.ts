/**
 * The pictures that a session has seen. The window's mirror of a book has none of their bytes, so undoing a dropped
 * picture sends its record without them: here they are filled in again. In: changes as the window sends them; out: changes
 * that are complete, or one sentence.
 */
import { type AssetId, failure, type Outcome, success } from '#base';
import { type Asset, assetRecord, type Book, type Change } from '#book';

export class SeenPictures {
  private readonly seen = new Map<AssetId, Asset>();

  /** Remembers the pictures of a book, before and after every change. */
  see({ assets }: Book): void {
    for (const [id, asset] of assets) if (!this.seen.has(id)) this.seen.set(id, asset);
  }

  get(id: string): Asset | null {
    return this.seen.get(id) ?? null;
  }

  /** The same changes with the bytes of every picture. */
  filled(changes: readonly Change[]): Outcome<readonly Change[]> {
    const all: Change[] = [];
    for (const change of changes) {
      const filled = this.filledOne(change);
      if (!filled.ok) return filled;
      all.push(filled.value);
    }
    return success(all);
  }

  private filledOne(change: Change): Outcome<Change> {
    if (change.kind === 'group') {
      const inner = this.filled(change.changes);
      return inner.ok ? success({ ...change, changes: inner.value }) : inner;
    }
    if (change.kind !== 'putAsset' || change.asset.base64 !== '') return success(change);
    const known = this.seen.get(change.asset.id);
    if (!known) return failure(`The picture “${change.asset.name}” was never part of this book.`);
    return success({ ...change, asset: { ...change.asset, base64: assetRecord(known).base64 } });
  }
}
