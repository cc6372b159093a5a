export { type AssetFacts, type BookMessage, bookOfMessage, messageOfBook } from './book.ts';
export { CALLS, type Call, type CallName, type CallReplies, type CallRequest, type Host, readCall } from './host.ts';
export type {
  Backup,
  BookSession,
  BundledFace,
  ExportedFile,
  ExportRecord,
  FolderListing,
  HostEvent,
  ImportedManuscript,
  ImportNotice,
  InstalledFamily,
  JobId,
  Kept,
  ManuscriptLine,
  OpenedBook,
  RecentBook,
  SaveReply,
  SectionReason,
  Settings,
  StartInfo,
  UnsavedWork,
} from './messages.ts';
