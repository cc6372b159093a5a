/**
 * Earlier saved states of a book. In: a file that is about to be replaced; out: up to five of them in the app's data
 * folder, the newest first.
 */
import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { copyFile, link, mkdir, readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** How many earlier states are kept of each book. */
export const KEPT_STATES = 5;

export interface Backup {
  /** The name of its file. */
  readonly id: string;
  /** When the state was saved: milliseconds since 1970. */
  readonly savedAt: number;
  readonly size: number;
}

const NAME = /^(\d{13})-\d+\.reglet$/;

export class Backups {
  private count = 0;

  constructor(private readonly folder: string) {}

  /** Keeps the state that stands at `path`, if there is one. A hard link costs nothing; across disks it is copied. */
  async keep(path: string): Promise<void> {
    const about = await stat(path).catch(() => null);
    if (!about?.isFile()) return;
    const folder = this.folderOf(path);
    await mkdir(folder, { recursive: true });
    const stamp = String(Math.max(0, Math.floor(about.mtimeMs))).padStart(13, '0');
    const target = join(folder, `${stamp}-${process.pid}${this.count++}.reglet`);
    await link(path, target).catch(() => copyFile(path, target, constants.COPYFILE_FICLONE));
    await this.prune(path);
  }

  async list(path: string): Promise<readonly Backup[]> {
    const folder = this.folderOf(path);
    const names = (await readdir(folder).catch(() => [])).filter((name) => NAME.test(name));
    const found = await Promise.all(
      names.map(async (id) => {
        const about = await stat(join(folder, id)).catch(() => null);
        return about ? [{ id, savedAt: Number(NAME.exec(id)?.[1]), size: about.size }] : [];
      }),
    );
    return found.flat().sort((one, other) => (one.id < other.id ? 1 : -1));
  }

  /** The file of a back-up; null for a name that is none of the book's. */
  async fileOf(path: string, id: string): Promise<string | null> {
    const known = await this.list(path);
    return known.some((backup) => backup.id === id) ? join(this.folderOf(path), id) : null;
  }

  private async prune(path: string): Promise<void> {
    for (const { id } of (await this.list(path)).slice(KEPT_STATES)) {
      await rm(join(this.folderOf(path), id), { force: true });
    }
  }

  private folderOf(path: string): string {
    return join(this.folder, createHash('sha256').update(path).digest('hex').slice(0, 32));
  }
}
