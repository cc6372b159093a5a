/** Books that were opened or saved lately, newest first. In: what happens to books; out: the list, kept between runs. */
import { stat } from 'node:fs/promises';
import * as v from 'valibot';
import type { RecentBook } from '#host';
import { JsonFile } from './jsonFile.ts';

const MOST = 24;

const entry = v.object({
  path: v.pipe(v.string(), v.minLength(1)),
  title: v.string(),
  author: v.string(),
  openedAt: v.number(),
  foreEdge: v.array(v.number()),
});

type Entry = v.InferOutput<typeof entry>;

export class RecentBooks {
  private constructor(
    private readonly file: JsonFile,
    private entries: readonly Entry[],
  ) {}

  static async load(appData: string): Promise<RecentBooks> {
    const file = new JsonFile(appData, 'recent.json');
    const json = await file.read();
    const entries = Array.isArray(json) ? json.filter((each) => v.is(entry, each)) : [];
    return new RecentBooks(file, entries.slice(0, MOST));
  }

  async list(): Promise<readonly RecentBook[]> {
    return Promise.all(this.entries.map(async (each) => ({ ...each, found: await isThere(each.path) })));
  }

  /** Puts a book first; what is known of its fore-edge stays unless a new one is given. */
  note(book: Omit<Entry, 'foreEdge'> & { readonly foreEdge?: readonly number[] | undefined }): void {
    const known = this.entries.find((each) => each.path === book.path);
    const foreEdge = [...(book.foreEdge ?? known?.foreEdge ?? [])];
    const others = this.entries.filter((each) => each.path !== book.path);
    this.keep([{ ...book, foreEdge }, ...others].slice(0, MOST));
  }

  noteForeEdge(path: string, pages: readonly number[]): void {
    this.keep(this.entries.map((each) => (each.path === path ? { ...each, foreEdge: [...pages] } : each)));
  }

  forget(path: string): void {
    this.keep(this.entries.filter((each) => each.path !== path));
  }

  settled(): Promise<void> {
    return this.file.settled();
  }

  /** A disk that refuses costs only the memory of the list. */
  private keep(entries: readonly Entry[]): void {
    this.entries = entries;
    this.file.write(entries).catch(() => undefined);
  }
}

async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    (about) => about.isFile(),
    () => false,
  );
}
