/** One line of progress on a terminal, for work of more than half a second; silent when piped. */
import { performance } from 'node:perf_hooks';

const PATIENCE_MS = 500;

export class Progress {
  private readonly started = performance.now();
  private shown = false;

  constructor(private readonly stream: NodeJS.WriteStream = process.stderr) {}

  /** Says what is being done now. */
  step(what: string): void {
    if (!this.stream.isTTY || performance.now() - this.started < PATIENCE_MS) return;
    this.stream.write(`\r\u001b[K${what}`);
    this.shown = true;
  }

  /** Takes the line away. */
  done(): void {
    if (this.shown) this.stream.write('\r\u001b[K');
  }
}
