/**
 * Small files that the person chose in the window: pictures and designs. In: paths; out: bytes, or one sentence. Nothing
 * else is handed to the window or written for it, whatever it asks for.
 */
import { basename, extname } from 'node:path';
import { failure, type Outcome, success } from '#base';
import { InputProblem } from '../problems.ts';
import { writeWhole } from '../services/files.ts';
import { readWhole, usablePath } from './paths.ts';

const LARGEST_PICTURE = 64 * 2 ** 20;

const READABLE: ReadonlySet<string> = new Set(['.png', '.jpg', '.jpeg', '.gif', '.svg', '.webp', '.json']);
const WRITABLE = '.json';

export async function readSmallFile(
  path: string,
): Promise<Outcome<{ readonly name: string; readonly bytes: Uint8Array }>> {
  const name = basename(path);
  if (!READABLE.has(extname(path).toLowerCase())) return failure(`${name} is neither a picture nor a design.`);
  const read = await readWhole(path, LARGEST_PICTURE);
  return read.ok ? success({ name, bytes: read.value }) : read;
}

/** Writes a design: all of it or nothing. */
export async function writeSmallText(path: string, text: string): Promise<Outcome<null>> {
  const usable = usablePath(path);
  if (!usable.ok) return usable;
  if (extname(path).toLowerCase() !== WRITABLE) return failure(`A design is kept in a file that ends in ${WRITABLE}.`);
  return wholeOrSentence(usable.value, new TextEncoder().encode(text));
}

/** Writes a file whole; a disk that refuses is an expected failure. */
async function wholeOrSentence(path: string, bytes: Uint8Array): Promise<Outcome<null>> {
  try {
    await writeWhole(path, bytes);
    return success(null);
  } catch (problem) {
    if (problem instanceof InputProblem) return failure(problem.message);
    throw problem;
  }
}
