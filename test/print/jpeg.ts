/**
 * The smallest JPEG pictures: eight by eight pixels of the middle value in every component, so that each block's one
 * difference is nought (ITU T.81, baseline).
 */

function segment(marker: number, body: readonly number[]): number[] {
  const length = body.length + 2;
  return [0xff, marker, length >> 8, length & 255, ...body];
}

/** A picture with 1, 3 or 4 components; `adobe` adds the marker with which CMYK values are inverted. */
export function jpeg(components: 1 | 3 | 4, adobe: boolean): Uint8Array {
  const ids = Array.from({ length: components }, (_, i) => i + 1);
  const quantisation = segment(0xdb, [0, ...new Array<number>(64).fill(1)]);
  const frame = segment(0xc0, [8, 0, 8, 0, 8, components, ...ids.flatMap((id) => [id, 0x11, 0])]);
  // One code of one bit in each table: difference of category 0, end of block.
  const oneCode = [1, ...new Array<number>(15).fill(0), 0];
  const tables = [...segment(0xc4, [0x00, ...oneCode]), ...segment(0xc4, [0x10, ...oneCode])];
  const scan = segment(0xda, [components, ...ids.flatMap((id) => [id, 0]), 0, 63, 0]);
  const marker = adobe ? segment(0xee, [...Buffer.from('Adobe'), 0, 100, 0, 0, 0, 0, 0]) : [];
  // Two nought bits a component, then ones to the byte's end.
  const data = 0xff >> (components * 2);
  return Uint8Array.from([
    0xff,
    0xd8,
    ...marker,
    ...quantisation,
    ...frame,
    ...tables,
    ...scan,
    ...(data === 0 ? [0] : [data]),
    0xff,
    0xd9,
  ]);
}
