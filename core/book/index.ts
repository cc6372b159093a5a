export type {
  Asset,
  Book,
  Contributor,
  EbookEdition,
  Edition,
  Fit,
  ImportRemark,
  Json,
  Metadata,
  MutedFinding,
  NotePlacement,
  PrintEdition,
  Series,
  StoredDesign,
} from './book.ts';
export { authorsOf } from './book.ts';
export type { AssetRecord, Change, SectionAttributes } from './change.ts';
export { SECTION_ATTRIBUTES } from './change.ts';
export type { Applied } from './changes/applied.ts';
export { applyChange } from './changes/apply.ts';
export type { TextReplacement } from './changes/compose.ts';
export { positionIn, replaceText } from './changes/compose.ts';
export { assetRecord } from './changes/settings.ts';
export { type Corrected, type CorrectedSection, type Correction, correctedText } from './corrected.ts';
export type { Judged, Muted } from './decisions.ts';
export { findingId, judged, mutedAs, remarksIn } from './decisions.ts';
export { changesSince, type EditionChanges, type EditionMarks, editionMarks } from './editionMarks.ts';
export type { FieldValues } from './fields.ts';
export { fieldValues } from './fields.ts';
export { fingerprint } from './fingerprint.ts';
export { bodyTextblocksOf, countWords, flatText, INLINE_OBJECT, isSectionHead, textblocksOf, textOf } from './flat.ts';
export { furnish } from './furnish.ts';
export type { Headed, Heading, HeadingStyle } from './heading.ts';
export { headingOf, sectionLabel } from './heading.ts';
export { History } from './history.ts';
export { derivedIdentifier } from './identifier.ts';
export { hasId, nodeById, repeatedId } from './ids.ts';
export {
  checkDigit10,
  checkDigit13,
  hyphenatedIsbn,
  isbn13From10,
  isbnDigits,
  isIsbn10,
  isIsbn13,
} from './isbn.ts';
export type { Matter, SectionKind } from './kinds.ts';
export { isSectionKind, matterOf, SECTION_KINDS } from './kinds.ts';
export type { BookParts } from './newBook.ts';
export { newBook } from './newBook.ts';
export type { Place as SectionPlace } from './numbering.ts';
export { placesOf } from './numbering.ts';
export { numberWords } from './numerals.ts';
export type { Alignment, FieldName, MarkName, NodeName, SetOffForm } from './schema.ts';
export { FIELD_NAMES, SET_OFF_FORMS, schema } from './schema.ts';
export { selectEdition } from './select.ts';
export { readAssetFacts, readEdition, readMetadata, readMuted, readRemark, readStoredDesign } from './valid.ts';
export type { EditionView, ViewNote, ViewSection } from './view.ts';
export { namesInARow, primaryLanguage, sectionName } from './words.ts';
