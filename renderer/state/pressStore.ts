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
  /** How the last run ended, until the next begins; null at first, and where another book took the place of its book. */
  readonly ended: ExportEnd | null;
}

type ExportEnd =
  | { readonly kind: 'done'; readonly record: ExportRecord }
  | { readonly kind: 'failed'; readonly problem: string }
  | { readonly kind: 'cancelled' };

const NOTHING: PressState = { running: null, history: [], ended: null };

type ExportEvent = Extract<HostEvent, { readonly kind: 'exportProgress' | 'exportEnded' }>;

export class PressStore extends Store<PressState> {
  /** Counts the books opened: what is heard for an earlier one is no news any more. */
  private opened = 0;
  /** Events that came before the host had named the job that they may be of. */
  private early: ExportEvent[] = [];
  private cancels = false;

  constructor(
    private readonly host: Pick<Host, 'export' | 'cancelExport' | 'exports'>,
    private readonly now: () => number,
  ) {
    super(NOTHING);
  }

  /** A book was opened: its earlier exports are asked for. */
  async begin(session: BookSession): Promise<void> {
    this.opened++;
    const { opened } = this;
    this.become(NOTHING);
    const history = await this.host.exports({ session });
    if (history.ok && opened === this.opened) this.set({ history: history.value });
  }

  async start(session: BookSession, editions: readonly EditionId[], folder: string): Promise<Outcome<null>> {
    if (this.get().running) return failure('An export is under way. Cancel it, or wait until it has ended.');
    const { opened } = this;
    const progress = new Map(editions.map((id) => [id, { stage: 'waiting', done: 0 } as const]));
    this.early = [];
    this.cancels = false;
    this.become({ ...this.get(), ended: null, running: { job: '', editions, startedAt: this.now(), progress } });
    const begun = await this.host.export({ session, editions: [...editions], folder });
    const { running } = this.get();
    if (opened !== this.opened || !running) return begun.ok ? success(null) : begun;
    if (!begun.ok) this.set({ running: null, ended: { kind: 'failed', problem: begun.problem } });
    else await this.named(begun.value.job, running);
    return begun.ok ? success(null) : begun;
  }

  async cancel(): Promise<void> {
    const { running } = this.get();
    if (running && running.job !== '') await this.host.cancelExport({ job: running.job });
    else this.cancels = true;
  }

  hear(event: HostEvent): void {
    const { running } = this.get();
    if (!running || (event.kind !== 'exportProgress' && event.kind !== 'exportEnded')) return;
    if (running.job === '') this.early.push(event);
    else if (event.job === running.job) this.take(event, running);
  }

  /** The host has named the job: what came in before is heard, and a wish to cancel carried out. */
  private async named(job: JobId, running: RunningExport): Promise<void> {
    this.set({ running: { ...running, job } });
    for (const event of this.early.splice(0)) this.hear(event);
    if (this.cancels) await this.cancel();
  }

  private take(event: ExportEvent, running: RunningExport): void {
    if (event.kind === 'exportProgress') {
      const progress = new Map(running.progress).set(event.edition, { stage: event.stage, done: event.done });
      this.set({ running: { ...running, progress } });
      return;
    }
    const { result } = event;
    if (result.kind === 'done') {
      const ended = { kind: 'done', record: result.record } as const;
      this.set({ running: null, ended, history: [result.record, ...this.get().history] });
    } else this.set({ running: null, ended: result });
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
