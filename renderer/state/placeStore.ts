/**
 * Where the author is: the desk, the section in view, the editions in proof, the place of the cursor. In: who goes where;
 * out: one place that editor, proofs, running order and fore-edge all follow.
 */
import type { Anchor, EditionId, SectionId } from '#base';
import { Store } from './store.ts';

export type DeskName = 'copy' | 'proof' | 'press';
export const DESKS: readonly DeskName[] = ['copy', 'proof', 'press'];

export interface PlaceState {
  readonly desk: DeskName;
  /** The print edition whose pages are shown; null where the book has none. */
  readonly printEdition: EditionId | null;
  readonly ebookEdition: EditionId | null;
  readonly section: SectionId | null;
  /** Where the cursor stands, or what was asked to be shown. */
  readonly anchor: Anchor | null;
  /** Who set the anchor, so that nobody follows itself. */
  readonly by: string;
  /** Grows when a place is asked to be shown, even the same one again. */
  readonly asked: number;
  /** Drawers and folds that are open, by name. */
  readonly open: ReadonlySet<string>;
}

/** Those who walk through a list: the text shows what they come to, and leaves them the focus. */
const WALKERS: ReadonlySet<string> = new Set(['find', 'order', 'foreEdge']);

/** Whether the text takes the focus when it is asked to show a place. */
export function takesFocus({ by }: Pick<PlaceState, 'by'>): boolean {
  return !WALKERS.has(by);
}

const NOWHERE: PlaceState = {
  desk: 'copy',
  printEdition: null,
  ebookEdition: null,
  section: null,
  anchor: null,
  by: '',
  asked: 0,
  open: new Set(),
};

export class PlaceStore extends Store<PlaceState> {
  constructor() {
    super(NOWHERE);
  }

  /** A book was opened: its first print edition and ebook are in proof, its first body section in view. */
  begin(first: Pick<PlaceState, 'printEdition' | 'ebookEdition' | 'section'>): void {
    this.become({ ...NOWHERE, ...first, asked: this.get().asked + 1 });
  }

  goToDesk(desk: DeskName): void {
    this.set({ desk });
  }

  /** Shows a section from its beginning. */
  goToSection(section: SectionId, by: string): void {
    this.set({ section, anchor: { block: String(section), offset: 0 }, by, asked: this.get().asked + 1 });
  }

  /** Shows a place of the text on every desk. */
  goTo(section: SectionId, anchor: Anchor, by: string): void {
    this.set({ section, anchor, by, asked: this.get().asked + 1 });
  }

  /** The cursor moved: whoever follows it may, nobody has to. */
  follow(section: SectionId, anchor: Anchor, by: string): void {
    const { section: was, anchor: before } = this.get();
    if (was === section && before?.block === anchor.block && before.offset === anchor.offset) return;
    this.set({ section, anchor, by });
  }

  /** The section that was in view is gone. */
  leaveSection(section: SectionId | null): void {
    this.set({ section, anchor: null, by: 'order' });
  }

  showEdition(kind: 'print' | 'ebook', edition: EditionId | null): void {
    this.set(kind === 'print' ? { printEdition: edition } : { ebookEdition: edition });
  }

  /** Opens or folds a drawer or panel. */
  toggle(name: string, open: boolean = !this.get().open.has(name)): void {
    const next = new Set(this.get().open);
    if (open) next.add(name);
    else next.delete(name);
    this.set({ open: next });
  }

  private set(some: Partial<PlaceState>): void {
    this.become({ ...this.get(), ...some });
  }
}
