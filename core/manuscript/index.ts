export { readDocx } from './docx/read.ts';
export type { RawBlock, RawFrame, RawInline, RawManuscript, RawParagraph, RawTable, RawText, Remark } from './raw.ts';
export type { ImportReport, Recognised, SectionEvidence } from './report.ts';
