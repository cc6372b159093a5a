/**
 * Files of open books that someone else changes. In: a path, and when we wrote it; out: a call when it differs from what we
 * know. The folder is watched, since a file that is replaced is another file; a look now and then serves where no events
 * come, as on network disks.
 */
import { type FSWatcher, watch } from 'node:fs';
import { stat } from 'node:fs/promises';
import { basename, dirname } from 'node:path';

/** Programs write in several steps: the look waits until it is quiet. */
const QUIET_MS = 300;
const LOOK_MS = 5_000;

/** The stamp of a file that is not as we know it. */
const ANOTHERS = '';

export class FileWatch {
  private readonly watcher: FSWatcher | null;
  private readonly looking: NodeJS.Timeout;
  private quiet: NodeJS.Timeout | undefined;
  private known: string | null = null;
  private ready: Promise<void>;
  private closed = false;

  /**
   * @param changed hears when the file was changed, once for each change; milliseconds.
   * @param isWriting whether we are writing the file ourselves: nothing is told until `know`.
   * @param readAt the time of the file as we read it, milliseconds; null where it is not known.
   */
  constructor(
    readonly path: string,
    private readonly changed: (modifiedAt: number) => void,
    private readonly isWriting: () => boolean,
    readAt: number | null,
  ) {
    this.watcher = this.watchFolder();
    this.looking = setInterval(() => void this.look(), LOOK_MS).unref();
    this.ready = this.know(readAt);
  }

  /** Takes the file as it is now for ours, unless it is known to be another's since we read it: then that is told soon. */
  know(readAt: number | null = null): Promise<void> {
    this.ready = stampOf(this.path).then((stamp) => {
      const ours = !stamp || readAt === null || stamp.modifiedAt === readAt;
      this.known = ours ? (stamp?.stamp ?? null) : ANOTHERS;
      if (!ours) this.lookSoon();
    });
    return this.ready;
  }

  /** Resolves when the file as it is, or as it was at the last `know`, is known. */
  get settled(): Promise<void> {
    return this.ready;
  }

  close(): void {
    this.closed = true;
    this.watcher?.close();
    clearInterval(this.looking);
    clearTimeout(this.quiet);
  }

  private watchFolder(): FSWatcher | null {
    try {
      const name = basename(this.path);
      const watcher = watch(dirname(this.path), { persistent: false }, (_event, changed) => {
        if (changed !== null && changed !== name) return;
        this.lookSoon();
      });
      // A folder that goes away ends the watch; looks go on.
      watcher.on('error', () => watcher.close());
      return watcher;
    } catch {
      // Not every disk can be watched.
      return null;
    }
  }

  private lookSoon(): void {
    clearTimeout(this.quiet);
    if (!this.closed) this.quiet = setTimeout(() => void this.look(), QUIET_MS).unref();
  }

  private async look(): Promise<void> {
    await this.ready;
    const before = this.known;
    const now = await stampOf(this.path);
    // A save of ours that goes on or ended meanwhile has its own say.
    if (this.closed || this.isWriting() || !now || now.stamp === this.known || this.known !== before) return;
    this.known = now.stamp;
    this.changed(now.modifiedAt);
  }
}

async function stampOf(path: string): Promise<{ readonly stamp: string; readonly modifiedAt: number } | null> {
  const about = await stat(path).catch(() => null);
  if (!about) return null;
  return { stamp: `${about.ino} ${about.size} ${about.mtimeMs}`, modifiedAt: Math.floor(about.mtimeMs) };
}
