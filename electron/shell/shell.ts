/**
 * The program in Electron: one instance, one window, the host behind it. In: Electron's parts and the host; out: a running
 * program. It joins what the other files of this folder hold and decides little.
 */
import type * as Electron from 'electron';
import type { CallRequest, HostEvent, MenuState, Settings } from '#host';
import type { ServedHost } from '../loopback/server.ts';
import { WINDOW_ADDRESS } from './address.ts';
import { answerCalls } from './calls.ts';
import { EVENT_CHANNEL } from './channels.ts';
import { choosePath } from './dialogs.ts';
import { fileNamed } from './files.ts';
import { guardContents, guardSession } from './guards.ts';
import { checkedLanguages, languageIn, languageSet } from './language.ts';
import { Leaving } from './leaving.ts';
import { type MarkedMenu, markMenu, NOTHING_GOES } from './menu.ts';
import type { ElectronParts } from './parts.ts';
import { claimScheme, serveScheme } from './protocol.ts';
import { onScreen, readPlace, type WindowPlace, windowOptions } from './window.ts';

/** The host as the shell needs it. */
export interface ShellHost extends ServedHost {
  readonly settings: Settings;
  /** Lets go of every book; their journals stay. */
  close(): Promise<void>;
}

/** What the host may ask of the shell. */
export interface HostShell {
  readonly reveal: (path: string) => Promise<void>;
  /** '' where it worked, else the system's words. */
  readonly open: (path: string) => Promise<string>;
  readonly choosePath: (wanted: CallRequest<'choosePath'>) => Promise<string | null>;
}

export interface ShellRequest {
  readonly parts: ElectronParts;
  readonly makeHost: (shell: HostShell) => Promise<ShellHost>;
  /** The file of the preload script. */
  readonly preload: string;
  readonly platform: NodeJS.Platform;
  readonly argv: readonly string[];
  readonly folder: string;
  /** The native menu, whose commands the window carries out. */
  readonly menu: (run: (command: string) => void) => Electron.MenuItemConstructorOptions[];
  /** Where the window last stood, as a small text kept between runs. */
  readonly place: { readonly read: () => string; readonly write: (text: string) => void };
}

export class Shell {
  private window: Electron.BrowserWindow | null = null;
  private leaving: Leaving | null = null;
  private host: ShellHost | null = null;
  private menu: MarkedMenu | null = null;
  private menuState = NOTHING_GOES;
  /** A file to open as soon as the window asks what to begin with. */
  private pending: string | null;
  /** Whether the window has begun, and hears of files by event. */
  private begun = false;

  constructor(private readonly request: ShellRequest) {
    this.pending = fileNamed(request.argv, request.folder);
  }

  /** Starts the program; false where another instance runs already and was handed the file. */
  async start(): Promise<boolean> {
    const { app, protocol } = this.request.parts;
    if (!app.requestSingleInstanceLock()) {
      app.quit();
      return false;
    }
    app.enableSandbox();
    claimScheme(protocol);
    this.follow(app);
    await app.whenReady();
    await this.prepare();
    this.open();
    return true;
  }

  private follow(app: Electron.App): void {
    app.on('web-contents-created', (_event, contents) => guardContents(contents));
    app.on('second-instance', (_event, argv, folder) => this.take(fileNamed(argv, folder)));
    app.on('open-file', (event, path) => {
      event.preventDefault();
      this.take(path);
    });
    app.on('activate', () => this.open());
    app.on('window-all-closed', () => {
      if (this.request.platform !== 'darwin') app.quit();
    });
    app.on('will-quit', () => void this.host?.close());
  }

  private async prepare(): Promise<void> {
    const { parts, makeHost } = this.request;
    const { shell, session, protocol, ipcMain, dialog } = parts;
    const host = await makeHost({
      reveal: async (path) => shell.showItemInFolder(path),
      open: (path) => shell.openPath(path),
      choosePath: async (wanted) => (this.window ? choosePath(dialog, this.window, wanted) : null),
    });
    this.host = host;
    guardSession(session.defaultSession);
    serveScheme(protocol, (path) => host.serve(path));
    answerCalls(ipcMain, (name, request) => this.answer(host, name, request));
    host.listen((event) => this.tell(event));
    this.look(host.settings);
  }

  /** Answers a call, and follows what concerns the window itself. */
  private async answer(host: ShellHost, name: unknown, request: unknown): Promise<unknown> {
    const reply = await host.answer(name, request);
    if (name === 'start') return this.beginning(reply);
    if (name === 'leave') this.leaving?.leave();
    if (name === 'setSettings') this.look(reply as Settings);
    if (name === 'menuState' && isMenuState(reply)) this.mark(reply);
    this.check(name === 'change' ? languageSet((request as CallRequest<'change'>).changes) : languageIn(reply));
    return reply;
  }

  private beginning(reply: unknown): unknown {
    const open = this.pending;
    this.pending = null;
    this.begun = true;
    return { ...(reply as object), open };
  }

  /** Light, dark or as the system has it. */
  private look(settings: Settings): void {
    this.request.parts.nativeTheme.themeSource = settings.appearance;
  }

  /** Spell-check in the book's language; macOS finds the language by itself. */
  private check(language: string | null): void {
    if (language === null || this.request.platform === 'darwin') return;
    const { defaultSession } = this.request.parts.session;
    defaultSession.setSpellCheckerLanguages(checkedLanguages(language, defaultSession.availableSpellCheckerLanguages));
  }

  private mark(state: MenuState): void {
    this.menuState = state;
    if (this.menu) markMenu(this.menu, state);
  }

  private take(path: string | null): void {
    this.open();
    if (this.window?.isMinimized()) this.window.restore();
    this.window?.focus();
    if (path === null) return;
    if (this.begun) this.tell({ kind: 'openFile', path });
    else this.pending = path;
  }

  private tell(event: HostEvent): void {
    if (this.window && !this.window.isDestroyed()) this.window.webContents.send(EVENT_CHANNEL, event);
  }

  private open(): void {
    const { parts, preload, place } = this.request;
    if (this.window || !this.host) return;
    const last = onScreen(readPlace(place.read()), parts.screen.getAllDisplays());
    const window = new parts.BrowserWindow(
      windowOptions({ preload, place: last, dark: parts.nativeTheme.shouldUseDarkColors }),
    );
    this.window = window;
    this.leaving = new Leaving(window, () => this.tell({ kind: 'closeRequested' }));
    if (last?.maximized) window.maximize();
    window.once('ready-to-show', () => window.show());
    window.on('close', () => place.write(JSON.stringify(placeOf(window))));
    window.on('closed', () => {
      this.window = null;
      this.begun = false;
      this.mark(NOTHING_GOES);
    });
    this.furnish(window);
    void window.loadURL(WINDOW_ADDRESS);
  }

  private furnish(window: Electron.BrowserWindow): void {
    const { parts, menu } = this.request;
    const run = (command: string): void => {
      this.tell({ kind: 'command', command });
      // The system has ticked the item by itself: it is the window that says whether it holds.
      this.mark(this.menuState);
    };
    const built = parts.Menu.buildFromTemplate(menu(run));
    parts.Menu.setApplicationMenu(built);
    this.menu = built;
    this.mark(this.menuState);
    window.on('page-title-updated', (event) => event.preventDefault());
  }
}

function placeOf(window: Electron.BrowserWindow): WindowPlace {
  return { ...window.getNormalBounds(), maximized: window.isMaximized() };
}

/** A refused call is answered by a sentence, not by a state. */
function isMenuState(reply: unknown): reply is MenuState {
  return typeof reply === 'object' && reply !== null && 'disabled' in reply && 'on' in reply;
}
