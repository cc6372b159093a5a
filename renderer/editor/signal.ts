/** Tells those who listen that something moved, without saying what. */
export class Signal {
  private readonly listeners = new Set<() => void>();

  tell(): void {
    for (const listener of [...this.listeners]) listener();
  }

  /** Hears until the returned function is called. */
  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
}
