/**
 * Pictures as image objects. In: assets; out: one object for each asset that is used, at full resolution: JPEG data as it
 * is, PNG samples deflated again.
 */
import type { AssetId } from '#base';
import type { PdfFile } from './file.ts';
import { readJpegFrame } from './jpeg.ts';
import type { Dictionary, Ref } from './objects.ts';
import { readPng } from './png.ts';
import type { PrintAsset, PrintRequest } from './request.ts';

interface ImageData {
  readonly data: Uint8Array;
  readonly entries: Dictionary;
}

const COLOUR_SPACES = { 1: 'DeviceGray', 3: 'DeviceRGB', 4: 'DeviceCMYK' } as const;

export class ImageStore {
  private readonly names = new Map<AssetId, string | null>();
  private readonly objects: [name: string, ref: Ref][] = [];

  constructor(
    private readonly file: PdfFile,
    private readonly request: Pick<PrintRequest, 'asset' | 'deflate'>,
  ) {}

  /** The resource name of an asset's image; null where it can't be printed. */
  nameOf(id: AssetId): string | null {
    const known = this.names.get(id);
    if (known !== undefined) return known;
    const asset = this.request.asset(id);
    const image = asset ? readImage(asset, this.request.deflate) : null;
    const name = image ? this.register(image) : null;
    this.names.set(id, name);
    return name;
  }

  /** The images for the pages' resources. */
  resources(): Readonly<Record<string, Ref>> {
    return Object.fromEntries(this.objects);
  }

  private register({ data, entries }: ImageData): string {
    const name = `I${this.objects.length + 1}`;
    this.objects.push([name, this.file.addStream({ Type: 'XObject', Subtype: 'Image', ...entries }, data)]);
    return name;
  }
}

/** Why a picture can't be printed, null where it can. */
export function imageProblem(asset: PrintAsset): string | null {
  if (asset.mediaType !== 'image/jpeg' && asset.mediaType !== 'image/png') {
    return `Pictures of type ${asset.mediaType} can't be printed; only JPEG and PNG can.`;
  }
  return readImage(asset, (bytes) => bytes)
    ? null
    : 'The picture is damaged or of an unusual kind and cannot be printed.';
}

function readImage(asset: PrintAsset, deflate: PrintRequest['deflate']): ImageData | null {
  if (asset.mediaType === 'image/jpeg') return jpegImage(asset.bytes);
  return asset.mediaType === 'image/png' ? pngImage(asset.bytes, deflate) : null;
}

function jpegImage(bytes: Uint8Array): ImageData | null {
  const frame = readJpegFrame(bytes);
  if (!frame) return null;
  return {
    data: bytes,
    entries: {
      Width: frame.width,
      Height: frame.height,
      ColorSpace: COLOUR_SPACES[frame.components],
      BitsPerComponent: frame.bits,
      Filter: 'DCTDecode',
      ...(frame.inverted ? { Decode: [1, 0, 1, 0, 1, 0, 1, 0] } : {}),
    },
  };
}

function pngImage(bytes: Uint8Array, deflate: PrintRequest['deflate']): ImageData | null {
  const samples = readPng(bytes);
  if (!samples) return null;
  return {
    data: deflate(samples.data),
    entries: {
      Width: samples.width,
      Height: samples.height,
      ColorSpace: COLOUR_SPACES[samples.components],
      BitsPerComponent: samples.bits,
      Filter: 'FlateDecode',
    },
  };
}
