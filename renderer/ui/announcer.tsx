/**
 * What is said to screen readers that has no place on the screen of its own: a section moved, a page turned. In: a sentence;
 * out: a live region that speaks it when nothing else is spoken (WCAG 2.2, 4.1.3 "Status Messages").
 */
import { Store, useStore } from '../state/index.ts';

interface Said {
  readonly text: string;
  /** Counts up: the same sentence said twice is two events. */
  readonly count: number;
}

export class Announcer extends Store<Said> {
  constructor() {
    super({ text: '', count: 0 });
  }

  readonly say = (text: string): void => {
    this.become({ text, count: this.get().count + 1 });
  };
}

/** Stands outside of all panels; the library leaves what has this mark in the tree while a dialog is open. */
export function Announcements({ announcer }: { readonly announcer: Announcer }) {
  const { text, count } = useStore(announcer, (said) => said);
  return (
    <div role="status" aria-live="polite" className="unseen" data-live-announcer="true">
      {/* A new element is new to the region, even with the words of the last one. */}
      <p key={count}>{text}</p>
    </div>
  );
}
