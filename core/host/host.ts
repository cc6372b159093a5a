/**
 * The one typed interface between the window and the host. Declared once: the calls with what each takes, as schemas that
 * check a message where it enters (`readCall`), and what each gives. Preload, handlers, the loopback server and the
 * window's client all derive from this table.
 */
import * as v from 'valibot';
import { failure, type Outcome, success } from '#base';
import type { Change } from '#book';
import { isChange } from './changes.ts';
import { COMMANDS, type CommandId, isCommandId, type MenuState } from './commands.ts';
import type {
  Backup,
  ExportRecord,
  FolderListing,
  HostEvent,
  InstalledFamily,
  JobId,
  OpenedBook,
  RecentBook,
  SaveReply,
  StartInfo,
} from './messages.ts';
import type { Settings } from './settings.ts';

const path = v.pipe(v.string(), v.minLength(1), v.maxLength(4096));
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(200));
const bytes = v.custom<Uint8Array>((value) => value instanceof Uint8Array, 'not bytes');
const session = v.object({ session: id });

/** A file as the window has it: a path that the host may read, or bytes that were dropped or chosen in the window. */
const source = v.union([
  v.strictObject({ path }),
  v.strictObject({ name: v.pipe(v.string(), v.maxLength(255)), bytes }),
]);

const change = v.custom<Change>((value) => isChange(value), 'not a change');

const panels = v.record(v.pipe(v.string(), v.maxLength(60)), v.union([v.number(), v.boolean()]));

const proofLook = v.strictObject({
  zoom: v.union([v.picklist(['fit', 'width']), v.pipe(v.number(), v.minValue(10), v.maxValue(800))]),
  facing: v.picklist(['facing', 'single']),
  overlays: v.pipe(v.array(v.picklist(['trim', 'margins', 'grid', 'changed'])), v.maxLength(4)),
  together: v.boolean(),
  ebook: v.strictObject({
    screen: v.picklist(['phone', 'reader', 'tablet']),
    textSize: v.pipe(v.number(), v.minValue(50), v.maxValue(300)),
    margin: v.picklist(['narrow', 'usual', 'wide']),
    tone: v.picklist(['day', 'sepia', 'night']),
  }),
});

const settings = v.partial(
  v.strictObject({
    appearance: v.picklist(['system', 'light', 'dark']),
    contrast: v.picklist(['system', 'more', 'usual']),
    textZoom: v.pipe(v.number(), v.minValue(80), v.maxValue(200)),
    spellCheck: v.boolean(),
    panels,
    exportFolder: v.nullable(path),
    proof: proofLook,
  }),
);

const commands = v.pipe(
  v.array(v.custom<CommandId>(isCommandId, 'no command')),
  v.maxLength(Object.keys(COMMANDS).length),
);

const dialog = v.strictObject({
  purpose: v.picklist(['openBook', 'openManuscript', 'openPicture', 'openDesign', 'saveBook', 'saveDesign', 'folder']),
  /** A name or path to begin with. */
  suggested: v.nullable(v.pipe(v.string(), v.maxLength(4096))),
});

/** What each call takes. */
export const CALLS = {
  /** What the window needs to begin. */
  start: v.strictObject({}),
  setSettings: settings,
  /** Opens a project file. */
  openBook: v.strictObject({ source }),
  /** Opens the demo as a new, unsaved book. */
  openDemo: v.strictObject({}),
  /**
   * Reads a manuscript into a new, unsaved book with its report. `without` names clean-ups to leave undone; asked again
   * with another list, it reads the same manuscript anew.
   */
  importManuscript: v.strictObject({ source, without: v.array(v.pipe(v.string(), v.maxLength(60))) }),
  /** The manuscript's import again, for an open session that came from one, with other clean-ups left undone. */
  importAgain: v.strictObject({ ...session.entries, without: v.array(v.pipe(v.string(), v.maxLength(60))) }),
  /** Records changes, in order; `version` is the number of changes that the session has seen before them. */
  change: v.strictObject({ ...session.entries, version: v.pipe(v.number(), v.integer()), changes: v.array(change) }),
  /** Saves to the book's own path, or to `path`. `overwrite` saves over a file that was changed outside. */
  save: v.strictObject({ ...session.entries, path: v.nullable(path), overwrite: v.boolean() }),
  /** Shows the dialog to save under another name, where dialogs are native. */
  saveAs: session,
  /** Closes a book. With `discard`, changes that were not saved are given up; else they stay to be offered again. */
  close: v.strictObject({ ...session.entries, discard: v.boolean() }),
  recover: v.strictObject({ id }),
  discardUnsaved: v.strictObject({ id }),
  backups: session,
  /** Opens a back-up as a new, unsaved book. */
  openBackup: v.strictObject({ ...session.entries, id }),
  /** Begins an export; its progress and end come as events. */
  export: v.strictObject({ ...session.entries, editions: v.array(id), folder: path }),
  cancelExport: v.strictObject({ job: id }),
  exports: session,
  recentBooks: v.strictObject({}),
  forgetRecent: v.strictObject({ path }),
  /** Remembers how thick each section is, for the small fore-edge beside a recent book. */
  noteForeEdge: v.strictObject({ ...session.entries, pages: v.pipe(v.array(v.number()), v.maxLength(2000)) }),
  installedFonts: v.strictObject({}),
  /** Shows a dialog of the system; null where it was cancelled or dialogs are the window's. */
  choosePath: dialog,
  listFolder: v.strictObject({ path: v.nullable(path) }),
  /** Reads a small file that the person chose: a picture, a design. */
  readFile: v.strictObject({ path }),
  /** Writes a text file that the person asked for: a design, which may carry a picture. */
  writeText: v.strictObject({ path, text: v.pipe(v.string(), v.maxLength(20_000_000)) }),
  /** Shows a file that was exported or saved in its folder. */
  reveal: v.strictObject({ path }),
  /** Opens an exported file with the program that the computer has for it. */
  openExternally: v.strictObject({ path }),
  /** What the native menu is to show of the commands; a host without one takes note of nothing. */
  menuState: v.strictObject({ disabled: commands, on: commands }),
  /** The window is ready to close: everything is kept, or the person decided. */
  leave: v.strictObject({}),
} as const;

export type CallName = keyof typeof CALLS;
export type CallRequest<Name extends CallName> = v.InferOutput<(typeof CALLS)[Name]>;

/** What each call gives. An expected failure is an Outcome with one sentence. */
export interface CallReplies {
  start: StartInfo;
  setSettings: Settings;
  openBook: Outcome<OpenedBook>;
  openDemo: Outcome<OpenedBook>;
  importManuscript: Outcome<OpenedBook>;
  importAgain: Outcome<OpenedBook>;
  /** The version after the changes. A refusal means that the mirror differs: the window must not go on as if kept. */
  change: Outcome<{ readonly version: number }>;
  save: Outcome<SaveReply>;
  saveAs: Outcome<SaveReply>;
  close: Outcome<null>;
  recover: Outcome<OpenedBook>;
  discardUnsaved: Outcome<null>;
  backups: Outcome<readonly Backup[]>;
  openBackup: Outcome<OpenedBook>;
  export: Outcome<{ readonly job: JobId }>;
  cancelExport: Outcome<null>;
  exports: Outcome<readonly ExportRecord[]>;
  recentBooks: readonly RecentBook[];
  forgetRecent: readonly RecentBook[];
  noteForeEdge: null;
  installedFonts: readonly InstalledFamily[];
  choosePath: string | null;
  listFolder: Outcome<FolderListing>;
  readFile: Outcome<{ readonly name: string; readonly bytes: Uint8Array }>;
  writeText: Outcome<null>;
  reveal: Outcome<null>;
  openExternally: Outcome<null>;
  menuState: MenuState;
  leave: null;
}

/** The host as the window sees it. */
export type Host = {
  readonly [Name in CallName]: (request: CallRequest<Name>) => Promise<CallReplies[Name]>;
} & {
  /** Hears events until the returned function is called. */
  listen(listener: (event: HostEvent) => void): () => void;
};

/** A call as it crosses the seam. */
export type Call = { [Name in CallName]: { readonly name: Name; readonly request: CallRequest<Name> } }[CallName];

/** Checks a message from outside: a call that exists, with what it takes, or one sentence. */
export function readCall(name: unknown, request: unknown): Outcome<Call> {
  if (typeof name !== 'string' || !Object.hasOwn(CALLS, name))
    return failure('The window asked for something unknown.');
  const checked = v.safeParse(CALLS[name as CallName], request);
  if (checked.success) return success({ name, request: checked.output } as Call);
  const [issue] = checked.issues;
  const where = v.getDotPath(issue);
  return failure(`The window asked for "${name}" with an unusable ${where ?? 'request'}.`);
}
