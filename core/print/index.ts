export { embeddingProblem } from './fonts.ts';
export { imageProblem } from './images.ts';
export { momentOf } from './metadata.ts';
export type { DocumentInformation, OutlineEntry, PrintAsset, PrintRequest } from './request.ts';
export { writePdf } from './writePdf.ts';
