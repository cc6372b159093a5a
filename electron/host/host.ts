/**
 * The host behind the window: plain Node, knowing nothing of what the window runs in. In: calls that may be anything; out:
 * replies and events. Each family of services has a file of its own; this one only checks and dispatches.
 */
import { readFileSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { failure, type Outcome, success } from '#base';
import {
  type BookSession,
  type Call,
  type CallName,
  type CallReplies,
  type CallRequest,
  type ExportRecord,
  type HostEvent,
  type JobId,
  readCall,
  type Settings,
  type StartInfo,
} from '#host';
import { BUNDLED_FONTS } from '../services/bundled.ts';
import { version } from '../version.ts';
import { Books } from './books.ts';
import { ExportHistory } from './exportHistory.ts';
import { Exports } from './exports.ts';
import { listFolder } from './folders.ts';
import { InstalledFonts } from './fonts/installedFonts.ts';
import type { BookKeeper } from './keeping.ts';
import { usablePath } from './paths.ts';
import { RecentBooks } from './recents.ts';
import { type ResourceParts, resourceAt, type Served } from './resources.ts';
import { Sessions } from './sessions.ts';
import { SettingsFile } from './settings.ts';
import { readSmallFile, writeSmallText } from './smallFiles.ts';

export interface HostOptions {
  /** The folder where the program keeps its own data. */
  readonly appData: string;
  /** Where file dialogs begin. */
  readonly documents: string;
  /** The folder of the built program. */
  readonly program: string;
  readonly keeper: BookKeeper;
  readonly dialogs: StartInfo['dialogs'];
  readonly menu: StartInfo['menu'];
  readonly platform: StartInfo['platform'];
  readonly shell: {
    /** Shows a file in its folder. */
    readonly reveal: (path: string) => Promise<void>;
    /** Opens a file with the computer's program for it; '' where it worked, else why not. */
    readonly open: (path: string) => Promise<string>;
  };
  /** Asks for a path by a dialog of the system; where `dialogs` is `native`. */
  readonly choosePath?: (wanted: CallRequest<'choosePath'>) => Promise<string | null>;
  /** Where fonts are installed. */
  readonly fontFolders: readonly string[];
  /** A file to open at once. */
  readonly open: string | null;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly now: () => number;
}

export interface HostServices {
  /** Checks a call and answers it. A call that is none gets one sentence. */
  answer(name: unknown, request: unknown): Promise<unknown>;
  listen(listener: (event: HostEvent) => void): () => void;
  /** What the window loads, by the path of an address. */
  readonly serve: (path: string) => Promise<Served>;
  readonly settings: Settings;
  /** Stops exports, closes books (what was not saved is offered again), and waits for the disk. */
  close(): Promise<void>;
}

export async function createHostServices(options: HostOptions): Promise<HostServices> {
  const { appData } = options;
  const [settings, recents] = await Promise.all([SettingsFile.load(appData), RecentBooks.load(appData)]);
  return new HostDesk(options, settings, recents);
}

type Answers = {
  readonly [Name in CallName]: (request: CallRequest<Name>) => CallReplies[Name] | Promise<CallReplies[Name]>;
};

class HostDesk implements HostServices {
  private readonly listeners = new Set<(event: HostEvent) => void>();
  private readonly sessions: Sessions;
  private readonly books: Books;
  private readonly exports: Exports;
  private readonly history: ExportHistory;
  private readonly fonts: InstalledFonts;
  private readonly answers: Answers;
  private open: string | null;

  constructor(
    private readonly options: HostOptions,
    private readonly settingsFile: SettingsFile,
    private readonly recents: RecentBooks,
  ) {
    const { appData, program, documents, keeper, now, fontFolders } = options;
    const tell = (event: HostEvent): void => this.tell(event);
    const choosePath = options.dialogs === 'native' ? (options.choosePath ?? null) : null;
    this.open = options.open;
    this.sessions = new Sessions({ recents, tell, now });
    this.books = new Books({ keeper, sessions: this.sessions, program, documents, choosePath });
    this.fonts = new InstalledFonts(fontFolders, appData, () =>
      readFileSync(join(program, 'wasm/harfbuzz-subset.wasm')),
    );
    this.history = new ExportHistory(appData);
    this.exports = new Exports({ program, fonts: this.fonts, history: this.history, tell, now });
    this.answers = this.answering();
  }

  async answer(name: unknown, request: unknown): Promise<unknown> {
    const call = readCall(name, request);
    return call.ok ? this.dispatch(call.value) : call;
  }

  listen(listener: (event: HostEvent) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  readonly serve = (path: string): Promise<Served> => resourceAt(path, this.resources);

  get settings(): Settings {
    return this.settingsFile.current;
  }

  async close(): Promise<void> {
    await this.exports.close();
    await this.sessions.endAll();
    await Promise.all([this.settingsFile.settled(), this.recents.settled()]);
  }

  private tell(event: HostEvent): void {
    for (const listener of this.listeners) listener(event);
  }

  private async dispatch({ name, request }: Call): Promise<unknown> {
    return this.answers[name](request as never);
  }

  private get resources(): ResourceParts {
    return {
      program: this.options.program,
      picture: (session, id) => {
        const found = this.sessions.get(session);
        return found.ok ? found.value.pictures.get(id) : null;
      },
      installedFace: (id) => this.fonts.bytes(id),
    };
  }

  private answering(): Answers {
    const { books, recents, settingsFile, options } = this;
    return {
      start: () => this.start(),
      setSettings: (some) => settingsFile.set(some),
      openBook: (request) => books.open(request),
      openDemo: () => books.openDemo(),
      importManuscript: (request) => books.import(request),
      importAgain: (request) => books.importAgain(request),
      change: (request) => books.change(request),
      save: (request) => books.save(request),
      saveAs: (request) => books.saveAs(request),
      close: (request) => books.close(request),
      recover: (request) => books.recover(request),
      discardUnsaved: (request) => books.discardUnsaved(request),
      backups: (request) => books.backups(request),
      openBackup: (request) => books.openBackup(request),
      export: (request) => this.export(request),
      cancelExport: ({ job }) => this.exports.cancel(job),
      exports: (request) => this.exportsOf(request),
      recentBooks: () => recents.list(),
      forgetRecent: ({ path }) => {
        recents.forget(path);
        return recents.list();
      },
      noteForeEdge: ({ session, pages }) => {
        const found = this.sessions.get(session);
        if (found.ok) found.value.noteForeEdge(pages);
        return null;
      },
      installedFonts: () => this.fonts.families(),
      choosePath: (wanted) => (options.dialogs === 'native' ? (options.choosePath?.(wanted) ?? null) : null),
      listFolder: ({ path }) => listFolder(path, options.documents),
      readFile: ({ path }) => readSmallFile(path),
      writeText: ({ path, text }) => writeSmallText(path, text),
      reveal: ({ path }) => this.reveal(path),
      openExternally: ({ path }) => this.openExternally(path),
      menuState: (state) => state,
      leave: () => null,
    };
  }

  /** A window begins. Whatever a window before it left open is closed, and offered again where it was not saved. */
  private async start(): Promise<StartInfo> {
    await this.sessions.endAll();
    const { dialogs, menu, platform, keeper } = this.options;
    const open = this.open;
    this.open = null;
    return {
      version,
      platform,
      dialogs,
      menu,
      settings: this.settings,
      recent: await this.recents.list(),
      unsaved: await keeper.unsaved(),
      open,
      fonts: BUNDLED_FONTS.map(({ family, weight, italic, fallback, file }) => ({
        family,
        weight,
        italic,
        fallback,
        file,
      })),
    };
  }

  private async export(request: CallRequest<'export'>): Promise<Outcome<{ readonly job: JobId }>> {
    const found = this.sessions.get(request.session);
    return found.ok ? this.exports.begin(found.value.dated(), request.editions, request.folder) : found;
  }

  private async exportsOf({ session }: { readonly session: BookSession }): Promise<Outcome<readonly ExportRecord[]>> {
    const found = this.sessions.get(session);
    return found.ok ? success(await this.history.of(found.value.kept.book.metadata.identifier)) : found;
  }

  private async reveal(path: string): Promise<Outcome<null>> {
    const usable = await existing(path);
    if (!usable.ok) return usable;
    await this.options.shell.reveal(usable.value);
    return success(null);
  }

  /** Only finished books are handed to other programs: never a file that could run. */
  private async openExternally(path: string): Promise<Outcome<null>> {
    const usable = await existing(path);
    if (!usable.ok) return usable;
    if (!FINISHED.has(extname(usable.value).toLowerCase())) return failure('Only finished books are opened.');
    const problem = await this.options.shell.open(usable.value);
    return problem === '' ? success(null) : failure(`The file could not be opened: ${problem}`);
  }
}

const FINISHED: ReadonlySet<string> = new Set(['.pdf', '.epub']);

async function existing(path: string): Promise<Outcome<string>> {
  const usable = usablePath(path);
  if (!usable.ok) return usable;
  const there = await stat(usable.value).catch(() => null);
  return there ? usable : failure('The file is no longer there.');
}
