/** Files named to the program: on its command line, by a double click, or by a second start. */
import { resolve } from 'node:path';

/** What the program opens. */
const OPENABLE = /\.(reglet|docx)$/i;

/** The last file of a command line that the program can open, absolute; null where none is named. */
export function fileNamed(argv: readonly string[], folder: string): string | null {
  const named = argv.slice(1).filter((argument) => !argument.startsWith('-') && OPENABLE.test(argument));
  const last = named.at(-1);
  return last === undefined ? null : resolve(folder, last);
}
