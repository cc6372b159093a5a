/** F6: from panel to panel. In: the page; out: the focus in the next region that can take it. */

const PANELS = '.title-bar, .fore-edge, .panel, .desk:not(:has(.panel)), .foot';
const FOCUSABLE =
  'button:not([disabled]), [href], input:not([disabled]), textarea, select, [contenteditable="true"], [tabindex]:not([tabindex="-1"])';

export function nextPanel(page: Document): void {
  const panels = [...page.querySelectorAll<HTMLElement>(PANELS)];
  const at = panels.findIndex((panel) => panel.contains(page.activeElement));
  for (let step = 1; step <= panels.length; step++) {
    const panel = panels[(at + step) % panels.length];
    const first = panel && firstIn(panel);
    if (first) {
      first.focus();
      return;
    }
  }
}

/** The editor or the list of a panel goes before its buttons: one comes to work there. */
function firstIn(panel: HTMLElement): HTMLElement | null {
  const work = panel.querySelector<HTMLElement>(
    '[contenteditable="true"], [role="grid"], [role="listbox"], [role="tab"][tabindex="0"]',
  );
  return work ?? panel.querySelector<HTMLElement>(FOCUSABLE);
}
