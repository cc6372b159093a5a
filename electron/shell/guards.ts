/**
 * What a page in the window may not do, whatever a manuscript brings in: go elsewhere, open windows, hold other pages, ask
 * for devices or fetch files. In: a web contents or a session of Electron; out: the same, guarded.
 */
import type * as Electron from 'electron';
import { isOurs } from './address.ts';

/** Denies navigation, new windows and embedded pages. Sandboxed frames without scripts, as the ebook proof uses, stay. */
export function guardContents(contents: Electron.WebContents): void {
  contents.on('will-navigate', (event) => event.preventDefault());
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-frame-navigate', (event) => {
    if (event.isMainFrame || !isProofFrame(event.url)) event.preventDefault();
  });
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

/** The ebook proof shows documents that the window itself made. */
function isProofFrame(address: string): boolean {
  return address === 'about:srcdoc' || address.startsWith('blob:') || isOurs(address);
}

/** Denies every permission, device and download, and every address but the window's own. */
export function guardSession(session: Electron.Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.setDisplayMediaRequestHandler((_request, answer) => answer({}));
  session.on('will-download', (event) => event.preventDefault());
  session.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !mayLoad(details.url) }));
}

/** What the window may load: its own files, what it made itself, and Chromium's own tools for whoever develops it. */
function mayLoad(address: string): boolean {
  return isOurs(address) || address.startsWith('blob:') || address.startsWith('devtools:');
}
