/**
 * The editions that are not in proof, checked when nothing else is to be done. In: the session and what it may disturb; out:
 * one reply an edition, for each state of the book once. Whatever comes in goes first: the check stops at its next step.
 */
import type { EditionId, Finding } from '#base';
import { type Change, type Edition, selectEdition } from '#book';
import type { Engine, Session } from '#engine';
import { preflight } from '#preflight';
import type { OtherReply } from './messages.ts';

export interface OtherEditionsRequest {
  readonly engine: Engine;
  readonly session: Session;
  /** The number of changes that the book has seen. */
  readonly version: number;
  /** The edition in proof, which is checked by itself. */
  readonly inProof: EditionId | null;
  /** Gives way, so that messages that wait outside come in; false where one has. */
  readonly turn: () => Promise<boolean>;
  readonly post: (reply: OtherReply) => void;
}

export class OtherEditions {
  /** Whether anybody looks at what is found. */
  wanted = false;
  private readonly checked = new Map<EditionId, number>();

  /** Another book, or other fonts: what was found says nothing any more. */
  forget(): void {
    this.checked.clear();
  }

  async check(request: OtherEditionsRequest): Promise<void> {
    const { session, version, inProof } = request;
    if (!this.wanted) return;
    const { editions } = session.book;
    const due = editions.filter(({ id }) => id !== inProof && this.checked.get(id) !== version);
    const about = due.length > 0 ? preflight({ book: session.book }) : [];
    for (const edition of due) {
      if (!(await checkOne(edition, about, request))) return;
      this.checked.set(edition.id, version);
    }
  }
}

/** False where something came in before it was done. */
async function checkOne(
  edition: Edition,
  about: readonly Finding<Change>[],
  { engine, session, version, turn, post }: OtherEditionsRequest,
): Promise<boolean> {
  const { id, kind } = edition;
  try {
    for (const _ of kind === 'print' ? session.layout(id) : []) if (!(await turn())) return false;
    if (!(await turn())) return false;
    const { book } = session;
    const madeUp = kind === 'print' ? session.madeUp(id) : null;
    // An ebook has no pages: what there is to say of its fonts is asked for.
    const carried = (madeUp?.findings ?? engine.told(book, edition)) as readonly Finding<Change>[];
    const own = preflight({ book, view: selectEdition(book, id), pages: madeUp?.pages ?? [], carried });
    post({
      kind: 'other',
      version,
      edition: id,
      count: madeUp?.count ?? null,
      findings: [...about, ...own],
      problem: null,
    });
  } catch (problem) {
    if (!(problem instanceof Error)) throw problem;
    // What can't be set is no fault of the edition in proof.
    post({ kind: 'other', version, edition: id, count: null, findings: about, problem: problem.message });
  }
  return true;
}
