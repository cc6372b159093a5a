/** A fault for the kill test: files are written over themselves, as if there were no other way. */
import { writeFile } from 'node:fs/promises';
import { setTimeout } from 'node:timers/promises';
import type { ReplaceOptions } from '../../electron/store/atomic.ts';
import { type Stamp, stampOf } from '../../electron/store/stamp.ts';

export { behindLinks, copyWhole, flushFolderSync, isWriteProtected, sweepBeside } from '../../electron/store/atomic.ts';

/** Stands in for `replaceFile`: what is interrupted is lost. */
export async function replaceFile(
  path: string,
  parts: readonly Uint8Array[],
  { ready }: ReplaceOptions = {},
): Promise<Stamp> {
  await ready?.(path);
  const bytes = Buffer.concat(parts);
  await writeFile(path, bytes.subarray(0, bytes.length / 2));
  await setTimeout(300);
  await writeFile(path, bytes);
  const stamp = await stampOf(path);
  if (!stamp) throw new RangeError(`${path} was not written`);
  return stamp;
}
