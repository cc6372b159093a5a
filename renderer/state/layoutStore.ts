/**
 * The pages of the print edition that is looked at. In: the worker's replies; out: a state that is replaced, never changed,
 * and those who listen are told.
 */
import type { EditionId, Finding } from '#base';
import { type Book, type Change, judged, type Muted } from '#book';
import type { PageFrame } from '#design';
import type { Page } from '#page';
import { type DeskReply, GlyphShapes, type WorkerReply, withPages } from '../worker/index.ts';
import { Store } from './store.ts';

type BookReply = Extract<DeskReply, { readonly kind: 'book' }>;

export interface LayoutState {
  readonly edition: EditionId | null;
  /** The number of changes that the pages know of. */
  readonly version: number;
  /** By place. A place is empty until its page is set for the first time. */
  readonly pages: readonly (Page | undefined)[];
  /** Pages of the book as last made up; those being set now may be fewer. */
  readonly count: number;
  readonly pageStarts: BookReply['pageStarts'];
  readonly outline: BookReply['outline'];
  /** Margins and grid of the pages; null until the book was made up for the first time. */
  readonly frame: PageFrame | null;
  /** About the book and this edition, as of the last check, without those that are muted. */
  readonly findings: readonly Finding<Change>[];
  readonly muted: readonly Muted<Finding<Change>>[];
  /** Whether the edition was checked at least once. */
  readonly checked: boolean;
  /** `opening`: fonts are on their way; `working`: a layout takes its time; `resting`: none does. */
  readonly stage: 'none' | 'opening' | 'working' | 'resting';
  /** 0 to 1 while working. */
  readonly progress: number;
  /** Why the book can't be laid out as it is, or null. */
  readonly problem: string | null;
}

const NOTHING: LayoutState = {
  edition: null,
  version: 0,
  pages: [],
  count: 0,
  pageStarts: [],
  outline: [],
  frame: null,
  findings: [],
  muted: [],
  checked: false,
  stage: 'none',
  progress: 0,
  problem: null,
};

export class LayoutStore extends Store<LayoutState> {
  /** Outlines of all glyphs on the pages. */
  readonly glyphs = new GlyphShapes();

  /** All that the last check found, muted or not. */
  private found: readonly Finding<Change>[] = [];
  private decided: Book['muted'] | null = null;
  /** Editions that were looked at before: the worker sends no page twice. */
  private readonly others = new Map<EditionId, LayoutState>();

  /** @param book the book of the moment, which says what is muted. */
  constructor(private readonly book: () => Book | null = () => null) {
    super(NOTHING);
  }

  /** Parts the findings anew where another is muted or heard again than before. */
  judge(): void {
    const book = this.book();
    if (book && book.muted !== this.decided) this.become({ ...this.get(), ...this.parted(this.found) });
  }

  /** A book is being opened: nothing of the one before is left. */
  begin(): void {
    this.found = [];
    this.others.clear();
    this.become({ ...NOTHING, stage: 'opening' });
  }

  /**
   * A layout of this edition was asked for. One that was not looked at before begins without pages, another with those that
   * it had; for the same one the worker says when the layout takes its time: what follows a key does not.
   */
  ask(edition: EditionId): void {
    const before = this.get();
    if (edition === before.edition) return;
    if (before.edition !== null) this.others.set(before.edition, before);
    const known = this.others.get(edition) ?? NOTHING;
    this.others.delete(edition);
    this.found = [];
    this.become({ ...known, edition, findings: [], muted: [], checked: false, stage: 'working', progress: 0 });
  }

  receive(reply: WorkerReply): void {
    switch (reply.kind) {
      case 'outlines':
        this.glyphs.add(reply);
        break;
      case 'progress':
        this.become({ ...this.get(), stage: 'working', progress: reply.done / Math.max(1, reply.of) });
        break;
      case 'section':
      case 'pages':
      case 'book':
        this.take(reply.edition, (state) => afterPages(state, reply));
        break;
      case 'frame':
        // A key moves no margin: the same frame stays the same object, and nothing is painted for it.
        this.take(reply.edition, (state) =>
          sameFrame(reply.frame, state.frame) ? state : { ...state, frame: reply.frame },
        );
        break;
      case 'checked':
        if (reply.edition === this.get().edition)
          this.become({ ...this.get(), ...this.parted(reply.findings), checked: true });
        break;
      case 'failed':
      case 'refused':
        this.become({ ...this.get(), stage: 'resting', problem: reply.problem });
        break;
      case 'ready':
      case 'other':
      case 'changed':
      case 'ebook':
      case 'specimen':
      case 'marks':
    }
  }

  /** Takes in what is told of an edition, be it in view or not. */
  private take(edition: EditionId, next: (state: LayoutState) => LayoutState): void {
    const other = this.others.get(edition);
    if (edition === this.get().edition) this.become(next(this.get()));
    else if (other) this.others.set(edition, next(other));
  }

  private parted(found: readonly Finding<Change>[]): Pick<LayoutState, 'findings' | 'muted'> {
    const book = this.book();
    this.found = found;
    this.decided = book?.muted ?? null;
    const { open, muted } = book ? judged(book, found) : { open: found, muted: [] };
    return { findings: open, muted };
  }
}

/** Frames are made in one place, with their parts in one order. */
function sameFrame(one: PageFrame, other: PageFrame | null): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function afterPages(
  state: LayoutState,
  reply: Extract<DeskReply, { readonly kind: 'section' | 'pages' | 'book' }>,
): LayoutState {
  const pages = withPages(state.pages as readonly Page[], reply);
  const { version } = reply;
  if (reply.kind !== 'book') return { ...state, version, pages, stage: stageOf(pages, state.count) };
  const { count, pageStarts, outline } = reply;
  return { ...state, version, pages, count, pageStarts, outline, problem: null, stage: stageOf(pages, count) };
}

/** Pages that are right already are not sent again, so the last that comes shows only by there being no gap. */
function stageOf(pages: readonly (Page | undefined)[], count: number): LayoutState['stage'] {
  for (let at = 0; at < count; at++) if (!pages[at]) return 'working';
  return 'resting';
}
