/**
 * Exports: a book's editions made in threads and written together. In: a book as it is now, editions, a folder; out: events
 * of progress and one event of the end. A run that fails or is cancelled leaves the folder as it was.
 */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { type EditionId, type Finding, failure, type Outcome, success } from '#base';
import type { Book } from '#book';
import type { ExportRecord, ExportStage, HostEvent, JobId } from '#host';
import type { FontFile } from '#type';
import type { PressedFile, PressResult, PressTask } from '../press-worker.ts';
import type { MakeStep } from '../services/editions.ts';
import { sha256 } from '../services/hash.ts';
import { crossing } from './crossing.ts';
import type { ExportHistory } from './exportHistory.ts';
import type { InstalledFonts } from './fonts/installedFonts.ts';
import { usablePath } from './paths.ts';
import { familiesWanted, pressRuns, type WantedFamilies } from './pressRuns.ts';
import { runThread, type ThreadEnd } from './thread.ts';
import { writeTogether } from './writeTogether.ts';

/** Megabytes of script memory for one run; a book of a million words takes half of it. */
const MEMORY_MB = 2_048;

export interface ExportParts {
  /** The folder of the built program. */
  readonly program: string;
  readonly fonts: InstalledFonts;
  readonly history: ExportHistory;
  readonly tell: (event: HostEvent) => void;
  readonly now: () => number;
}

interface Order {
  readonly job: JobId;
  readonly book: Book;
  readonly editions: readonly EditionId[];
  readonly folder: string;
  readonly faces: readonly FontFile[];
  readonly signal: AbortSignal;
}

type End = Extract<HostEvent, { readonly kind: 'exportEnded' }>['result'];

export class Exports {
  private readonly running = new Map<JobId, { readonly stop: AbortController; readonly ended: Promise<void> }>();
  private count = 0;

  constructor(private readonly parts: ExportParts) {}

  /** Begins an export; events tell the rest. */
  async begin(book: Book, editions: readonly EditionId[], folder: string): Promise<Outcome<{ readonly job: JobId }>> {
    const place = usablePath(folder);
    if (!place.ok) return place;
    const wanted = [...new Set(editions)];
    if (wanted.length === 0) return failure('No edition was chosen to export.');
    const families = familiesWanted(book, wanted);
    if (!families.ok) return families;
    const faces = await this.facesOf(families.value);
    const stop = new AbortController();
    this.count++;
    const job = `export-${this.parts.now()}-${this.count}`;
    const order = { job, book, editions: wanted, folder: place.value, faces, signal: stop.signal };
    this.running.set(job, { stop, ended: this.carryOut(order) });
    return success({ job });
  }

  /** Stops an export; its end comes as an event. */
  cancel(job: JobId): Outcome<null> {
    const running = this.running.get(job);
    if (!running) return failure('The export has ended already.');
    running.stop.abort();
    return success(null);
  }

  /** Stops all exports and waits until they have left everything as it was. */
  async close(): Promise<void> {
    const all = [...this.running.values()];
    for (const { stop } of all) stop.abort();
    await Promise.all(all.map(({ ended }) => ended));
  }

  /** The faces that are there. What is not is replaced as in the proof, and the findings say by what. */
  private async facesOf({ text, marks }: WantedFamilies): Promise<readonly FontFile[]> {
    const faces: FontFile[] = [];
    for (const family of [...text, ...marks]) faces.push(...(await this.parts.fonts.family(family)));
    return faces;
  }

  private async carryOut(order: Order): Promise<void> {
    // The caller learns the job's name before it hears of the job.
    await new Promise((resolve) => setImmediate(resolve));
    let result: End;
    try {
      result = await this.made(order);
    } catch (fault) {
      result = { kind: 'failed', problem: sentenceOfFault(fault) };
    }
    this.running.delete(order.job);
    this.parts.tell({ kind: 'exportEnded', job: order.job, result });
  }

  private async made(order: Order): Promise<End> {
    const { book, editions, folder, signal } = order;
    for (const edition of editions) this.tellStage(order, edition, 'waiting', 0);
    const pressed = await this.press(order, pressRuns(book, editions));
    if (signal.aborted) return { kind: 'cancelled' };
    if (!pressed.ok) return { kind: 'failed', problem: pressed.problem };
    const files = inOrder(pressed.value, editions).map((file) => ({ ...file, path: join(folder, file.name) }));
    if (new Set(files.map(({ path }) => path.toLowerCase())).size < files.length) {
      return { kind: 'failed', problem: 'Two of the editions would be written to a file of the same name.' };
    }
    const written = await writeTogether(files, signal);
    if (!written.ok) return signal.aborted ? { kind: 'cancelled' } : { kind: 'failed', problem: written.problem };
    for (const edition of editions) this.tellStage(order, edition, 'ready', 1);
    const findings = distinct(pressed.value.flatMap((each) => each.findings));
    const muted = distinct(pressed.value.flatMap((each) => each.muted));
    const record = recordOf({ job: order.job, at: this.parts.now(), files, findings, muted });
    await this.parts.history.add(book.metadata.identifier, record);
    return { kind: 'done', record, findings };
  }

  /** Carries out the runs, as many at once as there are cores. The first failure stops the others. */
  private async press(order: Order, runs: readonly (readonly EditionId[])[]): Promise<Outcome<readonly PressResult[]>> {
    const stop = new AbortController();
    const { signal } = stop;
    order.signal.addEventListener('abort', () => stop.abort());
    const results: PressResult[] = [];
    let problem: string | null = null;
    const waiting = [...runs.entries()];
    const work = async (): Promise<void> => {
      for (let next = waiting.shift(); next; next = waiting.shift()) {
        const [at, editions] = next;
        const end = await this.pressRun({ ...order, editions, signal });
        if (end.kind === 'result') results[at] = end.result;
        else if (end.kind !== 'stopped') problem ??= sentenceOfEnd(end);
        if (end.kind !== 'result') stop.abort();
      }
    };
    await Promise.all(Array.from({ length: Math.min(runs.length, availableParallelism()) }, work));
    return problem === null ? success(results) : failure(problem);
  }

  private pressRun(run: Order): Promise<ThreadEnd<PressResult>> {
    const task: PressTask = { book: crossing(run.book), editions: run.editions, faces: run.faces };
    return runThread<PressResult>({
      script: join(this.parts.program, 'press-worker.mjs'),
      data: task,
      memory: MEMORY_MB,
      patience: null,
      onWord: (word) => this.tellStep(run, word as MakeStep),
      signal: run.signal,
    });
  }

  private tellStep(run: Order, { edition, stage, done }: MakeStep): void {
    // The lead edition is made up for an ebook's sake too, without being exported itself.
    if (run.editions.includes(edition)) this.tellStage(run, edition, stage, shareOf(stage, done));
  }

  private tellStage({ job }: Order, edition: EditionId, stage: ExportStage, done: number): void {
    this.parts.tell({ kind: 'exportProgress', job, edition, stage, done });
  }
}

/** How much of an edition is done: making up is most of the work of print (measured on a long novel). */
function shareOf(stage: MakeStep['stage'], done: number): number {
  switch (stage) {
    case 'pages':
      return 0.7 * done;
    case 'pdf':
      return 0.8;
    case 'ebook':
      return 0.5;
  }
}

function inOrder(results: readonly PressResult[], editions: readonly EditionId[]): readonly PressedFile[] {
  const files = results.flatMap((each) => each.files);
  return editions.flatMap((edition) => files.filter((file) => file.edition === edition));
}

/** Each run looks through the whole book: what several found is told once. */
function distinct(findings: readonly Finding[]): readonly Finding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()];
}

interface Run {
  readonly job: JobId;
  readonly at: number;
  readonly files: readonly (PressedFile & { readonly path: string })[];
  readonly findings: readonly Finding[];
  readonly muted: readonly Finding[];
}

function recordOf({ job, at, files, findings, muted }: Run): ExportRecord {
  return {
    job,
    at,
    files: files.map(({ edition, kind, path, bytes, pages }) => {
      return { edition, kind, path, bytes: bytes.length, sha256: sha256(bytes), pages };
    }),
    findings: countsOf(findings),
    editions: files.map(({ edition, state }) => {
      const own = (each: Finding): boolean => each.edition === undefined || each.edition === edition;
      return { edition, findings: countsOf(findings.filter(own)), muted: muted.filter(own).length, state };
    }),
  };
}

function countsOf(findings: readonly Finding[]): ExportRecord['findings'] {
  const count = (severity: Finding['severity']): number => findings.filter((each) => each.severity === severity).length;
  return { errors: count('error'), warnings: count('warning'), notes: count('note') };
}

function sentenceOfEnd(end: Exclude<ThreadEnd<unknown>, { readonly kind: 'result' }>): string {
  switch (end.kind) {
    case 'fault':
      return sentenceOfFault(end.fault);
    case 'outOfMemory':
      return 'The export needs more memory than this computer gives. Nothing was written.';
    case 'silent':
    case 'stopped':
      return 'The export was stopped. Nothing was written.';
  }
}

function sentenceOfFault(fault: unknown): string {
  const what = fault instanceof Error ? fault.message : String(fault);
  return `The export failed because Reglet made a mistake (${what}). Nothing was written.`;
}
