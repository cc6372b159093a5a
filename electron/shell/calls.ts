/**
 * The calls of the window, as they come in over Electron's channel. In: messages from a frame; out: replies of the host.
 * Only the main frame of the program's own page is answered (security checklist, item 17).
 */
import type * as Electron from 'electron';
import { isOurs } from './address.ts';
import { CALL_CHANNEL } from './channels.ts';

/** Answers one call; what it is asked for is checked there. */
export type Answer = (name: unknown, request: unknown) => Promise<unknown>;

/** Whether a message comes from the program's own page and not from a frame within it or from a page that replaced it. */
export function isTrusted(frame: Pick<Electron.WebFrameMain, 'url' | 'parent'> | null): boolean {
  return frame !== null && frame.parent === null && isOurs(frame.url);
}

export function answerCalls(ipc: Electron.IpcMain, answer: Answer): void {
  ipc.handle(CALL_CHANNEL, async (event, name: unknown, request: unknown) => {
    if (!isTrusted(event.senderFrame)) throw new Error('Refused: the call does not come from the window.');
    return answer(name, request);
  });
}
