/**
 * The rows as long lists show them. In: the rows of the moment, and word of every change of the book; out: rows that stay the
 * very same while a writer types. A list of hundreds of rows is not drawn anew because a page number moved: it is when the
 * keys rest.
 */
import { type SectionRow, sameRow } from './outline.ts';
import { Store } from './store.ts';

/** Milliseconds without a change of the book after which figures that moved are shown. */
const REST = 500;

/** Page figures and findings follow the text; everything else about a section is what its author gave it. */
const FIGURES = {
  words: 0,
  pages: 0,
  folio: '',
  firstPage: 0,
  errors: 0,
  warnings: 0,
  notes: 0,
  changed: false,
} as const;

export class SteadyRows extends Store<readonly SectionRow[]> {
  private latest: readonly SectionRow[] = [];
  private busy = false;
  private stirredAgain = false;

  /** @param after calls back after some milliseconds. */
  constructor(private readonly after: (milliseconds: number, call: () => void) => void) {
    super([]);
  }

  /** The book was changed. */
  stir(): void {
    this.stirredAgain = this.busy;
    if (this.busy) return;
    this.busy = true;
    this.waitForRest();
  }

  /** Rows as they are now; their counts of words are of no interest. */
  follow(rows: readonly SectionRow[]): void {
    this.latest = rows;
    if (!this.busy || !saySame(rows, this.get(), FIGURES)) this.catchUp();
  }

  private waitForRest(): void {
    this.after(REST, () => {
      this.busy = this.stirredAgain;
      this.stirredAgain = false;
      if (this.busy) this.waitForRest();
      else this.catchUp();
    });
  }

  private catchUp(): void {
    if (!saySame(this.latest, this.get(), { words: 0 })) this.become(this.latest);
  }
}

/** Whether two lists say the same, whatever they say about some things. */
function saySame(some: readonly SectionRow[], others: readonly SectionRow[], apartFrom: Partial<SectionRow>): boolean {
  if (some === others) return true;
  return (
    some.length === others.length &&
    some.every((row, at) => row === others[at] || sameRow({ ...row, ...apartFrom }, { ...others[at]!, ...apartFrom }))
  );
}
