/**
 * The guard at the door: a window closes only when its page says that everything is kept or given up. A page that has
 * died or hangs is let go, since the journal holds its changes.
 */
import type * as Electron from 'electron';

export class Leaving {
  private free = false;
  private hangs = false;

  /** @param ask tells the page that the window wants to close. */
  constructor(
    private readonly window: Electron.BrowserWindow,
    ask: () => void,
  ) {
    window.on('close', (event) => {
      if (this.free || this.hangs) return;
      event.preventDefault();
      ask();
    });
    window.on('unresponsive', () => {
      this.hangs = true;
    });
    window.on('responsive', () => {
      this.hangs = false;
    });
    window.webContents.on('render-process-gone', () => {
      this.free = true;
    });
  }

  /** The page is ready to go. */
  leave(): void {
    this.free = true;
    this.window.close();
  }
}
