/** Texts of the press desk and of the book's details. */
export const press = {
  title: 'Press',
  lead: 'One docket for each edition. Drawn to one scale, from the real page count.',
  makeAll: 'Make all editions',
  make: 'Make this edition',
  addPrint: 'Add a print edition',
  addEbook: 'Add an ebook edition',
  details: 'Book details',
  exporting: 'Making the editions',
};
