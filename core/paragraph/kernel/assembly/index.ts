/** What the module offers to the outside. */

export { moves } from '../../../base/assembly/room';
export { addCut, cutsAt, cutsIn, endCuts, measure, widthUpTo } from './cuts';
export { addFount, marksAt } from './founts';
export { build, price } from './galley';
export { addPatterns } from './hyphenate';
export { hasList, keepList, takeList } from './keptLists';
export {
  box,
  breakCount,
  breaksAt,
  change,
  endList,
  forcedBreak,
  glue,
  hang,
  mark,
  name,
  penalty,
  stand,
  startList,
  tie,
} from './lists';
export { placesAt } from './places';
export {
  dropTrailingSpaces,
  offsetsAt,
  pieceCount,
  piecesAt,
  read,
  readLineBreak,
  readMark,
  spansAt,
  startCopy,
  takePieces,
} from './reader';
export { search, setPlace, tune, widthsAt } from './search';
export { boundsAt, endOfKind, glyphsAt, keepWords, plainWords, shapedAt } from './shapes';
export { solutionsAt } from './solutions';
export { textAt } from './text';
export { lettersAt, nameOf, wordCount, wordOfText, wordsAt } from './words';
