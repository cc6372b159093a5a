export type { Inflate } from './docx/inflate.ts';
export { readDocx } from './docx/read.ts';
export type { Outline, OutlineOptions, OutlineSection } from './outline.ts';
export { outlineOf, outlineText } from './outline.ts';
export type { RawBlock, RawFrame, RawInline, RawManuscript, RawParagraph, RawTable, RawText, Remark } from './raw.ts';
export type { RecogniseOptions } from './recognise/recognise.ts';
export { recognise } from './recognise/recognise.ts';
export type { TidyKind, TidyOptions } from './recognise/tidy/kinds.ts';
export type { ImportReport, Recognised, SectionEvidence } from './report.ts';
