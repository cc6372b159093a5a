/**
 * The three desks as tabs, by the pattern of the ARIA Authoring Practices: one stop of the Tab key, arrows go from desk to
 * desk. In: the desk that is chosen; out: another. The desk itself is the panel; it stands elsewhere on the page, which is
 * why the library's tabs, which want to hold their panels, are not used.
 */
import { type KeyboardEvent, useRef } from 'react';
import { DESKS, type DeskName, usePlace, useWorkbench } from '../state/index.ts';
import { texts } from '../ui/index.ts';

/** The id of the panel that the tabs control. */
export const DESK_PANEL = 'desk';

/** The id of a desk's tab. */
export function tabOf(desk: DeskName): string {
  return `desk-tab-${desk}`;
}

export function DeskTabs() {
  const desk = usePlace((place) => place.desk);
  const { place } = useWorkbench();
  const list = useRef<HTMLDivElement>(null);
  const go = (event: KeyboardEvent): void => {
    const next = deskFor(event.key, desk);
    if (!next || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    place.goToDesk(next);
    list.current?.querySelector<HTMLElement>(`#${tabOf(next)}`)?.focus();
  };
  return (
    <div ref={list} role="tablist" aria-label={texts.frame.desksLabel} className="desk-tab-list">
      {DESKS.map((each) => (
        <button
          key={each}
          type="button"
          role="tab"
          id={tabOf(each)}
          className="desk-tab"
          aria-selected={each === desk}
          aria-controls={DESK_PANEL}
          tabIndex={each === desk ? 0 : -1}
          onClick={() => place.goToDesk(each)}
          onKeyDown={go}
        >
          {texts.frame.desks[each]}
        </button>
      ))}
    </div>
  );
}

function deskFor(key: string, from: DeskName): DeskName | undefined {
  const at = DESKS.indexOf(from);
  switch (key) {
    case 'ArrowLeft':
      return DESKS[(at + DESKS.length - 1) % DESKS.length];
    case 'ArrowRight':
      return DESKS[(at + 1) % DESKS.length];
    case 'Home':
      return DESKS[0];
    case 'End':
      return DESKS.at(-1);
    default:
      return undefined;
  }
}
