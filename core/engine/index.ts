export { coverOutline } from './coverOutline.ts';
export { Desk, type PostReply } from './desk.ts';
export { type EbookParts, Engine, type EngineParts, type PrintBook } from './engine.ts';
export { type FitRequest, type Fitted, fitPages } from './fit.ts';
export { glyphOrnament, ornamentalCharacters } from './glyphMark.ts';
export { languagesOf } from './languages.ts';
export { type DeskReply, type DeskRequest, readRequest, withPages } from './messages.ts';
export { bookOf, type Imported, importManuscript, type Opened, openFile } from './open.ts';
export { type LayoutStep, Session } from './session.ts';
