/**
 * Runs the DAISY accessibility checker over an EPUB. In: bytes; out: its violations. It opens every file of the spine
 * in Chromium, which is driven here and not by the checker's own runner, for that brings a second browser.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { launchChromium } from './chromium.ts';

export interface Violation {
  readonly rule: string;
  /** `critical`, `serious`, `moderate` or `minor`. */
  readonly impact: string;
  readonly file: string;
  readonly message: string;
}

type Checker = (path: string, options: Readonly<Record<string, unknown>>, runner: Runner) => Promise<unknown>;

const require = createRequire(import.meta.url);

/** Every violation that the checker finds. */
export async function checkAccessibility(epub: Uint8Array): Promise<readonly Violation[]> {
  const folder = await mkdtemp(join(tmpdir(), 'ace-'));
  try {
    const file = join(folder, 'book.epub');
    const out = join(folder, 'report');
    await writeFile(file, epub);
    await checker()(file, { cwd: folder, outdir: out, tmpdir: join(folder, 'work') }, new Runner());
    return violationsOf(JSON.parse(await readFile(join(out, 'report.json'), 'utf8')));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function checker(): Checker {
  const entry = require.resolve('@daisy/ace-core');
  // Its log has nowhere to go unless told; nobody reads it here.
  const winston = createRequire(entry)('winston');
  winston.configure({ silent: true, transports: [new winston.transports.Console()] });
  return require(entry) as Checker;
}

/** What the checker asks of a browser. */
class Runner {
  readonly concurrency = 2;
  private browser: Browser | null = null;

  async launch(): Promise<void> {
    this.browser = await launchChromium();
  }

  async close(): Promise<void> {
    await this.browser?.close();
  }

  setTimeout(): void {}

  /** Opens a file, adds the checker's scripts and returns what they report. */
  async run(url: string, scripts: readonly string[], contents: readonly string[]): Promise<unknown> {
    if (!this.browser) throw new RangeError('the browser has not been launched');
    const page = await this.browser.newPage();
    try {
      await page.goto(url);
      for (const content of contents) await page.addScriptTag({ content });
      for (const path of scripts) await page.addScriptTag({ path });
      return await page.evaluate(
        `new Promise((resolve, reject) => window.daisy.ace.run((error, result) => (error ? reject(error) : resolve(result))))`,
      );
    } finally {
      await page.close();
    }
  }
}

interface Report {
  readonly assertions: readonly {
    readonly 'earl:testSubject': { readonly url: string };
    readonly assertions: readonly {
      readonly 'earl:test': { readonly 'earl:impact': string; readonly 'dct:title': string };
      readonly 'earl:result': { readonly 'dct:description': string };
    }[];
  }[];
}

function violationsOf(report: unknown): readonly Violation[] {
  return (report as Report).assertions.flatMap((subject) =>
    subject.assertions.map((each) => ({
      rule: each['earl:test']['dct:title'],
      impact: each['earl:test']['earl:impact'],
      file: subject['earl:testSubject'].url,
      message: each['earl:result']['dct:description'],
    })),
  );
}
