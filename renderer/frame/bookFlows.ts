/**
 * What happens around a book's file: open, bring in, recover, save, close. In: what the person asked for; out: a book open,
 * saved or closed, with the questions on the way. Nothing is given up without being asked.
 */

import type { Outcome } from '#base';
import type { BookSession, CallRequest, OpenedBook, SaveReply } from '#host';
import type { Workbench } from '../state/index.ts';
import { nameOf, type Tools, texts } from '../ui/index.ts';
import { clock } from './times.ts';

export type Source = CallRequest<'openBook'>['source'];

const words = texts.frame;

/** Sections that a small fore-edge tells apart, at most. */
const MOST_BANDS = 2_000;

export class BookFlows {
  /** The latest opening or closing. */
  private last: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly workbench: Workbench,
    private readonly tools: Tools,
    /** Shows that something is under way until the returned function is called. */
    private readonly busy: (text: string) => () => void,
  ) {}

  async chooseBook(): Promise<void> {
    const path = await this.tools.picker.choose('openBook');
    if (path !== null) await this.openBook({ path });
  }

  async chooseManuscript(): Promise<void> {
    const path = await this.tools.picker.choose('openManuscript');
    if (path !== null) await this.importManuscript({ path });
  }

  openBook(source: Source): Promise<boolean> {
    return this.inTurn(() => this.openNow(source));
  }

  private async openNow(source: Source): Promise<boolean> {
    if ('path' in source && source.path === this.workbench.books.get()?.kept.path) return true;
    return this.replaceNow(words.busy.opening, () => this.workbench.host.openBook({ source }));
  }

  openDemo(): Promise<boolean> {
    return this.replace(words.busy.opening, () => this.workbench.host.openDemo({}));
  }

  importManuscript(source: Source): Promise<boolean> {
    const name = 'path' in source ? nameOf(source.path) : source.name;
    return this.replace(words.busy.importing(name), () =>
      this.workbench.host.importManuscript({ source, without: [] }),
    );
  }

  async recover(id: string): Promise<void> {
    const opened = await this.replace(words.busy.opening, () => this.workbench.host.recover({ id }));
    if (opened) this.workbench.home.taken(id);
  }

  async openBackup(session: BookSession, id: string): Promise<void> {
    await this.replace(words.busy.opening, () => this.workbench.host.openBackup({ session, id }));
  }

  /** A file that was named to the program or dropped on it. */
  async openFile(file: Source): Promise<void> {
    const name = 'path' in file ? nameOf(file.path) : file.name;
    if (/\.docx$/i.test(name)) await this.importManuscript(file);
    else if (/\.reglet$/i.test(name)) await this.openBook(file);
    else this.tools.problem(words.home.wrongFile(name));
  }

  /** Saves; true where the file holds everything now. */
  async save(path: string | null = null, overwrite = false): Promise<boolean> {
    const { books, host } = this.workbench;
    const state = books.get();
    if (!state || !(await books.settled())) return false;
    const { session } = state;
    await this.noteForeEdge(session);
    return this.afterSave(session, await host.save({ session, path, overwrite }), path);
  }

  async saveAs(): Promise<boolean> {
    const { books, host, info } = this.workbench;
    const state = books.get();
    if (!state || !(await books.settled())) return false;
    await this.noteForeEdge(state.session);
    const { session } = state;
    if (info.dialogs === 'native') return this.afterSave(session, await host.saveAs({ session }), null);
    return this.saveElsewhere(state.kept.path ?? state.book.metadata.title);
  }

  /** Closes the book; false where the person stays. */
  close(): Promise<boolean> {
    return this.inTurn(() => this.closeNow());
  }

  private async closeNow(): Promise<boolean> {
    const { books, host, home } = this.workbench;
    const state = books.get();
    if (!state) return true;
    await books.settled();
    const discard = await this.mayLeave();
    if (discard === null) return false;
    await host.close({ session: state.session, discard });
    books.close();
    await home.refresh();
    return true;
  }

  /** The window wants to close. What was not saved stays in the journal and is offered again, so nobody is kept waiting. */
  async leave(): Promise<void> {
    if (await this.close()) await this.workbench.host.leave({});
  }

  /** The open book's file was changed by someone else. */
  async changedOutside(path: string, modifiedAt: number): Promise<void> {
    await this.conflict(path, modifiedAt);
  }

  /** After changes could not be kept: the book again as the host has it. */
  async reopen(): Promise<void> {
    const { books, host, home } = this.workbench;
    const state = books.get();
    if (!state) return;
    await host.close({ session: state.session, discard: false }).catch(() => undefined);
    books.close();
    await home.refresh();
  }

  /** One book opens or closes at a time: two that are asked for at once come one after the other. */
  private inTurn<Result>(task: () => Promise<Result>): Promise<Result> {
    const done = this.last.then(task);
    this.last = done.catch(() => undefined);
    return done;
  }

  private replace(text: string, open: () => Promise<Outcome<OpenedBook>>): Promise<boolean> {
    return this.inTurn(() => this.replaceNow(text, open));
  }

  /** Another book in place of the open one, which stays where the other can't be opened. */
  private async replaceNow(text: string, open: () => Promise<Outcome<OpenedBook>>): Promise<boolean> {
    const { books, host } = this.workbench;
    await books.settled();
    const discard = await this.mayLeave();
    if (discard === null) return false;
    const before = books.get()?.session;
    const opened = await this.busily(text, open);
    if (!opened.ok) {
      this.tools.problem(opened.problem);
      return false;
    }
    if (before !== undefined) await host.close({ session: before, discard });
    books.open(opened.value);
    const { imported, book } = opened.value;
    const title = book.metadata.title || words.untitled;
    this.tools.say(imported ? words.said.imported(imported.name, imported.sections.length) : words.said.opened(title));
    return true;
  }

  private async busily<Result>(text: string, work: () => Promise<Result>): Promise<Result> {
    const done = this.busy(text);
    try {
      return await work();
    } finally {
      done();
    }
  }

  private async afterSave(session: BookSession, reply: Outcome<SaveReply>, path: string | null): Promise<boolean> {
    if (!reply.ok) {
      this.tools.problem(reply.problem);
      return false;
    }
    const saved = reply.value;
    switch (saved.kind) {
      case 'saved':
        this.workbench.books.setKept(session, saved.kept);
        this.tools.say(words.said.saved);
        return true;
      case 'cancelled':
        return false;
      case 'needsPath':
        return this.saveElsewhere(saved.suggested);
      case 'changedOutside':
        return this.conflict(path ?? saved.path, saved.modifiedAt);
    }
  }

  /** How thick each section is, for the small picture beside a recent book. */
  private async noteForeEdge(session: BookSession): Promise<void> {
    const rows = this.workbench.outline.get();
    if (rows.some((row) => row.pages === null)) return;
    await this.workbench.host.noteForeEdge({ session, pages: rows.map((row) => row.pages ?? 0).slice(0, MOST_BANDS) });
  }

  private async saveElsewhere(suggested: string): Promise<boolean> {
    const path = await this.tools.picker.choose('saveBook', suggested);
    // The dialog asked already whether a file of that name may be written over.
    return path === null ? false : this.save(path, true);
  }

  /** Two versions of one file: neither goes without the person's word. */
  private async conflict(path: string, modifiedAt: number): Promise<boolean> {
    const answer = await this.tools.asking.ask<'mine' | 'theirs' | 'other' | 'stay'>({
      title: words.save.outsideTitle,
      text: [words.save.outside(nameOf(path), clock(modifiedAt)), words.save.outsideAsk],
      answers: [
        { id: 'theirs', text: words.save.theirs },
        { id: 'other', text: words.save.other },
        { id: 'mine', text: words.save.mine, look: 'main' },
      ],
      otherwise: 'stay',
    });
    if (answer === 'mine') return this.save(path, true);
    if (answer === 'other') return this.saveElsewhere(path);
    if (answer === 'theirs') await this.takeTheirs(path);
    return false;
  }

  private async takeTheirs(path: string): Promise<void> {
    const { books, host } = this.workbench;
    const state = books.get();
    if (!state) return;
    if (state.kept.dirty && !(await this.givesUp())) return;
    await host.close({ session: state.session, discard: true });
    books.close();
    // Whoever asked may be opening or closing a book already, and waits for this.
    await this.openNow({ path });
  }

  private async givesUp(): Promise<boolean> {
    const answer = await this.tools.asking.ask<'yes' | 'no'>({
      title: words.save.theirsTitle,
      text: [words.save.theirsText],
      answers: [
        { id: 'yes', text: words.save.theirs, look: 'grave' },
        { id: 'no', text: words.save.stay, look: 'main' },
      ],
      otherwise: 'no',
    });
    return answer === 'yes';
  }

  /** Whether changes are given up on closing; null where the person stays. */
  private async mayLeave(): Promise<boolean | null> {
    const state = this.workbench.books.get();
    // A fresh book that nobody touched can be had again as it was.
    const untouched = state?.kept.path === null && state.version === 0;
    if (!state?.kept.dirty || untouched) return untouched;
    const answer = await this.tools.asking.ask<'save' | 'later' | 'drop' | 'stay'>({
      title: words.save.keepTitle(state.book.metadata.title || words.untitled),
      text: [words.save.keepText],
      answers: [
        { id: 'stay', text: words.save.stay },
        { id: 'drop', text: words.save.keepDrop, look: 'grave' },
        { id: 'later', text: words.save.keepLater },
        { id: 'save', text: words.save.keepSave, look: 'main' },
      ],
      otherwise: 'stay',
    });
    if (answer === 'stay') return null;
    if (answer === 'save') return (await this.save()) ? false : null;
    return answer === 'drop';
  }
}
