/**
 * What window and host say to each other, apart from the calls themselves: all of it plain data that survives both
 * Electron's structured clone and a socket. Paths are absolute; times are milliseconds since 1970-01-01T00:00:00Z.
 */
import type { EditionId, Finding, SectionId } from '#base';
import type { BookMessage } from './book.ts';
import type { Settings } from './settings.ts';

/** A book that the host holds open. The window mirrors it and sends every change. */
export type BookSession = string & { readonly id?: 'session' };
export type JobId = string & { readonly id?: 'job' };

/** Where a book stands on disk. */
export interface Kept {
  /** null for a book that was never saved. */
  readonly path: string | null;
  /** When the file was last written by us or read; null if never. */
  readonly savedAt: number | null;
  /** Whether there are changes that the file does not hold. They are in the journal. */
  readonly dirty: boolean;
}

export interface OpenedBook {
  readonly session: BookSession;
  readonly book: BookMessage;
  readonly kept: Kept;
  /** The import's report, while the book is fresh from a manuscript. */
  readonly imported: ImportedManuscript | null;
}

/** A paragraph of the manuscript as it came, for the review's left column. */
export interface ManuscriptLine {
  readonly text: string;
  readonly align: 'start' | 'center' | 'end' | 'justify';
  readonly bold: boolean;
  readonly italic: boolean;
  /** Points, or null where the manuscript's body size holds. */
  readonly size: number | null;
  readonly pageBreakBefore: boolean;
  /** The section that it went to; null where it was dropped or belongs to none. */
  readonly section: SectionId | null;
}

export interface SectionReason {
  readonly section: SectionId;
  readonly reasons: readonly string[];
  /** 0 to 1. */
  readonly confidence: number;
}

/** Something counted: a clean-up, or what was dropped. `tidy` names the switch that leaves it undone, null if none does. */
export interface ImportNotice {
  readonly kind: string;
  readonly count: number;
  readonly message: string;
  readonly tidy: string | null;
}

export interface ImportedManuscript {
  readonly name: string;
  readonly sections: readonly SectionReason[];
  readonly notices: readonly ImportNotice[];
  readonly lines: readonly ManuscriptLine[];
  /** The clean-ups that were left undone, by the names of `ImportNotice.tidy`. */
  readonly without: readonly string[];
}

export interface RecentBook {
  readonly path: string;
  readonly title: string;
  readonly author: string;
  readonly openedAt: number;
  /** Thickness of each section in pages of its first print edition, in running order, for a small fore-edge; may be empty. */
  readonly foreEdge: readonly number[];
  /** False where the file is no longer there. */
  readonly found: boolean;
}

/** Work that an earlier run did not save. */
export interface UnsavedWork {
  readonly id: string;
  readonly title: string;
  readonly path: string | null;
  readonly lastChangeAt: number;
  readonly changes: number;
  /** Whether the file was changed by someone else since: then both are offered. */
  readonly fileChanged: boolean;
}

export interface Backup {
  readonly id: string;
  readonly savedAt: number;
  /** Bytes. */
  readonly size: number;
}

export interface StartInfo {
  readonly version: string;
  readonly platform: 'mac' | 'windows' | 'linux';
  /** `native`: the host shows file dialogs itself; `page`: the window shows its own, fed by `listFolder`. */
  readonly dialogs: 'native' | 'page';
  /** Whether the host draws a native menu; else the window draws the same menu itself. */
  readonly menu: 'native' | 'page';
  readonly settings: Settings;
  readonly recent: readonly RecentBook[];
  readonly unsaved: readonly UnsavedWork[];
  /** A file to open at once: named on the command line or dropped on the program. */
  readonly open: string | null;
  readonly fonts: readonly BundledFace[];
}

/** A face that travels with the program: its bytes are at `fonts/<file>`, relative to the window's address. */
export interface BundledFace {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly fallback: boolean;
  readonly file: string;
}

/** A family installed on this computer. Its faces' bytes are at `installed/<face id>`. */
export interface InstalledFamily {
  readonly family: string;
  readonly faces: readonly {
    readonly id: string;
    readonly weight: number;
    readonly italic: boolean;
    /** OS/2 fsType (OpenType specification): whether the font says that it may be embedded. */
    readonly embedding: 'installable' | 'editable' | 'preview' | 'restricted' | 'bitmapOnly';
    readonly maySubset: boolean;
  }[];
  /** One sentence on what its embedding permission means for a book. */
  readonly permission: string;
  readonly usable: boolean;
  /** Mean width of a character of English in ems (see the design's `text.character`); null without the letters of English. */
  readonly character: number | null;
  /** What a book may ask for and the family does not have. */
  readonly lacks: readonly ('italic' | 'bold' | 'smallCapitals' | 'oldStyle')[];
  /** The terms that the font itself names, and where they can be read. */
  readonly licence: string | null;
  readonly licenceAddress: string | null;
}

export interface FolderListing {
  readonly path: string;
  /** null at the top. */
  readonly parent: string | null;
  readonly entries: readonly {
    readonly name: string;
    readonly path: string;
    readonly kind: 'folder' | 'file';
    readonly modifiedAt: number;
    readonly size: number;
  }[];
  /** Places worth a click: home, documents, desktop. */
  readonly places: readonly { readonly name: string; readonly path: string }[];
}

/** What a save came to. */
export type SaveReply =
  | { readonly kind: 'saved'; readonly kept: Kept }
  /** Another program or computer changed the file meanwhile, or another file stands there; nothing was written. */
  | { readonly kind: 'changedOutside'; readonly path: string; readonly modifiedAt: number }
  /** The person closed the dialog. */
  | { readonly kind: 'cancelled' }
  /** The book was never saved and the window has to ask where (dialogs `page`). */
  | { readonly kind: 'needsPath'; readonly suggested: string };

export interface ExportedFile {
  readonly edition: EditionId;
  readonly kind: 'print' | 'ebook';
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
  /** Pages of a print edition, else null. */
  readonly pages: number | null;
}

/** What an edition was when it was made, in marks by which later changes show. */
export interface EditionState {
  readonly settings: string;
  /** The mark of each section that it held, in their order. */
  readonly sections: readonly (readonly [SectionId, string])[];
  /** The mark of each page; null for an ebook. */
  readonly pages: readonly string[] | null;
}

/** One edition of a run: what the check found, and what it was made from. */
export interface MadeEdition {
  readonly edition: EditionId;
  readonly findings: { readonly errors: number; readonly warnings: number; readonly notes: number };
  readonly muted: number;
  /** Kept of the last run of each edition only. */
  readonly state: EditionState | null;
}

/** One run of the press: what was made, when, from which state of the book. */
export interface ExportRecord {
  readonly job: JobId;
  readonly at: number;
  readonly files: readonly ExportedFile[];
  readonly findings: { readonly errors: number; readonly warnings: number; readonly notes: number };
  /** Nothing is known of the editions of runs that an older version of the program recorded. */
  readonly editions: readonly MadeEdition[];
}

/** What is done for an edition: nothing yet, its pages made up, its file made, the files put in their place. */
export type ExportStage = 'waiting' | 'pages' | 'pdf' | 'ebook' | 'ready';

/** What the host tells of its own accord. */
export type HostEvent =
  | { readonly kind: 'kept'; readonly session: BookSession; readonly version: number; readonly kept: Kept }
  | {
      readonly kind: 'exportProgress';
      readonly job: JobId;
      readonly edition: EditionId;
      readonly stage: ExportStage;
      /** How much of the whole edition is done, 0 to 1. */
      readonly done: number;
    }
  | {
      readonly kind: 'exportEnded';
      readonly job: JobId;
      readonly result:
        | { readonly kind: 'done'; readonly record: ExportRecord; readonly findings: readonly Finding[] }
        | { readonly kind: 'cancelled' }
        | { readonly kind: 'failed'; readonly problem: string };
    }
  /** The file of an open book was changed by someone else. */
  | {
      readonly kind: 'changedOutside';
      readonly session: BookSession;
      readonly path: string;
      readonly modifiedAt: number;
    }
  /** A command was chosen in the native menu; the id is one of the window's commands. */
  | { readonly kind: 'command'; readonly command: string }
  /** A file was dropped on the program or opened with it. */
  | { readonly kind: 'openFile'; readonly path: string }
  /** The window wants to close; it closes after `leave`. */
  | { readonly kind: 'closeRequested' };
