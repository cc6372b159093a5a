export { makeEbook } from './make.ts';
export { elementIdOf } from './names.ts';
export type { EbookCover, EbookFont, EbookRequest } from './request.ts';
export type { EbookEntry, PageStart } from './types.ts';
