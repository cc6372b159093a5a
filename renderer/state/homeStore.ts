/** What the first page shows: recent books and work that was not saved. In: the host's lists; out: the same, kept fresh. */
import type { Host, RecentBook, StartInfo, UnsavedWork } from '#host';
import { Store } from './store.ts';

export interface HomeState {
  readonly recent: readonly RecentBook[];
  readonly unsaved: readonly UnsavedWork[];
}

export class HomeStore extends Store<HomeState> {
  constructor(
    private readonly host: Pick<Host, 'start' | 'forgetRecent' | 'discardUnsaved'>,
    { recent, unsaved }: Pick<StartInfo, 'recent' | 'unsaved'>,
  ) {
    super({ recent, unsaved });
  }

  /** Asks anew; only while no book is open, for it is how a window begins. */
  async refresh(): Promise<void> {
    const { recent, unsaved } = await this.host.start({});
    this.become({ recent, unsaved });
  }

  async forget(path: string): Promise<void> {
    this.become({ ...this.get(), recent: await this.host.forgetRecent({ path }) });
  }

  /** Gives up work that was not saved. */
  async discard(id: string): Promise<void> {
    await this.host.discardUnsaved({ id });
    this.taken(id);
  }

  /** Work that was opened again is no longer offered. */
  taken(id: string): void {
    this.become({ ...this.get(), unsaved: this.get().unsaved.filter((each) => each.id !== id) });
  }
}
