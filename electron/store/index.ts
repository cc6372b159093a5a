export { OpenBook } from './openBook.ts';
export { Store, type StoreOptions } from './store.ts';
