/**
 * Books as the window opens, imports, saves and closes them. In: checked calls; out: replies, with what is open kept in
 * sessions.
 */
import { readFile, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { failure, type Outcome, success } from '#base';
import type { Book } from '#book';
import type { Backup, CallRequest, OpenedBook, SaveReply } from '#host';
import type { BookKeeper, KeptBook } from './keeping.ts';
import { type ManuscriptFile, manuscriptFile, readManuscript } from './manuscripts.ts';
import { usablePath } from './paths.ts';
import { NO_MANUSCRIPT, type Origin, type Session, type Sessions } from './sessions.ts';

export interface BookParts {
  readonly keeper: BookKeeper;
  readonly sessions: Sessions;
  /** The folder of the built program. */
  readonly program: string;
  readonly documents: string;
  /** Asks where to save, where dialogs are the host's; null where they are the window's. */
  readonly choosePath: ((wanted: CallRequest<'choosePath'>) => Promise<string | null>) | null;
}

const EXTENSION = '.reglet';

export class Books {
  constructor(private readonly parts: BookParts) {}

  async open({ source }: CallRequest<'openBook'>): Promise<Outcome<OpenedBook>> {
    const { keeper } = this.parts;
    if ('bytes' in source) return this.begun(await keeper.openBytes(source.name, source.bytes));
    const path = usablePath(source.path);
    return path.ok ? this.begun(await keeper.open(path.value)) : path;
  }

  /** The demo as any manuscript, without its report and remarks: it is shown as a book that was looked through. */
  async openDemo(): Promise<Outcome<OpenedBook>> {
    const path = join(this.parts.program, 'demo', 'manuscript.docx');
    const bytes = await readFile(path).catch(() => null);
    if (!bytes) return failure('The demo did not come with this program.');
    const read = await readManuscript({ name: basename(path), bytes }, [], this.parts.program);
    if (!read.ok) return read;
    return this.begun(await this.parts.keeper.adopt({ ...read.value.book, remarks: [] }));
  }

  async import({ source, without }: CallRequest<'importManuscript'>): Promise<Outcome<OpenedBook>> {
    const file = await manuscriptFile(source);
    return file.ok ? this.imported(file.value, without) : file;
  }

  /** Reads the manuscript anew; the session that it replaces is given up once the new one is there. */
  async importAgain({ session, without }: CallRequest<'importAgain'>): Promise<Outcome<OpenedBook>> {
    const old = this.parts.sessions.get(session);
    if (!old.ok) return old;
    const { manuscript } = old.value.origin;
    if (!manuscript) return failure('This book does not come from a manuscript that was just read.');
    const again = await this.imported(manuscript, without);
    if (again.ok) await this.parts.sessions.end(old.value, true);
    return again;
  }

  change({ session, version, changes }: CallRequest<'change'>): Outcome<{ readonly version: number }> {
    const found = this.parts.sessions.get(session);
    return found.ok ? found.value.change(version, changes) : found;
  }

  async save({ session, path, overwrite }: CallRequest<'save'>): Promise<Outcome<SaveReply>> {
    const found = this.parts.sessions.get(session);
    if (!found.ok) return found;
    const target = path ?? found.value.kept.path;
    if (target === null) return this.saveAs({ session });
    const usable = usablePath(withExtension(target));
    if (!usable.ok) return usable;
    const other = overwrite || usable.value === found.value.kept.path ? null : await standing(usable.value);
    return other ? success(other) : this.saved(found.value, usable.value, overwrite);
  }

  async saveAs({ session }: CallRequest<'saveAs'>): Promise<Outcome<SaveReply>> {
    const found = this.parts.sessions.get(session);
    if (!found.ok) return found;
    const { choosePath } = this.parts;
    const suggested = this.suggested(found.value.kept.book);
    if (!choosePath) return success({ kind: 'needsPath', suggested });
    const chosen = await choosePath({ purpose: 'saveBook', suggested });
    if (chosen === null) return success({ kind: 'cancelled' });
    const path = withExtension(chosen);
    // The system's dialog has asked already whether to replace a file, but only of the name that it knew.
    const other = path === chosen ? null : await standing(path);
    return other ? success(other) : this.saved(found.value, path, true);
  }

  async close({ session, discard }: CallRequest<'close'>): Promise<Outcome<null>> {
    const found = this.parts.sessions.get(session);
    if (!found.ok) return found;
    await this.parts.sessions.end(found.value, discard);
    return success(null);
  }

  async recover({ id }: CallRequest<'recover'>): Promise<Outcome<OpenedBook>> {
    return this.begun(await this.parts.keeper.recover(id));
  }

  discardUnsaved({ id }: CallRequest<'discardUnsaved'>): Promise<Outcome<null>> {
    return this.parts.keeper.discard(id);
  }

  async backups({ session }: CallRequest<'backups'>): Promise<Outcome<readonly Backup[]>> {
    const found = this.parts.sessions.get(session);
    if (!found.ok) return found;
    const { path } = found.value.kept;
    return success(path === null ? [] : await this.parts.keeper.backups(path));
  }

  async openBackup({ session, id }: CallRequest<'openBackup'>): Promise<Outcome<OpenedBook>> {
    const found = this.parts.sessions.get(session);
    if (!found.ok) return found;
    const { path } = found.value.kept;
    if (path === null) return failure('A book that was never saved has no back-ups.');
    return this.begun(await this.parts.keeper.openBackup(path, id));
  }

  private async imported(file: ManuscriptFile, without: readonly string[]): Promise<Outcome<OpenedBook>> {
    const read = await readManuscript(file, without, this.parts.program);
    if (!read.ok) return read;
    const { book, imported } = read.value;
    return this.begun(await this.parts.keeper.adopt(book), { manuscript: file, imported });
  }

  private begun(kept: Outcome<KeptBook>, origin: Origin = NO_MANUSCRIPT): Outcome<OpenedBook> {
    return kept.ok ? success(this.parts.sessions.begin(kept.value, origin).opened()) : kept;
  }

  private async saved(session: Session, path: string, overwrite: boolean): Promise<Outcome<SaveReply>> {
    const saving = await session.save(path, overwrite);
    if (!saving.ok) return saving;
    return success(saving.value.kind === 'saved' ? { kind: 'saved', kept: session.state() } : saving.value);
  }

  /** A path to begin with: the title, without what file systems don't take. */
  private suggested({ metadata }: Book): string {
    const name = metadata.title
      .replace(/[\p{C}<>:"/\\|?*]+/gu, ' ')
      .replace(/^[. ]+|[. ]+$/g, '')
      .slice(0, 80);
    return join(this.parts.documents, `${name || 'Book'}${EXTENSION}`);
  }
}

/** Another file in the place where a book is to be saved: the person has to say that it may go. */
async function standing(path: string): Promise<SaveReply | null> {
  const there = await stat(path).catch(() => null);
  return there?.isFile() ? { kind: 'changedOutside', path, modifiedAt: Math.round(there.mtimeMs) } : null;
}

function withExtension(path: string): string {
  return path.toLowerCase().endsWith(EXTENSION) ? path : `${path}${EXTENSION}`;
}
