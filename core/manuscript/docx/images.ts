/** The pictures of the text. In: relationship ids as drawings name them; out: assets by content hash. */
import { type AssetId, assetIdOf } from '#base';
import type { Asset } from '#book';
import type { OfficePackage, Relationships } from './package.ts';
import { pictureFacts } from './pictures.ts';
import type { Remarks } from './remarks.ts';

export class Images {
  readonly assets = new Map<AssetId, Asset>();
  private readonly byPart = new Map<string, AssetId | null>();

  constructor(
    private readonly source: OfficePackage,
    private readonly remarks: Remarks,
  ) {}

  /** The asset that a relationship leads to; null, with a remark, where it can't be taken. */
  take(id: string, relationships: Relationships): AssetId | null {
    const relationship = relationships.get(id);
    if (relationship?.external) {
      this.remarks.add('linked-image');
      return null;
    }
    const part = relationship?.target ?? '';
    let asset = this.byPart.get(part);
    if (asset === undefined) {
      asset = this.load(part);
      this.byPart.set(part, asset);
    }
    return asset;
  }

  private load(part: string): AssetId | null {
    const bytes = part === '' ? null : this.source.part(part);
    if (!bytes) {
      this.remarks.add('missing-image');
      return null;
    }
    const { mediaType, pixels } = pictureFacts(bytes);
    if (mediaType === null) {
      this.remarks.add('unusable-image');
      return null;
    }
    const id = assetIdOf(bytes);
    const name = part.slice(part.lastIndexOf('/') + 1);
    if (!this.assets.has(id)) this.assets.set(id, { id, bytes, mediaType, name, pixels });
    return id;
  }
}
