/** What the module offers to the outside. */
export { moves } from '../../../base/assembly/room';
export { endsAt, startEnds } from './ends';
export { pricesAt } from './prices';
export {
  addLines,
  addNote,
  addRow,
  endItem,
  endStretch,
  endStrip,
  hyphenate,
  startItem,
  startStretch,
  startStrip,
} from './rows';
export { costBound, costOfPath, fill, pathAt } from './search';
