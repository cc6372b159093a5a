/**
 * The pages of the print edition that is looked at. In: the worker's replies; out: a state that is replaced, never changed,
 * and those who listen are told.
 */
import type { EditionId, Finding } from '#base';
import type { Change } from '#book';
import type { Page } from '#page';
import { type DeskReply, GlyphShapes, type WorkerReply, withPages } from '../worker/index.ts';

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
  /** About the book and this edition, as of the last check. */
  readonly findings: readonly Finding<Change>[];
  /** `opening`: fonts are on their way; `working`: a layout is under way; `resting`: all pages are right. */
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
  findings: [],
  stage: 'none',
  progress: 0,
  problem: null,
};

export class LayoutStore {
  /** Outlines of all glyphs on the pages. */
  readonly glyphs = new GlyphShapes();
  private state = NOTHING;
  private readonly listeners = new Set<() => void>();

  readonly get = (): LayoutState => this.state;

  /** Hears of every new state until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** A book is being opened: nothing of the one before is left. */
  begin(): void {
    this.become({ ...NOTHING, stage: 'opening' });
  }

  /** A layout of this edition was asked for. Another edition begins without pages. */
  ask(edition: EditionId): void {
    if (edition !== this.state.edition) this.become({ ...NOTHING, edition, stage: 'working' });
    else if (this.state.stage !== 'working') this.become({ ...this.state, stage: 'working', progress: 0 });
  }

  receive(reply: WorkerReply): void {
    switch (reply.kind) {
      case 'outlines':
        this.glyphs.add(reply);
        break;
      case 'progress':
        this.become({ ...this.state, stage: 'working', progress: reply.done / Math.max(1, reply.of) });
        break;
      case 'section':
      case 'pages':
      case 'book':
        if (reply.edition === this.state.edition) this.become(afterPages(this.state, reply));
        break;
      case 'checked':
        if (reply.edition === this.state.edition) this.become({ ...this.state, findings: reply.findings });
        break;
      case 'failed':
      case 'refused':
        this.become({ ...this.state, stage: 'resting', problem: reply.problem });
        break;
      case 'ready':
      case 'changed':
      case 'ebook':
    }
  }

  private become(state: LayoutState): void {
    this.state = state;
    for (const listener of this.listeners) listener();
  }
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
