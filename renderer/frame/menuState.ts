/**
 * Keeps the native menu as the window stands. In: the commands and all that they hang on; out: what can be done and what
 * holds, told to the host when it has changed and come to rest.
 */
import type { MenuState } from '#host';
import type { Workbench } from '../state/index.ts';
import type { Tools } from '../ui/index.ts';

/** Milliseconds without a change after which the menu follows: nobody opens it sooner after a key. */
const REST = 120;

/** Whether a dialog asks something; until it is answered nothing else is done. */
export function dialogIsOpen(page: Pick<Document, 'querySelector'>): boolean {
  return page.querySelector('[role="dialog"], [role="alertdialog"]') !== null;
}

type Followed = Pick<Workbench, 'books' | 'place' | 'outline' | 'settings' | 'press'> & {
  readonly host: Pick<Workbench['host'], 'menuState'>;
  readonly info: Pick<Workbench['info'], 'menu'>;
};

/** What is needed of the window. */
export type MenuPage = Pick<Window, 'setTimeout' | 'clearTimeout'> & {
  readonly document: Pick<Document, 'querySelector' | 'addEventListener'>;
};

/** Tells the host from now on; a host without a native menu is told nothing. */
export function keepMenu(workbench: Followed, { commands }: Pick<Tools, 'commands'>, page: MenuPage): void {
  const { host, info, books, place, outline, settings, press } = workbench;
  if (info.menu !== 'native') return;
  let told = '';
  let timer = 0;
  const tell = (): void => {
    const state = dialogIsOpen(page.document) ? { ...commands.state, disabled: commands.all } : commands.state;
    const text = JSON.stringify(state satisfies MenuState);
    if (text === told) return;
    told = text;
    // A host that is gone is told of by the call that matters.
    host.menuState({ disabled: [...state.disabled], on: [...state.on] }).catch(() => undefined);
  };
  const follow = (): void => {
    page.clearTimeout(timer);
    timer = page.setTimeout(tell, REST);
  };
  for (const store of [books, place, outline, settings, press]) store.subscribe(follow);
  commands.listen(follow);
  // A dialog takes the focus when it opens, and gives it back.
  for (const event of ['selectionchange', 'focusin']) page.document.addEventListener(event, follow);
  follow();
}
