export type { PageContent, PlacedRow } from './fill/content.ts';
export { fillPages } from './fill/fill.ts';
export type { Filler, FillRequest } from './fill/filler.ts';
export type { Flow, FlowGrid, FlowItem, Footnote, Paint, Row, RowKind, Variant } from './flow.ts';
export { keepListsOf, type MadeUp, type PageBeginning } from './made.ts';
export { countPages, type MakeUpRequest, makeUp, makeUpSection, type Preparation, prepareSections } from './makeUp.ts';
export type { OutlineEntry } from './outline.ts';
