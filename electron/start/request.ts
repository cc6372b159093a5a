/** The command line of `npm start`. In: words; out: what to open and whether to show a window, or a wrong-usage problem. */
import { resolve } from 'node:path';
import { UsageProblem } from '../problems.ts';

export const START_USAGE = `Usage: npm start [-- [--no-window] [<book.reglet | manuscript.docx>]]

  --no-window   serve without a window, and print the address
`;

export interface StartRequest {
  readonly window: boolean;
  readonly help: boolean;
  /** Absolute, or null. */
  readonly open: string | null;
}

const OPENABLE = /\.(reglet|docx)$/i;

export function parseStart(words: readonly string[], folder: string): StartRequest {
  const options = words.filter((word) => word.startsWith('-'));
  const files = words.filter((word) => !word.startsWith('-'));
  const strange = options.find((word) => word !== '--no-window' && word !== '--help');
  if (strange !== undefined) throw new UsageProblem(`there is no option ${strange}.`);
  if (files.length > 1) throw new UsageProblem('only one file is opened at the start.');
  const [file] = files;
  if (file !== undefined && !OPENABLE.test(file)) {
    throw new UsageProblem(`${file} is neither a book (.reglet) nor a manuscript (.docx).`);
  }
  const help = options.includes('--help');
  return { window: !options.includes('--no-window'), help, open: file === undefined ? null : resolve(folder, file) };
}
