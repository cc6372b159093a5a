/** What the frame's own commands do. In: the workbench and its flows; out: deeds, lent while the window is open. */
import type { Settings } from '#host';
import { type DeskName, useStore, useWorkbench, type Workbench } from '../state/index.ts';
import { type Deed, type Deeds, type Tools, texts, useDeeds, useTools } from '../ui/index.ts';
import { useFrame } from './context.ts';
import { DESK_PANEL } from './deskTabs.tsx';
import { zoomed } from './dialogs/settingsDialog.tsx';
import { landIn } from './focusKeeper.ts';
import { nextPanel } from './panels.ts';

export type FrameDialog = 'settings' | 'about' | 'backups' | 'commands';

/** Lends the frame's deeds. `open` shows one of its dialogs. */
export function useFrameDeeds(open: (dialog: FrameDialog) => void): void {
  const workbench = useWorkbench();
  const tools = useTools();
  const { commands } = tools;
  const { flows } = useFrame();
  const { books, place, settings } = workbench;
  const isOpen = useStore(books, (state) => state !== null);
  const zoom = (step: 1 | -1) => ({
    run: () => settings.set({ textZoom: zoomed(settings.get().textZoom, step) }),
    enabled: () => zoomed(settings.get().textZoom, step) !== settings.get().textZoom,
  });
  const shade = (appearance: Settings['appearance']) => ({
    run: () => settings.set({ appearance }),
    on: () => settings.get().appearance === appearance,
  });
  useDeeds(commands, {
    'book.import': () => void flows.chooseManuscript(),
    'book.open': () => void flows.chooseBook(),
    'book.demo': () => void flows.openDemo(),
    'view.settings': () => open('settings'),
    'view.asSystem': shade('system'),
    'view.light': shade('light'),
    'view.dark': shade('dark'),
    'view.larger': zoom(1),
    'view.smaller': zoom(-1),
    'view.panel': () => nextPanel(document),
    'help.commands': () => open('commands'),
    'help.about': () => open('about'),
    ...(isOpen ? bookDeeds(workbench, tools) : {}),
    ...(isOpen
      ? {
          'book.save': () => void flows.save(),
          'book.saveAs': () => void flows.saveAs(),
          'book.close': () => void flows.close(),
          'book.backups': () => open('backups'),
          'book.details': () => place.toggle('details', true),
          'view.findings': () => {
            place.goToDesk('proof');
            place.toggle('findings', true);
          },
          'view.design': { run: () => place.toggle('design'), on: () => place.get().open.has('design') },
          'view.slip': {
            run: () => {
              place.goToDesk('copy');
              place.toggle('slip');
            },
            on: () => place.get().open.has('slip'),
          },
        }
      : {}),
  });
}

function bookDeeds(workbench: Workbench, { problem, say }: Pick<Tools, 'problem' | 'say'>): Deeds {
  const { books, place } = workbench;
  const retrace = (way: 'undo' | 'redo') => () => {
    const outcome = books[way]();
    if (outcome.ok) say(texts.frame.retraced[way]);
    else problem(outcome.problem);
  };
  const desk = (name: DeskName) => ({
    run: () => {
      place.goToDesk(name);
      // In a moment: the other desk has to be drawn first.
      setTimeout(() => landOn(DESK_PANEL));
    },
    on: () => place.get().desk === name,
  });
  return {
    'edit.undo': { run: retrace('undo'), enabled: () => books.get()?.canUndo ?? false },
    'edit.redo': { run: retrace('redo'), enabled: () => books.get()?.canRedo ?? false },
    'view.copy': desk('copy'),
    'view.proof': desk('proof'),
    'view.press': desk('press'),
    'order.previous': step(workbench, -1),
    'order.next': step(workbench, 1),
  };
}

function step({ outline, place }: Workbench, by: number): Deed {
  const next = () => {
    const rows = outline.get();
    return rows[rows.findIndex((row) => row.id === place.get().section) + by];
  };
  return {
    run: () => {
      const row = next();
      if (row) place.goToSection(row.id, 'commands');
    },
    enabled: () => next() !== undefined,
  };
}

function landOn(id: string): void {
  const panel = document.getElementById(id);
  if (panel) landIn(window, panel);
}
