/**
 * Choosing files, with the system's dialogs or with our own. In: what for; out: a path, or null where the person thought
 * better of it.
 */
import type { CallRequest, Host, StartInfo } from '#host';
import { Store } from '../../state/index.ts';

export type PathPurpose = CallRequest<'choosePath'>['purpose'];

export interface PathRequest {
  readonly purpose: PathPurpose;
  /** A name or path to begin with. */
  readonly suggested: string | null;
}

interface Asked extends PathRequest {
  readonly answer: (path: string | null) => void;
}

export class PathPicker extends Store<Asked | null> {
  constructor(
    private readonly host: Pick<Host, 'choosePath'>,
    private readonly dialogs: StartInfo['dialogs'],
  ) {
    super(null);
  }

  choose(purpose: PathPurpose, suggested: string | null = null): Promise<string | null> {
    if (this.dialogs === 'native') return this.host.choosePath({ purpose, suggested });
    this.get()?.answer(null);
    return new Promise((resolve) => {
      const answer = (path: string | null): void => {
        this.become(null);
        resolve(path);
      };
      this.become({ purpose, suggested, answer });
    });
  }
}

/** Endings of the files that fit a purpose; none where folders are chosen. */
export const ENDINGS: Readonly<Record<PathPurpose, readonly string[]>> = {
  openBook: ['reglet'],
  openManuscript: ['docx'],
  openPicture: ['png', 'jpg', 'jpeg', 'svg', 'gif', 'webp'],
  openDesign: ['json'],
  saveBook: ['reglet'],
  saveDesign: ['json'],
  folder: [],
};

export function isSaving(purpose: PathPurpose): boolean {
  return purpose === 'saveBook' || purpose === 'saveDesign';
}

export function fits(purpose: PathPurpose, name: string): boolean {
  const lower = name.toLowerCase();
  return ENDINGS[purpose].some((ending) => lower.endsWith(`.${ending}`));
}

/** The name with the ending that the purpose asks for. */
export function withEnding(purpose: PathPurpose, name: string): string {
  const [ending] = ENDINGS[purpose];
  return ending === undefined || fits(purpose, name) ? name : `${name}.${ending}`;
}

/** A path of a folder and a name, with the separator that the folder's path uses. */
export function joinPath(folder: string, name: string): string {
  const separator = folder.includes('\\') && !folder.includes('/') ? '\\' : '/';
  return folder.endsWith(separator) ? folder + name : folder + separator + name;
}

/** The last part of a path. */
export function nameOf(path: string): string {
  return path.split(/[\\/]/).pop() ?? path;
}

/** What stands before the last part of a path; null where there is only one part. */
export function folderOf(path: string): string | null {
  const cut = Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\'));
  return cut < 0 ? null : path.slice(0, Math.max(1, cut));
}
