/**
 * The picture between scenes as a design file carries it, so that the next book of a series has it too. In: a design and its
 * book, or a file; out: the file's text with the picture, or the picture in it.
 */
import { type Asset, assetRecord } from '#book';
import type { DesignSettings } from '#design';
import { proofRoom } from '../proof/index.ts';
import type { Workbench } from '../state/index.ts';
import { designText } from './designFile.ts';

/** The member of the file; a version that does not know it leaves it alone. */
const MEMBER = 'picture';

/** A design as a file, with the picture that it shows between scenes. */
export async function textWithPicture(settings: DesignSettings, workbench: Workbench): Promise<string> {
  const { own } = settings.sceneBreak;
  const asset = own?.kind === 'picture' ? workbench.books.current.book.assets.get(own.asset) : undefined;
  const bytes = asset && (await bytesOf(asset, workbench));
  return asset && bytes ? withPicture(designText(settings), { ...asset, bytes }) : designText(settings);
}

/** The text of a design file with a picture. */
export function withPicture(text: string, asset: Asset): string {
  const { name, base64 } = assetRecord(asset);
  return `${JSON.stringify({ ...JSON.parse(text), [MEMBER]: { name, base64 } }, null, 2)}\n`;
}

/** The window has the bytes of what joined the book in it; the host has all of them. */
async function bytesOf(asset: Asset, workbench: Workbench): Promise<Uint8Array | null> {
  if (asset.bytes.length > 0) return asset.bytes;
  const address = proofRoom(workbench).addressOf(asset.id);
  const reply = address === null ? null : await fetch(address);
  return reply?.ok ? new Uint8Array(await reply.arrayBuffer()) : null;
}

export interface FilePicture {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The picture in a design file; null where it carries none, or none that can be read. */
export function pictureIn(file: Uint8Array): FilePicture | null {
  try {
    const picture = memberOf(JSON.parse(new TextDecoder().decode(file)), MEMBER);
    const [name, base64] = [memberOf(picture, 'name'), memberOf(picture, 'base64')];
    if (typeof name !== 'string' || typeof base64 !== 'string') return null;
    return { name: name.slice(0, LONGEST_NAME), bytes: Uint8Array.from(atob(base64), (byte) => byte.charCodeAt(0)) };
  } catch (problem) {
    // Text that is no JSON, and characters that are no base64: a file of anyone's.
    if (problem instanceof SyntaxError || problem instanceof DOMException) return null;
    throw problem;
  }
}

const LONGEST_NAME = 255;

function memberOf(json: unknown, name: string): unknown {
  return typeof json === 'object' && json !== null ? (json as Readonly<Record<string, unknown>>)[name] : undefined;
}
