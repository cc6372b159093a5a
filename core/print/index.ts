export { embeddingProblem } from './fonts.ts';
export { imageProblem } from './images.ts';
export { momentOf } from './metadata.ts';
export { readPath, type Segment } from './path.ts';
export type { DocumentInformation, OutlineEntry, PrintAsset, PrintRequest } from './request.ts';
export { type Aside, type Batch, type Pack, writePdf, writePdfAside } from './writePdf.ts';
