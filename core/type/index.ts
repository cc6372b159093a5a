export type {
  Embedding,
  FamilyFacts,
  FontFace,
  FontFamily,
  FontFile,
  FontLibrary,
  Shaped,
  ShapedWords,
  ShapeSetting,
  UnreadFontFile,
  WordStretches,
  WordsUnderWay,
} from './face.ts';
export { type HyphenationTables, type Hyphenator, loadHyphenator } from './hyphenation/hyphenator.ts';
export { type FontModules, faceId, loadFontLibrary } from './library.ts';
export { meanWidth, type WidthTables } from './meanWidth.ts';
export { fontNames, NAME } from './names.ts';
export { ShapingAside, type ShapingJob, startShapingServer } from './shapingAside.ts';
export { Subsetter } from './subsetter.ts';
export { type FontTables, featureTags, fontTable, readFontTables } from './tables.ts';
