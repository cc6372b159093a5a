/** Words that all rooms use. */
export const common = {
  close: 'Close',
  cancel: 'Cancel',
  done: 'Done',
  add: 'Add',
  drop: 'Drop',
  undo: 'Undo',
  more: 'More',
  understood: 'Understood',
  news: 'News',
  putAway: 'Put away',
  words: (count: number): string => (count === 1 ? '1 word' : `${grouped(count)} words`),
  pages: (count: number): string => (count === 1 ? '1 page' : `${grouped(count)} pages`),
  sections: (count: number): string => (count === 1 ? '1 section' : `${grouped(count)} sections`),
  findings: (count: number): string => (count === 1 ? '1 finding' : `${grouped(count)} findings`),
  severities: { error: 'Errors', warning: 'Warnings', note: 'Remarks' },
};

/** A count with its thousands apart. */
export function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ',');
}
