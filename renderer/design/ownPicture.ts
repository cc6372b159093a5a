/** A picture of the author's own between scenes. In: a file's bytes; out: its record, and whether it has colour. */
import { type Outcome, success } from '#base';
import type { AssetRecord } from '#book';
import { pictureRecord } from '../press/pictures.ts';

export interface OwnPicture {
  readonly record: AssetRecord;
  readonly colour: boolean;
}

export async function ownPicture(name: string, bytes: Uint8Array): Promise<Outcome<OwnPicture>> {
  const record = await pictureRecord(name, bytes);
  if (!record.ok) return record;
  return success({ record: record.value, colour: await hasColour(bytes, record.value.mediaType) });
}

/** Pixels to a side of what is looked at: a patch of colour that is lost in it is none that a reader would see. */
const SIDE = 256;
/** How far red, green and blue may lie apart in what is grey: compression alone makes some difference. */
const SLACK = 24;

async function hasColour(bytes: Uint8Array, type: string): Promise<boolean> {
  const bitmap = await createImageBitmap(new Blob([bytes.slice()], { type }));
  const scale = Math.min(1, SIDE / Math.max(bitmap.width, bitmap.height));
  const [width, height] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.round(side * scale)));
  const context = new OffscreenCanvas(width ?? 1, height ?? 1).getContext('2d', { willReadFrequently: true });
  if (!context) throw new RangeError('no canvas');
  context.drawImage(bitmap, 0, 0, width ?? 1, height ?? 1);
  bitmap.close();
  const { data } = context.getImageData(0, 0, width ?? 1, height ?? 1);
  return isColoured(data);
}

/** Whether any pixel that shows is other than grey. `data`: red, green, blue and opacity of each. */
export function isColoured(data: Uint8ClampedArray): boolean {
  for (let at = 0; at + 3 < data.length; at += 4) {
    const [red = 0, green = 0, blue = 0, shown = 0] = data.subarray(at, at + 4);
    if (shown > SLACK && Math.max(red, green, blue) - Math.min(red, green, blue) > SLACK) return true;
  }
  return false;
}
