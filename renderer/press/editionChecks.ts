/**
 * What is known of every edition, not only of the one in proof: its page count and its findings. In: the layout worker's
 * replies; out: a check by edition, and whether the book has changed since. Editions that nobody looks at are checked while
 * the press desk is open and the worker has nothing else to do.
 */
import type { EditionId, Finding } from '#base';
import { Store, type Workbench } from '../state/index.ts';
import type { WorkerReply } from '../worker/index.ts';

export interface EditionCheck {
  /** Pages of a print edition; null while they are not known. */
  readonly count: number | null;
  /** null until they were looked for. */
  readonly findings: readonly Finding[] | null;
  /** Why it can't be laid out, or null. */
  readonly problem: string | null;
  /** Whether the findings are those of the book as it is now. */
  readonly fresh: boolean;
}

/** An edition of which nothing is known yet. */
export const UNCHECKED: EditionCheck = { count: null, findings: null, problem: null, fresh: false };

export type EditionChecks = ReadonlyMap<EditionId, EditionCheck>;

/**
 * The checks with what the proof shows of its edition, which may have been checked before anybody asked for checks: as long
 * as the book stays what it is, it is not checked again.
 */
export function withShown(
  checks: EditionChecks,
  shown: EditionId,
  { count, findings }: Pick<EditionCheck, 'count' | 'findings'>,
): EditionChecks {
  const known = checks.get(shown) ?? UNCHECKED;
  const earlier = known.findings === null && findings !== null ? { findings, fresh: true } : {};
  return new Map(checks).set(shown, { ...known, ...earlier, count });
}

export class EditionCheckStore extends Store<EditionChecks> {
  private users = 0;

  constructor(private readonly workbench: Pick<Workbench, 'books' | 'link'>) {
    super(new Map());
    const { books, link } = workbench;
    books.onOpen(() => {
      this.become(new Map());
      this.ask();
    });
    books.onChange(() => this.age());
    link.listen((reply) => this.hear(reply));
  }

  /** Checks all editions, and goes on until the returned function is called. */
  readonly use = (): (() => void) => {
    this.users++;
    this.ask();
    return () => {
      this.users--;
      this.ask();
    };
  };

  private ask(): void {
    this.workbench.link.worker?.others(this.users > 0);
  }

  /** What was found is of an earlier state of the book from now on. */
  private age(): void {
    if (![...this.get().values()].some(({ fresh }) => fresh)) return;
    this.become(new Map([...this.get()].map(([id, check]) => [id, { ...check, fresh: false }])));
  }

  private hear(reply: WorkerReply): void {
    switch (reply.kind) {
      case 'book':
        this.learn(reply.edition, { count: reply.count });
        break;
      case 'checked':
        this.learn(reply.edition, { findings: reply.findings, problem: null, fresh: true });
        break;
      case 'other':
        this.learn(reply.edition, {
          count: reply.count,
          findings: reply.findings,
          problem: reply.problem,
          fresh: true,
        });
    }
  }

  private learn(edition: EditionId, some: Partial<EditionCheck>): void {
    const known = this.get().get(edition) ?? UNCHECKED;
    const next = { ...known, ...some };
    const same = (Object.keys(some) as (keyof EditionCheck)[]).every((key) => known[key] === next[key]);
    if (!same) this.become(new Map(this.get()).set(edition, next));
  }
}

/** What is known of every edition now, of the one in proof too. */
export function checksNow(workbench: Workbench): EditionChecks {
  const { edition, count, findings, checked } = workbench.layout.get();
  const checks = editionChecksOf(workbench).get();
  return edition === null ? checks : withShown(checks, edition, { count, findings: checked ? findings : null });
}

/** Milliseconds for which files wait for the book to be looked through, at most. */
const PATIENCE = 5_000;

/** What is known of editions once they were looked through as they are now, or when that takes too long. */
export async function checksOf(workbench: Workbench, editions: readonly EditionId[]): Promise<EditionChecks> {
  const store = editionChecksOf(workbench);
  const areFresh = (): boolean => editions.every((id) => checksNow(workbench).get(id)?.fresh === true);
  if (!areFresh()) {
    const leave = store.use();
    await new Promise<void>((done) => {
      const end = (): void => {
        for (const stop of stops) stop();
        clearTimeout(timer);
        done();
      };
      const look = (): void => {
        if (areFresh()) end();
      };
      const stops = [store.subscribe(look), workbench.layout.subscribe(look)];
      const timer = setTimeout(end, PATIENCE);
    });
    leave();
  }
  return checksNow(workbench);
}

const stores = new WeakMap<Workbench, EditionCheckStore>();

/** The checks of a workbench. */
export function editionChecksOf(workbench: Workbench): EditionCheckStore {
  const store = stores.get(workbench) ?? new EditionCheckStore(workbench);
  stores.set(workbench, store);
  return store;
}
