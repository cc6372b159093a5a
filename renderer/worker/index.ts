export { type DeskReply, withPages } from '#engine';
export { type FaceShapes, type GlyphShape, GlyphShapes } from './glyphs.ts';
export { LayoutClient, startLayoutWorker, type WorkerPort, workerFaces } from './layoutClient.ts';
export type { GlyphMark } from './marks.ts';
export type { EbookReply, OutlinesReply, WorkerFace, WorkerReply, WorkerRequest } from './messages.ts';
export type { SpecimenText } from './specimen.ts';
