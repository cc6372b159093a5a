/** What the system says of files, as sentences for the author. In: an error of the system; out: one sentence. */
import { basename, dirname } from 'node:path';

function codeOf(problem: unknown): string {
  return problem instanceof Error && 'code' in problem ? String(problem.code) : '';
}

/** Why a book could not be read; errors that say nothing of files are passed on. */
export function readingProblem(path: string, problem: unknown): string {
  const name = basename(path);
  const sentences: Readonly<Record<string, string>> = {
    ENOENT: `${name} was not found.`,
    ENOTDIR: `${name} was not found.`,
    EACCES: `${name} may not be read.`,
    EPERM: `${name} may not be read.`,
    EISDIR: `${name} is a folder, not a book.`,
    ENAMETOOLONG: 'The name of the file is too long.',
    ELOOP: `${name} is a link that leads in a circle.`,
    EIO: `${name} can't be read: the disk reports an error.`,
    ERR_INVALID_ARG_VALUE: 'The name of the file holds characters that no name may hold.',
  };
  return sentenceFor(problem, sentences, `${name} can't be read`);
}

/** Why a book could not be saved. What was there before is untouched, and the journal holds the changes. */
export function savingProblem(path: string, problem: unknown): string {
  const [name, folder] = [basename(path), dirname(path)];
  const sentences: Readonly<Record<string, string>> = {
    ENOENT: `${name} could not be saved: the folder ${folder} is not there.`,
    ENOTDIR: `${name} could not be saved: ${folder} is not a folder.`,
    EACCES: `${name} could not be saved: the folder ${folder} may not be written to.`,
    EPERM: `${name} could not be saved: the folder ${folder} may not be written to.`,
    EROFS: `${name} could not be saved: its disk can only be read.`,
    ENOSPC: `${name} could not be saved: the disk is full.`,
    EDQUOT: `${name} could not be saved: your share of the disk is full.`,
    EISDIR: `${name} could not be saved: a folder has that name.`,
    EBUSY: `${name} could not be saved: another program is holding it.`,
    EIO: `${name} could not be saved: the disk reports an error.`,
    ENAMETOOLONG: 'The book could not be saved: its name is too long.',
    ERR_INVALID_ARG_VALUE: 'The book could not be saved: its name holds characters that no name may hold.',
  };
  return sentenceFor(problem, sentences, `${name} could not be saved`);
}

/** Why a file that its owner marked as not to be written was left alone. */
export function protectedProblem(path: string): string {
  return `${basename(path)} could not be saved: it is marked as not to be written.`;
}

/** Why something was not done for want of a journal: work that can't be kept is refused rather than lost. */
export function journalProblem(what: string, folder: string, problem: unknown): string {
  const refused = `${what}, since its journal can't be kept`;
  const sentences: Readonly<Record<string, string>> = {
    EACCES: `${refused}: ${folder} may not be written to.`,
    EPERM: `${refused}: ${folder} may not be written to.`,
    EROFS: `${refused}: the disk of ${folder} can only be read.`,
    ENOSPC: `${refused}: the disk is full.`,
    EDQUOT: `${refused}: your share of the disk is full.`,
    ENOTDIR: `${refused}: ${folder} is no folder.`,
    EEXIST: `${refused}: ${folder} is no folder.`,
  };
  return sentenceFor(problem, sentences, refused);
}

/** Whether an error is the system's word on a file, and not a mistake in the code. */
export function isOfDisk(problem: unknown): boolean {
  return codeOf(problem) !== '';
}

/** @param otherwise how the sentence begins for an error that has none of its own. */
function sentenceFor(problem: unknown, sentences: Readonly<Record<string, string>>, otherwise: string): string {
  const code = codeOf(problem);
  if (code === '') throw problem;
  return sentences[code] ?? `${otherwise} (${code}).`;
}
