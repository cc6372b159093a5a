export type { EbookEntry, PageStart } from './types.ts';
