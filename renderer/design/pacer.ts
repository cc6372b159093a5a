/**
 * Values that come faster than a book can follow. In: a run of them; out: the first at once, then the latest of those that
 * came meanwhile, one at a time, and the last when the run is over.
 */

/** Between two values of a run that are passed on, in milliseconds: a new layout of a long book begins with each. */
export const PACE = 60;

export class Pacer {
  private timer: ReturnType<typeof setTimeout> | null = null;
  private waiting: number | null = null;

  constructor(private readonly tell: (value: number) => void) {}

  step(value: number): void {
    this.waiting = value;
    if (this.timer === null) this.pass();
  }

  /** The run is over: what waits is passed on now. */
  end(): void {
    const last = this.waiting;
    this.stop();
    if (last !== null) this.tell(last);
  }

  /** Nobody listens any more. */
  stop(): void {
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
    this.waiting = null;
  }

  private pass(): void {
    const next = this.waiting;
    this.timer = null;
    if (next === null) return;
    this.waiting = null;
    this.timer = setTimeout(() => this.pass(), PACE);
    this.tell(next);
  }
}
