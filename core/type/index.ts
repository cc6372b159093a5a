export type {
  Embedding,
  FontFace,
  FontFamily,
  FontFile,
  FontLibrary,
  Shaped,
  ShapedWords,
  ShapeSetting,
  UnreadFontFile,
  WordStretches,
} from './face.ts';
export { type Hyphenator, loadHyphenator } from './hyphenation/hyphenator.ts';
export { type FontModules, faceId, loadFontLibrary } from './library.ts';
export { type FontTables, fontTable, readFontTables } from './tables.ts';
