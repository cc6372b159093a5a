/** Opens the file that the user named, as a book. */
import { basename } from 'node:path';
import { type Opened, openFile } from '#engine';
import { InputProblem } from '../problems.ts';
import { readInput } from './files.ts';
import { sha256 } from './hash.ts';
import { inflate } from './inflate.ts';

/** Reads and opens a manuscript or book file. Throws `InputProblem` with one sentence that names the file. */
export async function openInput(path: string): Promise<Opened> {
  const opened = openFile(await readInput(path), basename(path), { inflate, hash: sha256 });
  if (!opened.ok) throw new InputProblem(opened.problem);
  return opened.value;
}
