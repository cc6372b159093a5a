export { coverOutline } from './coverOutline.ts';
export { type EbookParts, Engine, type EngineParts, type PrintBook } from './engine.ts';
export { type FitRequest, type Fittable, type Fitted, fitPages } from './fit.ts';
export { languagesOf } from './languages.ts';
export { bookOf, type Opened, openFile } from './open.ts';
export { type LayoutStep, Session } from './session.ts';
