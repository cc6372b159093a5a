/** Making editions. In: which ones; out: an export begun, and news of its end. */
import type { EditionId } from '#base';
import type { Workbench } from '../state/index.ts';
import { type Tools, texts } from '../ui/index.ts';
import { checksOf, editionChecksOf } from './editionChecks.ts';
import { errorsOf } from './standing.ts';

const words = texts.press;

/** Errors told one by one before files are made. */
const MOST_TOLD = 3;

/** Windows in which files are about to be made: pressing twice begins once. */
const beginning = new WeakSet<Workbench>();

export class Pressing {
  constructor(
    private readonly workbench: Workbench,
    private readonly tools: Tools,
  ) {
    // What is found is kept from now on, not only while the dockets are looked at.
    editionChecksOf(workbench);
  }

  /** Asks about errors, and for a folder where none is known, then makes the editions. */
  async make(editions: readonly EditionId[]): Promise<void> {
    const { workbench } = this;
    if (editions.length === 0 || workbench.press.get().running || beginning.has(workbench)) return;
    beginning.add(workbench);
    try {
      await this.begin(editions);
    } finally {
      beginning.delete(workbench);
    }
  }

  private async begin(editions: readonly EditionId[]): Promise<void> {
    const { books, press, settings } = this.workbench;
    const { session: asked } = books.current;
    if (!(await this.goesOn(editions)) || books.get()?.session !== asked) return;
    const folder = settings.get().exportFolder ?? (await this.chooseFolder());
    if (folder === null || !(await books.settled())) return;
    const { session } = books.current;
    const begun = await press.start(session, editions, folder);
    if (begun.ok) {
      this.tools.say(words.making(editions.length));
      this.tellEnd();
    } else this.tools.problem(begun.problem);
  }

  /** Whether files are made in spite of errors: a wrong font is dear once it is printed. */
  private async goesOn(editions: readonly EditionId[]): Promise<boolean> {
    const checks = await checksOf(this.workbench, editions);
    const errors = errorsOf(this.workbench.books.current.book, editions, checks);
    if (errors.length === 0) return true;
    const answer = await this.tools.asking.ask<'make' | 'stay'>({
      title: words.errors.title(errors.length),
      text: [...errors.slice(0, MOST_TOLD), words.errors.rest(errors.length - MOST_TOLD)].filter((each) => each !== ''),
      answers: [
        { id: 'make', text: words.errors.make, look: 'grave' },
        { id: 'stay', text: words.errors.stay, look: 'main' },
      ],
      otherwise: 'stay',
    });
    return answer === 'make';
  }

  makeAll(): Promise<void> {
    return this.make(this.workbench.books.current.book.editions.map((each) => each.id));
  }

  async chooseFolder(): Promise<string | null> {
    const { settings } = this.workbench;
    const folder = await this.tools.picker.choose('folder', settings.get().exportFolder);
    if (folder !== null) settings.set({ exportFolder: folder });
    return folder;
  }

  async open(path: string): Promise<void> {
    const reply = await this.workbench.host.openExternally({ path });
    if (!reply.ok) this.tools.problem(reply.problem);
  }

  async show(path: string): Promise<void> {
    const reply = await this.workbench.host.reveal({ path });
    if (!reply.ok) this.tools.problem(reply.problem);
  }

  /** News of the end, wherever the person is by then. */
  private tellEnd(): void {
    const { press } = this.workbench;
    const stop = press.subscribe(() => {
      const { running, ended } = press.get();
      if (running) return;
      stop();
      if (ended?.kind === 'failed') this.tools.problem(ended.problem);
      else if (ended?.kind === 'done') this.tellDone(ended.record.files);
      else if (ended?.kind === 'cancelled') this.tools.tell({ kind: 'done', text: words.cancelled });
    });
  }

  private tellDone(files: readonly { readonly path: string }[]): void {
    const [first] = files;
    const text = words.made(files.length);
    const action = first && { text: words.show, run: () => void this.show(first.path) };
    this.tools.tell({ kind: 'done', text, ...(action ? { action } : {}) });
  }
}
