/** What was exported of each book, newest first. In: records; out: the list of a book, kept between runs in app data. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import * as v from 'valibot';
import type { ExportRecord } from '#host';
import { JsonFile } from './jsonFile.ts';

const MOST = 100;

const record = v.object({
  job: v.string(),
  at: v.number(),
  files: v.array(
    v.object({
      edition: v.string(),
      kind: v.picklist(['print', 'ebook']),
      path: v.string(),
      bytes: v.number(),
      sha256: v.string(),
      pages: v.nullable(v.number()),
    }),
  ),
  findings: v.object({ errors: v.number(), warnings: v.number(), notes: v.number() }),
});

export class ExportHistory {
  constructor(private readonly appData: string) {}

  /** @param book the identifier that a book keeps through every edit. */
  async of(book: string): Promise<readonly ExportRecord[]> {
    const json = await this.file(book).read();
    return Array.isArray(json) ? json.filter((each) => v.is(record, each)) : [];
  }

  /** Adds a record; a disk that refuses costs only the memory of it. */
  async add(book: string, added: ExportRecord): Promise<void> {
    const all = [added, ...(await this.of(book))].slice(0, MOST);
    await this.file(book)
      .write(all)
      .catch(() => undefined);
  }

  private file(book: string): JsonFile {
    const name = createHash('sha256').update(book).digest('hex').slice(0, 32);
    return new JsonFile(join(this.appData, 'exports'), `${name}.json`);
  }
}
