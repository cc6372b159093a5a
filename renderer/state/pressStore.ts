/**
 * Exports that run and that ran. In: the host's events and orders from the press desk; out: progress by edition, the time
 * left as far as it can be told, and the book's history.
 */
import { type EditionId, failure, type Outcome, success } from '#base';
import type { BookSession, ExportRecord, ExportStage, Host, HostEvent, JobId } from '#host';
import { Store } from './store.ts';

export interface RunningExport {
  readonly job: JobId;
  readonly editions: readonly EditionId[];
  readonly startedAt: number;
  readonly progress: ReadonlyMap<EditionId, { readonly stage: ExportStage; readonly done: number }>;
}

export interface PressState {
  readonly running: RunningExport | null;
  readonly history: readonly ExportRecord[];
  /** How the last run ended, until the next begins; null at first and after a cancelled run. */
  readonly ended: { readonly kind: 'done'; readonly record: ExportRecord } | ExportFailure | null;
}

interface ExportFailure {
  readonly kind: 'failed';
  readonly problem: string;
}

const NOTHING: PressState = { running: null, history: [], ended: null };

export class PressStore extends Store<PressState> {
  constructor(
    private readonly host: Pick<Host, 'export' | 'cancelExport' | 'exports'>,
    private readonly now: () => number,
  ) {
    super(NOTHING);
  }

  /** A book was opened: its earlier exports are asked for. */
  async begin(session: BookSession): Promise<void> {
    this.become(NOTHING);
    const history = await this.host.exports({ session });
    if (history.ok) this.set({ history: history.value });
  }

  async start(session: BookSession, editions: readonly EditionId[], folder: string): Promise<Outcome<null>> {
    if (this.get().running) return failure('An export is under way. Cancel it, or wait until it has ended.');
    const progress = new Map(editions.map((id) => [id, { stage: 'waiting', done: 0 } as const]));
    this.become({ ...this.get(), ended: null, running: { job: '', editions, startedAt: this.now(), progress } });
    const begun = await this.host.export({ session, editions: [...editions], folder });
    const { running } = this.get();
    if (!begun.ok) this.set({ running: null, ended: { kind: 'failed', problem: begun.problem } });
    else if (running) this.set({ running: { ...running, job: begun.value.job } });
    return begun.ok ? success(null) : begun;
  }

  async cancel(): Promise<void> {
    const { running } = this.get();
    if (running) await this.host.cancelExport({ job: running.job });
  }

  hear(event: HostEvent): void {
    const { running, history } = this.get();
    if (!running) return;
    if (event.kind === 'exportProgress') {
      const progress = new Map(running.progress).set(event.edition, { stage: event.stage, done: event.done });
      this.set({ running: { ...running, progress } });
    } else if (event.kind === 'exportEnded') {
      const { result } = event;
      if (result.kind === 'done') {
        const ended = { kind: 'done', record: result.record } as const;
        this.set({ running: null, ended, history: [result.record, ...history] });
      } else this.set({ running: null, ended: result.kind === 'failed' ? result : null });
    }
  }

  private set(some: Partial<PressState>): void {
    this.become({ ...this.get(), ...some });
  }
}

/** How much of a run is done, 0 to 1. */
export function shareDone({ progress, editions }: RunningExport): number {
  let sum = 0;
  for (const { done } of progress.values()) sum += done;
  return editions.length === 0 ? 0 : sum / editions.length;
}

/** Milliseconds that a run will still take, as it went so far; null while too little is done to tell. */
export function timeLeft(running: RunningExport, now: number): number | null {
  const done = shareDone(running);
  return done < 0.05 ? null : ((now - running.startedAt) * (1 - done)) / done;
}
