export type {
  Asset,
  Book,
  Contributor,
  EbookEdition,
  Edition,
  Json,
  Metadata,
  NotePlacement,
  PrintEdition,
  Series,
  StoredDesign,
} from './book.ts';
export { authorsOf } from './book.ts';
export type { AssetRecord, Change, SectionAttributes } from './change.ts';
export type { Matter, SectionKind } from './kinds.ts';
export { isSectionKind, matterOf, SECTION_KINDS } from './kinds.ts';
export type { Alignment, FieldName, MarkName, NodeName, SetOffForm } from './schema.ts';
export { FIELD_NAMES, SET_OFF_FORMS, schema } from './schema.ts';
export type { EditionView, ViewNote, ViewSection } from './view.ts';
