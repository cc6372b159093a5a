/**
 * The bridge into the window's page: two functions and nothing of Electron itself (security checklist, item 20). Runs in
 * the sandbox, before the page.
 */
import { contextBridge, ipcRenderer } from 'electron';
import { BRIDGE, CALL_CHANNEL, EVENT_CHANNEL } from './channels.ts';

contextBridge.exposeInMainWorld(BRIDGE, {
  call: (name: unknown, request: unknown): Promise<unknown> => ipcRenderer.invoke(CALL_CHANNEL, name, request),
  listen: (listener: (event: unknown) => void): (() => void) => {
    const hear = (_event: unknown, message: unknown): void => listener(message);
    ipcRenderer.on(EVENT_CHANNEL, hear);
    return () => {
      ipcRenderer.off(EVENT_CHANNEL, hear);
    };
  },
});
