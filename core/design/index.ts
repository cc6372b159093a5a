export {
  type BreakMark,
  isOutline,
  LONGEST_DRAWING,
  linesOfMark,
  OWN_MARK_SIZES,
  type OwnMark,
  type PictureMark,
  type SceneBreakSetting,
} from './breakMark.ts';
export { builtInDesigns } from './builtIn.ts';
export { type EbookDesign, type EbookLook, type EbookOpener, resolveForEbook } from './ebook.ts';
export { covering, FIGURE_CAPITALS, type FigureWish, figureSize } from './figureSize.ts';
export type { PageFrame } from './frame.ts';
export { type FrozenSettings, frozenSettings } from './frozen.ts';
export { LARGE_PRINT, largePrintTrim } from './largePrint.ts';
export { leadInLength } from './leadIn.ts';
export { featuresFor, type Look } from './looks.ts';
export { ORNAMENT_IDS, type Ornament, type OrnamentId, ornament } from './ornaments.ts';
export { type Paper, paperOf, papers, spineThickness } from './papers.ts';
export { defaultPress, gutterFor, leastGutter, type PressProfile, press, presses } from './press.ts';
export { type PrintConditions, type PrintDesign, type PrintOpener, resolveForPrint } from './print.ts';
export type {
  Align,
  DesignSettings,
  DisplaySetting,
  DressedSettings,
  LetterStyle,
  OpenerNumber,
  OpenerSetting,
} from './settings.ts';
export { type Dressing, designOf, readSettings } from './stored.ts';
export { type Trim, trim, trimOf, trims } from './trims.ts';
