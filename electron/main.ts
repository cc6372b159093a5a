/** The program's beginning in Electron: hands Electron's parts, the host and this computer's places to the shell. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  app,
  BrowserWindow,
  dialog,
  shell as electronShell,
  ipcMain,
  Menu,
  nativeTheme,
  protocol,
  screen,
  session,
} from 'electron';
import { fontFolders } from './host/fonts/fontFolders.ts';
import { createHostServices } from './host/host.ts';
import { makeFolder } from './services/folders.ts';
import { programFolder } from './services/program.ts';
import { menuTemplate } from './shell/menu.ts';
import { type HostShell, Shell, type ShellHost } from './shell/shell.ts';
import { appDataFolder, documentsFolder, platformName } from './start/places.ts';
import { Store } from './store/index.ts';

const { platform, env: environment } = process;
const appData = appDataFolder({ platform, environment });
const placeFile = join(appData, 'window.json');
const now = (): number => Date.now();

async function makeHost({ reveal, open, choosePath }: HostShell): Promise<ShellHost> {
  await makeFolder(appData, 0o700);
  return createHostServices({
    appData,
    documents: await documentsFolder(),
    program: programFolder(),
    keeper: new Store({ folder: appData, now }),
    dialogs: 'native',
    menu: 'native',
    platform: platformName(platform),
    shell: { reveal, open },
    choosePath,
    fontFolders: fontFolders(platform, environment),
    open: null,
    now,
  });
}

function readPlace(): string {
  try {
    return readFileSync(placeFile, 'utf8');
  } catch {
    return '';
  }
}

function writePlace(text: string): void {
  try {
    writeFileSync(placeFile, text);
  } catch {
    // A window that opens in its usual place the next time is no reason to stop this one from closing.
  }
}

// Chromium's own files lie with the program's, so that one folder holds all that it keeps.
app.setPath('userData', join(appData, 'electron'));

await new Shell({
  parts: {
    app,
    BrowserWindow,
    dialog,
    ipcMain,
    Menu,
    nativeTheme,
    protocol,
    screen,
    session,
    shell: electronShell,
  },
  makeHost,
  preload: join(programFolder(), 'preload.cjs'),
  platform,
  argv: app.isPackaged ? process.argv : process.argv.slice(1),
  folder: process.cwd(),
  menu: (run) => menuTemplate(platform, run),
  place: { read: readPlace, write: writePlace },
}).start();
