export { checkIdentifiers } from './identifiers.ts';
export { checkFigures, checkPlacedImages, effectivePpi, LEAST_PPI, WANTED_PPI } from './images.ts';
export { checkLeftovers } from './leftovers.ts';
export { checkLines } from './lines.ts';
export { checkMetadata, isLanguageTag } from './metadata.ts';
export { checkPages } from './pages.ts';
export { type PreflightRequest, preflight } from './preflight.ts';
export { checkText } from './text.ts';
