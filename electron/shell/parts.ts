/**
 * What the shell needs of Electron, as it is handed in: everything else in this folder is plain code over these, so that
 * all of it runs under test without Electron's runtime.
 */
import type * as Electron from 'electron';

export interface ElectronParts {
  readonly app: Electron.App;
  readonly BrowserWindow: new (options: Electron.BrowserWindowConstructorOptions) => Electron.BrowserWindow;
  readonly dialog: Electron.Dialog;
  readonly ipcMain: Electron.IpcMain;
  readonly Menu: Pick<typeof Electron.Menu, 'buildFromTemplate' | 'setApplicationMenu'>;
  readonly nativeTheme: Electron.NativeTheme;
  readonly protocol: Electron.Protocol;
  readonly screen: Electron.Screen;
  readonly session: Pick<typeof Electron.session, 'defaultSession'>;
  readonly shell: Electron.Shell;
}
