import { expect, test } from 'vitest';
import { makeEbook } from '#ebook';
import { zipEntries } from '../../electron/services/zip.ts';
import { checkEpub, complaints } from '../tools/epubcheck.ts';
import { request } from './request.ts';
import { richBook, richPages } from './rich.ts';

test('the checker has nothing to say against a book with everything in it', async () => {
  const value = richBook();
  const epub = zipEntries(makeEbook(request(value, { pageStarts: richPages(value), printIsbn: '9780306406157' })));
  const messages = await checkEpub(epub);
  expect(complaints(messages)).toEqual([]);
});
