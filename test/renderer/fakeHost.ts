/** A host for tests: keeps a book in memory, takes changes, and can be told to refuse or to be out of reach. */
import { failure, type Outcome, success } from '#base';
import { applyChange, type Book, type Change } from '#book';
import { type CallRequest, type Host, messageOfBook, type OpenedBook } from '#host';

export class FakeHost {
  readonly calls: (readonly Change[])[] = [];
  version = 0;
  /** What the next call comes to, if not what it should. */
  next: 'refused' | 'unreachable' | null = null;

  constructor(public book: Book) {}

  opened(): OpenedBook {
    const kept = { path: null, savedAt: null, dirty: true };
    return { session: 'session', book: messageOfBook(this.book), kept, imported: null };
  }

  readonly change: Host['change'] = async (request) => {
    const fate = this.next;
    this.next = null;
    if (fate === 'unreachable') throw new Error('The program does not answer.');
    if (fate === 'refused') return failure('The disk is full.');
    return this.take(request);
  };

  private take({ version, changes }: CallRequest<'change'>): Outcome<{ readonly version: number }> {
    if (version !== this.version) return failure(`expected version ${this.version}, not ${version}`);
    for (const change of changes) {
      const applied = applyChange(this.book, change);
      if (!applied.ok) return applied;
      this.book = applied.value.book;
    }
    this.version += changes.length;
    this.calls.push(changes);
    return success({ version: this.version });
  }
}

/** Frames that come when they are told to. */
export class Frames {
  private waiting: (() => void)[] = [];

  readonly later = (call: () => void): void => {
    this.waiting.push(call);
  };

  draw(): void {
    for (const call of this.waiting.splice(0)) call();
  }
}
