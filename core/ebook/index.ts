export { COVER_SIZE, type CoverRequest, type CoverRole, coverAlt, coverSvg, type TextOutline } from './cover.ts';
export type { FontFaceRule } from './css.ts';
export { makeEbook } from './make.ts';
export { elementIdOf } from './names.ts';
export { proofSection, type SectionProof, type SectionProofRequest } from './proof.ts';
export type { EbookCover, EbookFont, EbookRequest } from './request.ts';
export type { EbookEntry, PageStart } from './types.ts';
