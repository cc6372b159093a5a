/**
 * The worker's side of a workbench. In: requests as messages, and turns to work in; out: replies. It knows no clock and no
 * thread: whoever runs it hands it messages between its steps, so that a change stops work on what it makes stale.
 */
import type { EditionId } from '#base';
import type { Page } from '#page';
import { type DeskReply, type DeskRequest, readRequest, sendable } from './messages.ts';
import type { LayoutStep, Session } from './session.ts';

/** Sends a reply; the buffers are given away with it. */
export type PostReply = (reply: DeskReply, transfer: ArrayBuffer[]) => void;

export class Desk {
  private work: { readonly edition: EditionId; readonly steps: Generator<LayoutStep, void> } | null = null;
  /** The pages last sent of each edition, by place. */
  private readonly sent = new Map<EditionId, Page[]>();

  constructor(
    private readonly session: Session,
    private readonly post: PostReply,
  ) {}

  /** Takes a message. A layout only begins: `step` does the work. */
  take(message: unknown): void {
    const request = readRequest(message);
    if (!request.ok) this.refuse(request.problem);
    else if (request.value.kind === 'change') this.change(request.value);
    else this.layout(request.value);
  }

  /** Does one step of the layout under way; false where there is nothing left to do. */
  step(): boolean {
    const { work } = this;
    const next = work?.steps.next();
    if (!work || !next || next.done) {
      this.work = null;
      return false;
    }
    this.report(work.edition, next.value);
    return true;
  }

  private change({ change }: Extract<DeskRequest, { kind: 'change' }>): void {
    const applied = this.session.apply(change);
    if (applied.ok) this.post({ kind: 'changed', version: this.session.version, inverse: applied.value }, []);
    else this.refuse(applied.problem);
  }

  private layout({ edition, inView }: Extract<DeskRequest, { kind: 'layout' }>): void {
    const printed = this.session.book.editions.some((each) => each.id === edition && each.kind === 'print');
    if (printed) this.work = { edition, steps: this.session.layout(edition, inView) };
    else this.refuse(`The book has no print edition "${edition}".`);
  }

  private refuse(problem: string): void {
    this.post({ kind: 'refused', version: this.session.version, problem }, []);
  }

  private report(edition: EditionId, step: LayoutStep): void {
    if (step.kind === 'progress') this.post(step, []);
    else if (step.kind === 'book') this.reportBook(edition, step);
    else if (step.kind !== 'spare') this.reportPages(edition, step);
  }

  private reportPages(edition: EditionId, step: Extract<LayoutStep, { kind: 'section' | 'pages' }>): void {
    const { pages: changed, transfer } = sendable(this.unsent(edition, step.pages));
    const { version } = step;
    if (step.kind === 'section') {
      this.post({ kind: 'section', version, edition, section: step.section, changed }, transfer);
    } else if (changed.length > 0) this.post({ kind: 'pages', version, edition, changed }, transfer);
  }

  private reportBook(edition: EditionId, { version, print }: Extract<LayoutStep, { kind: 'book' }>): void {
    const { findings, pageStarts, outline, count } = print.madeUp;
    this.sent.get(edition)?.splice(count);
    this.post({ kind: 'book', version, edition, count, findings, pageStarts, outline }, []);
  }

  /** The pages that the other side does not have yet. */
  private unsent(edition: EditionId, pages: readonly Page[]): readonly Page[] {
    const sent = this.sent.get(edition) ?? [];
    this.sent.set(edition, sent);
    const fresh = pages.filter((page) => sent[page.index] !== page);
    for (const page of fresh) sent[page.index] = page;
    return fresh;
  }
}
