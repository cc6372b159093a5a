/**
 * Doubles of Electron's parts, shaped by its types, that remember what was done to them. They stand in for the runtime:
 * what Electron itself does with an option is Electron's to test, what the program asks of it is tested here.
 */
import { EventEmitter } from 'node:events';
import type * as Electron from 'electron';
import type { ElectronParts } from '../../electron/shell/parts.ts';

type Handler = (...given: never[]) => unknown;

/** An event whose default may be prevented. */
export class DoubleEvent {
  defaultPrevented = false;
  preventDefault(): void {
    this.defaultPrevented = true;
  }
}

export class DoubleContents extends EventEmitter {
  readonly sent: unknown[] = [];
  openHandler: ((details: { url: string }) => { action: string }) | null = null;

  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }

  send(channel: string, message: unknown): void {
    this.sent.push([channel, message]);
  }

  /** Emits an event that may be prevented; whether it was. */
  denies(name: string, details: object = {}): boolean {
    const event = Object.assign(new DoubleEvent(), details);
    this.emit(name, event);
    return event.defaultPrevented;
  }
}

export class DoubleWindow extends EventEmitter {
  static readonly made: DoubleWindow[] = [];
  readonly webContents = new DoubleContents();
  address: string | null = null;
  shown = false;
  maximized = false;
  destroyed = false;

  constructor(readonly options: Electron.BrowserWindowConstructorOptions) {
    super();
    DoubleWindow.made.push(this);
  }

  loadURL(address: string): Promise<void> {
    this.address = address;
    return Promise.resolve();
  }
  show(): void {
    this.shown = true;
  }
  maximize(): void {
    this.maximized = true;
  }
  isMaximized(): boolean {
    return this.maximized;
  }
  isMinimized(): boolean {
    return false;
  }
  restore(): void {}
  focus(): void {}
  isDestroyed(): boolean {
    return this.destroyed;
  }
  getNormalBounds(): Electron.Rectangle {
    return { x: 20, y: 30, width: 1000, height: 700 };
  }
  /** As Electron does it: asks, and goes unless it was prevented. */
  close(): void {
    const event = new DoubleEvent();
    this.emit('close', event);
    if (event.defaultPrevented) return;
    this.destroyed = true;
    this.emit('closed');
  }
}

export class DoubleSession extends EventEmitter {
  readonly handlers: Record<string, Handler> = {};
  spellCheckerLanguages: string[] = [];
  readonly availableSpellCheckerLanguages = ['de', 'en-GB', 'en-US', 'fr'];
  readonly webRequest = {
    onBeforeRequest: (handler: Handler): void => {
      this.handlers['beforeRequest'] = handler;
    },
  };

  setPermissionRequestHandler(handler: Handler): void {
    this.handlers['permissionRequest'] = handler;
  }
  setPermissionCheckHandler(handler: Handler): void {
    this.handlers['permissionCheck'] = handler;
  }
  setDevicePermissionHandler(handler: Handler): void {
    this.handlers['devicePermission'] = handler;
  }
  setDisplayMediaRequestHandler(handler: Handler): void {
    this.handlers['displayMedia'] = handler;
  }
  setSpellCheckerLanguages(languages: string[]): void {
    this.spellCheckerLanguages = languages;
  }
}

/** A menu as Electron builds it: items by their id, which the program changes and the system ticks. */
export class DoubleMenu {
  private readonly items = new Map<string, { enabled: boolean; checked: boolean; click: () => void }>();

  constructor(readonly template: Electron.MenuItemConstructorOptions[]) {
    this.add(template);
  }

  getMenuItemById(id: string): { enabled: boolean; checked: boolean } | null {
    return this.items.get(id) ?? null;
  }

  /** As a person does it: an item that can be ticked is, before the program hears of it. */
  choose(id: string): void {
    const item = this.items.get(id);
    if (!item?.enabled) return;
    item.checked = !item.checked;
    item.click();
  }

  /** The ids of items that are so. */
  those(way: 'enabled' | 'checked'): readonly string[] {
    return [...this.items].filter(([, item]) => item[way]).map(([id]) => id);
  }

  private add(items: Electron.MenuItemConstructorOptions[]): void {
    for (const { id, enabled = true, checked = false, click, submenu } of items) {
      if (id !== undefined) this.items.set(id, { enabled, checked, click: click as () => void });
      if (Array.isArray(submenu)) this.add(submenu);
    }
  }
}

export interface Doubles {
  readonly parts: ElectronParts;
  readonly app: EventEmitter & { readonly done: string[]; lock: boolean };
  readonly session: DoubleSession;
  /** What `ipcMain.handle` and `protocol.handle` were given, by channel or scheme. */
  readonly handled: Map<string, (...given: never[]) => unknown>;
  readonly schemes: Electron.CustomScheme[];
  readonly opened: string[];
  readonly theme: { themeSource: string; shouldUseDarkColors: boolean };
  readonly menus: DoubleMenu[];
  /** What the next dialog answers. */
  readonly chosen: { paths: string[] };
  readonly dialogs: object[];
}

export function doubles(): Doubles {
  DoubleWindow.made.length = 0;
  const done: string[] = [];
  const app = Object.assign(new EventEmitter(), {
    done,
    lock: true,
    requestSingleInstanceLock: () => app.lock,
    quit: () => done.push('quit'),
    enableSandbox: () => done.push('sandbox'),
    whenReady: () => Promise.resolve(),
  });
  const session = new DoubleSession();
  const handled = new Map<string, (...given: never[]) => unknown>();
  const schemes: Electron.CustomScheme[] = [];
  const opened: string[] = [];
  const theme = { themeSource: 'system', shouldUseDarkColors: false };
  const menus: DoubleMenu[] = [];
  const chosen = { paths: [] as string[] };
  const dialogs: object[] = [];
  const handle = (name: string, handler: (...given: never[]) => unknown): void => {
    handled.set(name, handler);
  };
  const parts = {
    app,
    BrowserWindow: DoubleWindow,
    dialog: {
      showOpenDialog: async (_window: unknown, options: object) => {
        dialogs.push(options);
        return { canceled: chosen.paths.length === 0, filePaths: chosen.paths };
      },
      showSaveDialog: async (_window: unknown, options: object) => {
        dialogs.push(options);
        return { canceled: chosen.paths.length === 0, filePath: chosen.paths[0] ?? '' };
      },
    },
    ipcMain: { handle },
    Menu: {
      buildFromTemplate: (template: Electron.MenuItemConstructorOptions[]) => new DoubleMenu(template),
      setApplicationMenu: (menu: DoubleMenu) => menus.push(menu),
    },
    nativeTheme: theme,
    protocol: {
      registerSchemesAsPrivileged: (given: Electron.CustomScheme[]) => schemes.push(...given),
      handle,
    },
    screen: { getAllDisplays: () => [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }] },
    session: { defaultSession: session },
    shell: {
      openPath: async (path: string) => {
        opened.push(path);
        return '';
      },
      showItemInFolder: (path: string) => opened.push(`folder of ${path}`),
    },
  };
  return {
    parts: parts as unknown as ElectronParts,
    app,
    session,
    handled,
    schemes,
    opened,
    theme,
    menus,
    chosen,
    dialogs,
  };
}
