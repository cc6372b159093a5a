export { LayoutClient, startLayoutWorker, type WorkerPort, workerFaces } from './layoutClient.ts';
export type { EbookReply, OutlinesReply, WorkerFace, WorkerReply, WorkerRequest } from './messages.ts';
