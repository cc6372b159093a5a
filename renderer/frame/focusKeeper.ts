/**
 * Keeps the keyboard's place. In: the page; out: focus in the nearest thing around what had it, where that was taken away: a
 * section that was dropped, a dialog's opener that is gone, a desk that was left (WCAG 2.2, 2.4.3 "Focus Order"; ARIA
 * Authoring Practices, "Managing Focus Inside Components").
 */

/** Milliseconds in which whoever took the element away may give the focus to another itself. */
const PATIENCE = 80;

/** How often a panel is looked at for what it is to show: for some seconds. */
const TRIES = 40;

/** What parts the page. */
const PARTS = '[role="tabpanel"], main';

/** What can hold the focus of something that was lost in it. */
const LANDINGS = `[tabindex], ${PARTS}`;

/** Where one works in a part: what says so of itself, or the text. */
const WORK = '[data-landing], [role="textbox"][contenteditable="true"]';

/** From now on, no focus is lost with what it was on. */
export function keepFocus(page: Window): void {
  const { document } = page;
  let around: readonly Element[] = [];
  document.addEventListener('focusin', ({ target }) => {
    around = target instanceof Element ? ancestorsOf(target) : [];
  });
  document.addEventListener('focusout', ({ target, relatedTarget }) => {
    if (relatedTarget !== null) return;
    const lost = around;
    const landIfLost = (): void => {
      const gone = target instanceof Element && !target.isConnected;
      if (gone && hasNoFocus(document)) land(page, lost);
    };
    // A dialog gives the focus back with the next frame, which on a busy machine is late.
    page.setTimeout(() => page.requestAnimationFrame(landIfLost), PATIENCE);
  });
}

/** Goes to the place in a panel where one works, once that is there; to the panel itself where it has none. */
export function landIn(page: Window, panel: Element, tries = TRIES): void {
  const { document } = page;
  const target = panel.querySelector(WORK);
  // The panel itself holds the focus while what is in it is still on its way; whoever went elsewhere stays there.
  const stayed = tries === TRIES || document.activeElement === panel || hasNoFocus(document);
  if (!stayed) return;
  if (target) focusOn(target);
  else {
    focusOn(panel);
    if (tries > 0) page.setTimeout(() => landIn(page, panel, tries - 1), PATIENCE);
  }
}

function ancestorsOf(element: Element): readonly Element[] {
  const found: Element[] = [];
  for (let at = element.parentElement; at; at = at.parentElement) if (at.matches(LANDINGS)) found.push(at);
  return found;
}

function hasNoFocus({ activeElement, body }: Document): boolean {
  return activeElement === null || activeElement === body;
}

function land(page: Window, around: readonly Element[]): void {
  const { document } = page;
  const near = around.find((each) => each.isConnected);
  const panel = document.querySelector('[role="tabpanel"]') ?? document.querySelector('main');
  if (near && !near.matches(PARTS)) focusOn(near);
  else if (near ?? panel) landIn(page, (near ?? panel) as Element);
}

function focusOn(target: Element): void {
  if (!(target instanceof HTMLElement)) return;
  if (!target.hasAttribute('tabindex') && !target.isContentEditable) target.tabIndex = -1;
  target.focus({ preventScroll: true });
}
