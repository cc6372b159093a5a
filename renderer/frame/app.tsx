/**
 * The window. In: the host; out: the first page, or the desks around an open book, with keys, dialogs and news. Each part
 * looks into the stores itself; this one only puts them in their places.
 */
import { lazy, Suspense, useEffect, useState } from 'react';
import { type CommandId, type HostEvent, isCommandId } from '#host';
import { useStore, useWorkbench, type Workbench, WorkbenchProvider } from '../state/index.ts';
import {
  Announcements,
  PathDialog,
  Questions,
  Toasts,
  type Tools,
  ToolsProvider,
  texts,
  useTools,
} from '../ui/index.ts';
import { CommandList } from './commandList.tsx';
import { type Frame, FrameProvider, useFrame } from './context.ts';
import { type FrameDialog, useFrameDeeds } from './deeds.ts';
import { Desks } from './desks.tsx';
import { AboutDialog } from './dialogs/aboutDialog.tsx';
import { BackupsDialog } from './dialogs/backupsDialog.tsx';
import { SettingsDialog } from './dialogs/settingsDialog.tsx';
import { StoppedDialog } from './dialogs/stoppedDialog.tsx';
import { FileDrops } from './drops.tsx';
import { StatusFoot } from './foot.tsx';
import { ForeEdge } from './foreEdge/foreEdge.tsx';
import { Home } from './home/home.tsx';
import { dialogIsOpen } from './menuState.ts';
import { TitleBar } from './titleBar.tsx';
import './frame.css';

const Correction = lazy(async () => ({ default: (await import('../importReview/index.ts')).Correction }));
const Drawers = lazy(async () => ({ default: (await import('../press/index.ts')).Drawers }));

export interface AppProps {
  readonly workbench: Workbench;
  readonly tools: Tools;
  readonly frame: Frame;
}

export function App({ workbench, tools, frame }: AppProps) {
  return (
    <WorkbenchProvider value={workbench}>
      <ToolsProvider value={tools}>
        <FrameProvider value={frame}>
          <Window />
        </FrameProvider>
      </ToolsProvider>
    </WorkbenchProvider>
  );
}

function Window() {
  const { books } = useWorkbench();
  const isOpen = useStore(books, (state) => state !== null);
  const [dialog, setDialog] = useState<FrameDialog | null>(null);
  const { asking, news, announcer } = useTools();
  const close = (): void => setDialog(null);
  useFrameDeeds(setDialog);
  useKeys();
  useHostEvents();
  return (
    <>
      {isOpen ? <Workplace /> : <Home />}
      {dialog === 'settings' && <SettingsDialog onClose={close} />}
      {dialog === 'about' && <AboutDialog onClose={close} />}
      {dialog === 'backups' && isOpen && <BackupsDialog onClose={close} />}
      {dialog === 'commands' && <CommandList onClose={close} />}
      <PathDialog />
      <Questions asking={asking} />
      <FileDrops />
      <Busy />
      <Toasts queue={news} />
      <Announcements announcer={announcer} />
    </>
  );
}

function Workplace() {
  return (
    <div className="frame">
      <TitleBar />
      <ForeEdge />
      <Desks />
      <StatusFoot />
      <StoppedDialog />
      <Suspense>
        <Drawers />
        <Correction />
      </Suspense>
    </div>
  );
}

/** The keys of all commands. What a part of the page has taken already is left to it. */
function useKeys(): void {
  const { commands } = useTools();
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.isComposing || isBehindDialog(event)) return;
      const command = commands.forKeys(event);
      if (command === null) return;
      event.preventDefault();
      commands.run(command);
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [commands]);
}

/** While a dialog asks something, the keys are its own. */
function isBehindDialog(event: KeyboardEvent): boolean {
  return event.target instanceof Element && event.target.closest('[role="dialog"], [role="alertdialog"]') !== null;
}

function useHostEvents(): void {
  const { host, books } = useWorkbench();
  const { commands } = useTools();
  const { flows } = useFrame();
  useEffect(() => {
    const hear = (event: HostEvent): void => {
      if (event.kind === 'command' && isCommandId(event.command)) {
        if (!dialogIsOpen(document)) commands.run(event.command satisfies CommandId);
      } else if (event.kind === 'openFile') void flows.openFile({ path: event.path });
      else if (event.kind === 'closeRequested') void flows.leave();
      else if (event.kind === 'changedOutside' && event.session === books.get()?.session) {
        void flows.changedOutside(event.path, event.modifiedAt);
      }
    };
    return host.listen(hear);
  }, [host, books, commands, flows]);
}

function Busy() {
  const { busy } = useFrame();
  const text = useStore(busy, (state) => state);
  const shown = useLasting(text);
  return (
    <div role="status">
      {shown !== null && (
        <div className="busy-note">
          {shown}
          <div className="progress" aria-hidden="true">
            <div />
          </div>
        </div>
      )}
    </div>
  );
}

/** Milliseconds that something may take before it is shown. */
const PATIENCE = 400;

function useLasting(text: string | null): string | null {
  const [shown, setShown] = useState<string | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setShown(text), text === null ? 0 : PATIENCE);
    return () => clearTimeout(timer);
  }, [text]);
  return text === null ? null : shown;
}

/** The name of the window, for lists of windows. */
export function windowTitle(title: string | undefined): string {
  return title === undefined ? texts.frame.product : `${title || texts.frame.untitled} · ${texts.frame.product}`;
}
