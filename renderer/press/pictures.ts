/** Pictures that the author chooses. In: a name and bytes; out: the record that a change carries, or one sentence. */
import { assetIdOf, failure, type Outcome, success } from '#base';
import { type AssetRecord, assetRecord } from '#book';

/** First bytes of the formats that a book may hold (PNG and JPEG specifications). */
const FORMATS: readonly { readonly mediaType: string; readonly begins: readonly number[] }[] = [
  { mediaType: 'image/png', begins: [0x89, 0x50, 0x4e, 0x47] },
  { mediaType: 'image/jpeg', begins: [0xff, 0xd8, 0xff] },
];

export async function pictureRecord(name: string, bytes: Uint8Array): Promise<Outcome<AssetRecord>> {
  const mediaType = mediaTypeOf(bytes);
  if (mediaType === null) return failure(`“${name}” is neither a PNG nor a JPEG picture.`);
  const pixels = await pixelsOf(bytes, mediaType);
  if (pixels === null) return failure(`“${name}” can't be read as a picture.`);
  return success(assetRecord({ id: assetIdOf(bytes), bytes, mediaType, name, pixels }));
}

export function mediaTypeOf(bytes: Uint8Array): string | null {
  const format = FORMATS.find(({ begins }) => begins.every((byte, at) => bytes[at] === byte));
  return format?.mediaType ?? null;
}

async function pixelsOf(bytes: Uint8Array, type: string): Promise<AssetRecord['pixels']> {
  try {
    const bitmap = await createImageBitmap(new Blob([bytes.slice()], { type }));
    const { width, height } = bitmap;
    bitmap.close();
    return { width, height };
  } catch (problem) {
    // A picture that the browser can't decode.
    if (problem instanceof DOMException) return null;
    throw problem;
  }
}
