/** What the module offers to the outside. */
export { flagsAt, namesAt, roomForBreaks, sumsAt } from './lists';
export { search, setPlace, tune, widthsAt } from './search';
export { solutionsAt } from './solutions';
