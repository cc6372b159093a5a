/**
 * The pictures that the text shows. In: assets, as the text meets them; out: one file for each, and what the package has
 * to say about them.
 */
import type { Asset } from '#book';

export interface Picture {
  readonly asset: Asset;
  /** Path from the package document: `images/picture-01.png`. */
  readonly path: string;
}

/** EPUB's own image types (EPUB 3.3, "core media types") and the endings that their files go by. */
const ENDINGS: ReadonlyMap<string, string> = new Map([
  ['image/jpeg', 'jpg'],
  ['image/png', 'png'],
  ['image/gif', 'gif'],
  ['image/webp', 'webp'],
  ['image/svg+xml', 'svg'],
]);

export class Pictures {
  private readonly byId = new Map<string, Picture>();
  private informative = 0;
  private described = 0;

  constructor(private readonly find: (id: string) => Asset | undefined) {}

  /** The file that will hold an asset, or null where an ebook cannot show it. */
  use(id: string): Picture | null {
    const known = this.byId.get(id);
    if (known) return known;
    const asset = this.find(id);
    const ending = asset && ENDINGS.get(asset.mediaType);
    if (!asset || !ending || (ending === 'svg' && !isPlainSvg(asset.bytes))) return null;
    const number = String(this.byId.size + 1).padStart(2, '0');
    const picture = { asset, path: `images/picture-${number}.${ending}` };
    this.byId.set(id, picture);
    return picture;
  }

  /** Counts a picture that tells the reader something, and whether it says so in words too. */
  countInformative(described: boolean): void {
    this.informative++;
    if (described) this.described++;
  }

  get used(): readonly Picture[] {
    return [...this.byId.values()];
  }

  get hasInformative(): boolean {
    return this.informative > 0;
  }

  /** True where every informative picture has a text alternative. */
  get allDescribed(): boolean {
    return this.described === this.informative;
  }
}

/** The ending of a file of that image type, or null for a type that EPUB does not know. */
export function imageEnding(mediaType: string): string | null {
  return ENDINGS.get(mediaType) ?? null;
}

const UNSAFE_SVG =
  /<script|<foreignObject|<!DOCTYPE|<!ENTITY|<\?xml-stylesheet|\son[a-z]+\s*=|@import|<a[\s>]|(?:href\s*=|url\()(?!\s*["']?(?:#|data:image\/))/i;

/** A drawing without scripts, foreign content, entities or addresses outside the file. */
function isPlainSvg(bytes: Uint8Array): boolean {
  let source = '';
  for (let at = 0; at < bytes.length; at += 8192) source += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return !UNSAFE_SVG.test(source);
}
