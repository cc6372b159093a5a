/**
 * Earlier saved states of a book. In: a file that is about to be replaced; out: up to five of them in the app's data
 * folder, the newest first.
 */
import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { copyFile, link, readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { makeFolder } from '../services/folders.ts';
import { behindLinks } from './atomic.ts';

/** How many earlier states are kept of each book. */
export const KEPT_STATES = 5;

/** Bytes that they may take together; the newest is kept whatever its size. */
const MOST_BYTES = 2 ** 30;

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

  constructor(
    private readonly folder: string,
    private readonly mostBytes = MOST_BYTES,
  ) {}

  /** Keeps the state that stands at `path`, if there is one. A hard link costs nothing; across disks it is copied. */
  async keep(path: string): Promise<void> {
    const about = await stat(path).catch(() => null);
    if (!about?.isFile()) return;
    const folder = await this.folderOf(path);
    await makeFolder(folder);
    const stamp = String(Math.max(0, Math.floor(about.mtimeMs))).padStart(13, '0');
    const target = join(folder, `${stamp}-${process.pid}${this.count++}.reglet`);
    await link(path, target).catch(() => copyFile(path, target, constants.COPYFILE_FICLONE));
    await this.prune(path);
  }

  async list(path: string): Promise<readonly Backup[]> {
    const folder = await this.folderOf(path);
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
    return known.some((backup) => backup.id === id) ? join(await this.folderOf(path), id) : null;
  }

  private async prune(path: string): Promise<void> {
    const folder = await this.folderOf(path);
    let bytes = 0;
    for (const [at, { id, size }] of (await this.list(path)).entries()) {
      bytes += size;
      if (at >= KEPT_STATES || (at > 0 && bytes > this.mostBytes)) await rm(join(folder, id), { force: true });
    }
  }

  /** A book's folder: the same whichever link leads to the book. */
  private async folderOf(path: string): Promise<string> {
    const name = createHash('sha256')
      .update(await behindLinks(path))
      .digest('hex');
    return join(this.folder, name.slice(0, 32));
  }
}
