/** What was exported of each book, newest first. In: records; out: the list of a book, kept between runs in app data. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import * as v from 'valibot';
import type { ExportRecord } from '#host';
import { JsonFile } from './jsonFile.ts';

const MOST = 100;

const counts = v.object({ errors: v.number(), warnings: v.number(), notes: v.number() });

const edition = v.object({
  edition: v.string(),
  findings: counts,
  muted: v.number(),
  state: v.nullable(
    v.object({
      settings: v.string(),
      sections: v.array(v.tuple([v.string(), v.string()])),
      pages: v.nullable(v.array(v.string())),
    }),
  ),
});

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
  findings: counts,
  editions: v.optional(v.array(edition), []),
});

export class ExportHistory {
  constructor(private readonly appData: string) {}

  /** @param book the identifier that a book keeps through every edit. */
  async of(book: string): Promise<readonly ExportRecord[]> {
    const json = await this.file(book).read();
    if (!Array.isArray(json)) return [];
    return json.flatMap((each) => {
      const read = v.safeParse(record, each);
      return read.success ? [read.output] : [];
    });
  }

  /** Adds a record; a disk that refuses costs only the memory of it. */
  async add(book: string, added: ExportRecord): Promise<void> {
    const made = new Set(added.editions.map((each) => each.edition));
    const earlier = (await this.of(book)).map((each) => withoutStates(each, made));
    const all = [added, ...earlier].slice(0, MOST);
    await this.file(book)
      .write(all)
      .catch(() => undefined);
  }

  private file(book: string): JsonFile {
    const name = createHash('sha256').update(book).digest('hex').slice(0, 32);
    return new JsonFile(join(this.appData, 'exports'), `${name}.json`);
  }
}

/** A record without the states of editions that were made again since: what has changed is told from the last. */
function withoutStates(of: ExportRecord, editions: ReadonlySet<string>): ExportRecord {
  const kept = of.editions.map((each) => (editions.has(each.edition) ? { ...each, state: null } : each));
  return { ...of, editions: kept };
}
