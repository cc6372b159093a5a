/**
 * What a workbench and its layout worker say to each other. In: messages that may be anything; out: requests, or one
 * sentence. The first thing a worker is told is the book; from there on it is sent changes, never books.
 */
import { type EditionId, type Finding, failure, type Outcome, type SectionId, success } from '#base';
import type { Change } from '#book';
import type { OutlineEntry, PageBeginning } from '#makeup';
import type { Page } from '#page';

export type DeskRequest =
  /** The next change of the book. Whatever was being laid out is stale from now on. */
  | { readonly kind: 'change'; readonly change: Change }
  /** Asks for the pages of an edition, those of the section in view first; takes the place of what was asked before. */
  | { readonly kind: 'layout'; readonly edition: EditionId; readonly inView: SectionId | null };

/** Every reply names the version that it is about: the number of changes made since the book was opened. */
export type DeskReply =
  | { readonly kind: 'changed'; readonly version: number; readonly inverse: Change }
  /** A message that can't be understood, or a change that can't be made: nothing happened. */
  | { readonly kind: 'refused'; readonly version: number; readonly problem: string }
  | { readonly kind: 'progress'; readonly version: number; readonly done: number; readonly of: number }
  /** Pages of the section in view that differ from those last sent for their places. */
  | {
      readonly kind: 'section';
      readonly version: number;
      readonly edition: EditionId;
      readonly section: SectionId;
      readonly changed: readonly Page[];
    }
  /** The whole edition is made up, with so many pages. Those that changed follow in replies of the next kind. */
  | {
      readonly kind: 'book';
      readonly version: number;
      readonly edition: EditionId;
      readonly count: number;
      readonly findings: readonly Finding[];
      readonly pageStarts: readonly PageBeginning[];
      readonly outline: readonly OutlineEntry[];
    }
  /** Pages that differ from those last sent for their places, the section in view first. */
  | {
      readonly kind: 'pages';
      readonly version: number;
      readonly edition: EditionId;
      readonly changed: readonly Page[];
    };

const CHANGES: ReadonlySet<unknown> = new Set<Change['kind']>([
  'editText',
  'addSection',
  'dropSection',
  'moveSection',
  'setSection',
  'splitSection',
  'joinSections',
  'setMetadata',
  'putEdition',
  'dropEdition',
  'putDesign',
  'dropDesign',
  'putAsset',
  'dropAsset',
  'putMuted',
  'dropMuted',
  'putRemark',
  'dropRemark',
  'group',
]);

/** A request from outside. What a change says in detail is checked where it is applied. */
export function readRequest(message: unknown): Outcome<DeskRequest> {
  if (!isRecord(message)) return failure('A request must be an object.');
  switch (message['kind']) {
    case 'change': {
      const { change } = message;
      if (!isRecord(change) || !CHANGES.has(change['kind'])) return failure('A change of an unknown kind.');
      return success({ kind: 'change', change: change as unknown as Change });
    }
    case 'layout': {
      const { edition, inView } = message;
      if (typeof edition !== 'string') return failure('A layout needs the id of an edition.');
      if (inView !== null && typeof inView !== 'string') return failure('The section in view must be an id or null.');
      return success({ kind: 'layout', edition, inView });
    }
    default:
      return failure('A request of an unknown kind.');
  }
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Pages as they may leave the thread: their numbers copied, so that the originals stay where they are. */
export function sendable(pages: readonly Page[]): {
  readonly pages: readonly Page[];
  readonly transfer: ArrayBuffer[];
} {
  const transfer: ArrayBuffer[] = [];
  const own = <Numbers extends Uint16Array | Float32Array>(numbers: Numbers): Numbers => {
    const copy = numbers.slice() as Numbers;
    transfer.push(copy.buffer as ArrayBuffer);
    return copy;
  };
  const copies = pages.map((page) => ({
    ...page,
    glyphs: own(page.glyphs),
    advances: own(page.advances),
    offsets: page.offsets && own(page.offsets),
    clusters: own(page.clusters),
  }));
  return { pages: copies, transfer };
}

/**
 * The pages of an edition as whoever receives the replies has them: the changed ones in their places. Between a `book` reply
 * and the last of its pages there may be places without one.
 */
export function withPages(
  pages: readonly Page[],
  reply: Extract<DeskReply, { kind: 'section' | 'book' | 'pages' }>,
): Page[] {
  if (reply.kind === 'book') return pages.slice(0, reply.count);
  const next = pages.slice();
  for (const page of reply.changed) next[page.index] = page;
  return next;
}
