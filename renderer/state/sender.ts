/**
 * The way of changes to the host: in order, together once a frame, one message under way at a time. In: changes as they
 * are made; out: nothing lost. What the host refuses or can't be told stays here and is reported as a problem.
 */
import type { Change } from '#book';
import type { BookSession, Host } from '#host';

export interface SenderParts {
  readonly host: Pick<Host, 'change'>;
  readonly session: BookSession;
  /** Calls back when the frame has been drawn. */
  readonly later: (send: () => void) => void;
  /** Told when changes can't be kept: one sentence; the window must not go on as if they were. */
  readonly onProblem: (problem: string) => void;
  /** Told whenever what is kept becomes more or less. */
  readonly onProgress: () => void;
}

/** Changes in one message, at most: the host answers between messages. */
const MOST_AT_ONCE = 500;

export class Sender {
  private readonly waiting: Change[] = [];
  private scheduled = false;
  private underWay = false;
  private stopped = false;
  private kept = 0;
  private settling: (() => void)[] = [];

  constructor(private readonly parts: SenderParts) {}

  /** How many changes the host has not confirmed. */
  get unsent(): number {
    return this.waiting.length;
  }

  push(change: Change): void {
    this.waiting.push(change);
    this.schedule();
  }

  /** Resolves when the host has all changes made so far, with true; with false where it can't have them. */
  async settled(): Promise<boolean> {
    if (this.waiting.length > 0 && !this.stopped) {
      void this.send();
      await new Promise<void>((done) => this.settling.push(done));
    }
    return this.waiting.length === 0;
  }

  /** Tries again after a problem. */
  async again(): Promise<boolean> {
    this.stopped = false;
    return this.settled();
  }

  private schedule(): void {
    if (this.scheduled || this.stopped) return;
    this.scheduled = true;
    this.parts.later(() => {
      this.scheduled = false;
      void this.send();
    });
  }

  private async send(): Promise<void> {
    if (this.underWay || this.stopped || this.waiting.length === 0) return;
    this.underWay = true;
    const changes = this.waiting.slice(0, MOST_AT_ONCE);
    const problem = await this.deliver(changes);
    this.underWay = false;
    if (problem === null) {
      this.waiting.splice(0, changes.length);
      this.kept += changes.length;
      this.parts.onProgress();
      if (this.waiting.length > 0) return this.send();
    } else {
      this.stopped = true;
      this.parts.onProblem(problem);
    }
    for (const done of this.settling.splice(0)) done();
  }

  private async deliver(changes: readonly Change[]): Promise<string | null> {
    const { host, session } = this.parts;
    try {
      const reply = await host.change({ session, version: this.kept, changes: [...changes] });
      return reply.ok ? null : reply.problem;
    } catch (fault) {
      return fault instanceof Error ? fault.message : String(fault);
    }
  }
}
