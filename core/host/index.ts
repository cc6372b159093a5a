export { type AssetFacts, type BookMessage, bookOfMessage, messageOfBook } from './book.ts';
export { COMMANDS, type CommandId, type CommandText, isCommandId, type MenuState } from './commands.ts';
export { CALLS, type Call, type CallName, type CallReplies, type CallRequest, type Host, readCall } from './host.ts';
export { MENU, type MenuGroup, type MenuItem } from './menu.ts';
export type {
  Backup,
  BookSession,
  BundledFace,
  EditionState,
  ExportedFile,
  ExportRecord,
  ExportStage,
  FolderListing,
  HostEvent,
  ImportedManuscript,
  ImportNotice,
  InstalledFamily,
  JobId,
  Kept,
  MadeEdition,
  ManuscriptLine,
  OpenedBook,
  RecentBook,
  SaveReply,
  SectionReason,
  StartInfo,
  UnsavedWork,
} from './messages.ts';
export { type ProofLook, type Settings, USUAL_SETTINGS } from './settings.ts';
export {
  callPath,
  decode,
  EVENTS_PATH,
  encode,
  FrameReader,
  frameOf,
  idleFrame,
  LARGEST_CALL,
  WIRE_TYPE,
} from './wire.ts';
