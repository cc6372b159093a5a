/** The pictures of the text. In: relationship ids as drawings name them; out: assets by content hash. */
import { type AssetId, assetIdOf } from '#base';
import type { Asset } from '#book';
import { LIMITS } from './limits.ts';
import type { OfficePackage, Relationships } from './package.ts';
import { pictureFacts } from './pictures.ts';
import type { RemarkKind, Remarks } from './remarks.ts';

type Found = { readonly asset: AssetId } | { readonly trouble: RemarkKind };

export class Images {
  readonly assets = new Map<AssetId, Asset>();
  private readonly byPart = new Map<string, Found>();

  constructor(
    private readonly source: OfficePackage,
    private readonly remarks: Remarks,
  ) {}

  /** The asset of the first relationship that leads to a usable picture; null, with a remark, if none does. */
  take(ids: readonly string[], relationships: Relationships): AssetId | null {
    const found = ids.map((id) => this.find(id, relationships));
    for (const each of found) if ('asset' in each) return each.asset;
    const [first] = found;
    this.remarks.add(first && 'trouble' in first ? first.trouble : 'missing-image');
    return null;
  }

  private find(id: string, relationships: Relationships): Found {
    const relationship = relationships.get(id);
    if (relationship?.external) return { trouble: 'linked-image' };
    const part = relationship?.target ?? '';
    const found = this.byPart.get(part) ?? this.load(part);
    this.byPart.set(part, found);
    return found;
  }

  private load(part: string): Found {
    const bytes = part === '' ? null : this.source.part(part);
    if (!bytes) return { trouble: 'missing-image' };
    const { mediaType, pixels } = pictureFacts(bytes);
    if (mediaType === null) return { trouble: 'unusable-image' };
    if (pixels && pixels.width * pixels.height > LIMITS.pixels) return { trouble: 'oversized-image' };
    const id = assetIdOf(bytes);
    const name = part.slice(part.lastIndexOf('/') + 1);
    // A copy, so that an asset does not hold the whole unpacked or packed file in memory.
    if (!this.assets.has(id)) this.assets.set(id, { id, bytes: bytes.slice(), mediaType, name, pixels });
    return { asset: id };
  }
}
