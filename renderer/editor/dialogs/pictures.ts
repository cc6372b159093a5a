/** Pictures as they are brought in. In: a file's bytes; out: an asset for the book, or one sentence. */
import { assetIdOf, failure, type Outcome, success } from '#base';
import { type AssetRecord, assetRecord } from '#book';
import { editor } from '../../ui/texts/editor.en.ts';

/** What a picture begins with, by its media type (the formats' own specifications, from memory). */
const SIGNATURES: readonly (readonly [mediaType: string, begins: readonly number[]])[] = [
  ['image/png', [0x89, 0x50, 0x4e, 0x47]],
  ['image/jpeg', [0xff, 0xd8, 0xff]],
  ['image/gif', [0x47, 0x49, 0x46, 0x38]],
];

function mediaTypeOf(bytes: Uint8Array): string | null {
  const known = SIGNATURES.find(([, begins]) => begins.every((byte, at) => bytes[at] === byte));
  if (known) return known[0];
  const text = new TextDecoder('latin1').decode(bytes.subarray(0, 400));
  if (text.startsWith('RIFF') && text.slice(8, 12) === 'WEBP') return 'image/webp';
  return /<svg[\s>]/.test(text) ? 'image/svg+xml' : null;
}

/** Reads a picture: its type from its bytes, its size by the browser's own reader. */
export async function pictureOf(name: string, bytes: Uint8Array): Promise<Outcome<AssetRecord>> {
  const mediaType = mediaTypeOf(bytes);
  if (mediaType === null) return failure(editor.figure.unreadable(name));
  const pixels = mediaType === 'image/svg+xml' ? null : await pixelsOf(bytes, mediaType);
  if (pixels === null && mediaType !== 'image/svg+xml') return failure(editor.figure.unreadable(name));
  return success(assetRecord({ id: assetIdOf(bytes), bytes, mediaType, name, pixels }));
}

async function pixelsOf(bytes: Uint8Array, type: string): Promise<{ width: number; height: number } | null> {
  try {
    const bitmap = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type }));
    const pixels = { width: bitmap.width, height: bitmap.height };
    bitmap.close();
    return pixels;
  } catch {
    return null;
  }
}
