/** Pictures of the book for the painter. In: an asset; out: its picture once it has come, by the address that the host has. */
import type { AssetId } from '#base';
import type { Asset } from '#book';

export class PictureShelf {
  private readonly pictures = new Map<string, HTMLImageElement | null>();

  constructor(
    /** Where an asset's bytes are; null where no book is open. */
    private readonly addressOf: (asset: AssetId) => string | null,
    private readonly onArrival: () => void,
  ) {}

  /** The picture, or null while it is on its way. */
  readonly picture = (asset: AssetId): HTMLImageElement | null => {
    const address = this.addressOf(asset);
    if (address === null) return null;
    const known = this.pictures.get(address);
    if (known !== undefined) return known;
    this.pictures.set(address, null);
    void this.fetch(address);
    return null;
  };

  private async fetch(address: string): Promise<void> {
    const image = new Image();
    image.src = address;
    try {
      await image.decode();
    } catch {
      // What can't be shown stays an empty place; preflight says what is wrong with the picture.
      return;
    }
    this.pictures.set(address, image);
    this.onArrival();
  }
}

/** Pictures that joined the book in this window: their bytes are here before the host has them. */
export class BroughtPictures {
  private readonly addresses = new Map<AssetId, string>();

  /** Where it is in this window; null for one whose bytes only the host has. */
  addressOf(asset: Asset | undefined): string | null {
    if (!asset || asset.bytes.length === 0) return null;
    const { id, bytes, mediaType } = asset;
    const known = this.addresses.get(id) ?? URL.createObjectURL(new Blob([bytes.slice()], { type: mediaType }));
    this.addresses.set(id, known);
    return known;
  }
}
