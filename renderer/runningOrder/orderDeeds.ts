/** What is done to the running order. In: the workbench, the chosen sections; out: changes, with a way back in the news. */
import type { SectionId } from '#base';
import type { Change, SectionKind } from '#book';
import { nameOfRow, type Workbench } from '../state/index.ts';
import { type Tools, texts } from '../ui/index.ts';
import { moveBefore, moveBy, withChapters } from './moves.ts';
import { type Added, addSection, duplicate, splitAt } from './sections.ts';

export class OrderDeeds {
  constructor(
    private readonly workbench: Workbench,
    private readonly tools: Tools,
  ) {}

  canMove(chosen: ReadonlySet<SectionId>, step: 1 | -1): boolean {
    return moveBy(this.rows, chosen, step) !== null;
  }

  move(chosen: ReadonlySet<SectionId>, step: 1 | -1): void {
    if (this.make(moveBy(this.rows, chosen, step))) this.sayMoved(chosen);
  }

  /** Lands sections before another, or at the end. */
  land(chosen: ReadonlySet<SectionId>, before: SectionId | null): void {
    if (this.make(moveBefore(this.rows, withChapters(this.rows, chosen), before))) this.sayMoved(chosen);
  }

  add(kind: SectionKind, after: SectionId | null): void {
    this.put(addSection(this.book, this.rows, kind, after));
  }

  duplicate(section: SectionId): void {
    this.put(duplicate(this.book, section));
  }

  canSplit(section: SectionId): boolean {
    const { anchor, section: inView } = this.workbench.place.get();
    return inView === section && anchor !== null && splitAt(this.book, section, anchor.block) !== null;
  }

  split(section: SectionId): void {
    const { anchor } = this.workbench.place.get();
    if (anchor) this.put(splitAt(this.book, section, anchor.block));
  }

  canJoin(section: SectionId): boolean {
    return this.rows.at(-1)?.id !== section;
  }

  join(section: SectionId): void {
    if (this.make({ kind: 'joinSections', section })) this.tools.say(texts.order.said.joined(this.nameOf(section)));
  }

  drop(chosen: ReadonlySet<SectionId>): void {
    const rows = this.rows;
    const changes = rows
      .filter((row) => chosen.has(row.id))
      .map((row): Change => ({ kind: 'dropSection', section: row.id }));
    if (changes.length === 0) return;
    const first = rows.findIndex((row) => chosen.has(row.id));
    const rest = rows.filter((row) => !chosen.has(row.id));
    if (!this.make({ kind: 'group', changes })) return;
    const next = rest[Math.min(first, rest.length - 1)];
    if (next) this.workbench.place.goToSection(next.id, 'order');
    this.tools.tell({
      kind: 'done',
      text: texts.order.dropped(changes.length),
      action: { text: texts.common.undo, run: () => this.workbench.books.undo() },
    });
  }

  make(change: Change | null): boolean {
    if (change === null) return false;
    const outcome = this.workbench.books.apply(change, { origin: 'order' });
    if (!outcome.ok) this.tools.problem(outcome.problem);
    return outcome.ok;
  }

  private put(added: Added | null): void {
    if (!added || !this.make(added.change)) return;
    this.workbench.place.goToSection(added.section, 'order');
    const { place, of } = this.placeOf(added.section);
    this.tools.say(texts.order.said.added(this.nameOf(added.section), place, of));
  }

  /** Where something went, for those who do not see it. */
  private sayMoved(chosen: ReadonlySet<SectionId>): void {
    const [only] = chosen;
    if (only === undefined) return;
    const { place, of } = this.placeOf(only);
    const { said } = texts.order;
    this.tools.say(
      chosen.size === 1 ? said.moved(this.nameOf(only), place, of) : said.movedMany(chosen.size, place, of),
    );
  }

  /** Its place in the running order, counted from one. */
  private placeOf(section: SectionId): { readonly place: number; readonly of: number } {
    return { place: this.rows.findIndex((row) => row.id === section) + 1, of: this.rows.length };
  }

  private nameOf(section: SectionId): string {
    const row = this.rows.find((each) => each.id === section);
    return row ? nameOfRow(row) : '';
  }

  private get rows() {
    return this.workbench.outline.get();
  }

  private get book() {
    return this.workbench.books.current.book;
  }
}
