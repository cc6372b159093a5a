/** The report's notices. In: what the stages counted; out: one sentence for each kind of change, with its count. */
import type { RawManuscript, Remark } from '../raw.ts';
import type { Maker } from './build/maker.ts';
import type { TitlePage } from './decide/titlePage.ts';
import type { ContentsList } from './evidence/contents.ts';
import type { TidyKind } from './tidy/kinds.ts';
import type { Tidier } from './tidy/tidier.ts';

export interface NoticeInput {
  readonly raw: RawManuscript;
  readonly tidier: Tidier;
  readonly maker: Maker;
  readonly contents: ContentsList;
  readonly empties: number;
  readonly markers: readonly string[];
  readonly titlePage: TitlePage;
}

const TIDIED: Readonly<Record<TidyKind, string>> = {
  'double-space': 'Doubled spaces were made single.',
  tab: 'Tabs that indented or spaced text were taken out; the design indents.',
  'outer-space': 'Spaces at the beginning or end of paragraphs were taken out.',
  invisible: 'Invisible characters were taken out.',
  'soft-return': 'Soft returns inside paragraphs became spaces or new paragraphs.',
  capitals: 'Titles typed in capitals were given capitals and small letters; the design may set capitals.',
  quote: 'Straight quotation marks were curled.',
  apostrophe: 'Straight apostrophes were curled.',
  dash: 'Hyphens that stood for dashes became dashes.',
  ellipsis: 'Rows of full stops became ellipses.',
  'copyright-sign': 'A c in brackets became the copyright sign.',
  emphasis: 'Underscores and asterisks around words became italics, doubled asterisks bold.',
  'french-space': 'Spaces before high punctuation became no-break spaces.',
};

export function noticesOf(input: NoticeInput): readonly Remark[] {
  const notices: Remark[] = [...input.raw.remarks];
  const add = (kind: string, count: number, message: string): void => {
    if (count > 0) notices.push({ kind, count, message });
  };
  const { contents, markers, titlePage, maker } = input;
  add('contents-list', contents.entries, 'The typed contents list was left out; each edition makes its own.');
  add('title-page', titlePage.used.size, 'Lines of the title page became the book\u2019s title, author and the like.');
  const left = titlePage.leftOver.map((line) => `\u201c${line}\u201d`).join(', ');
  add(
    'title-page-line',
    titlePage.leftOver.length,
    `Lines of the title page that are not part of the book were left out: ${left}.`,
  );
  add(
    'end-marker',
    markers.length,
    `The mark at the end was left out: ${markers.map((each) => `\u201c${each}\u201d`).join(', ')}.`,
  );
  add('empty-paragraph', input.empties, 'Empty paragraphs were taken out; the design makes the space.');
  add('scene-break', maker.breaks.ornament, 'Lines of asterisks or other marks became scene breaks.');
  add('blank-scene-break', maker.breaks.space, 'Blank lines between paragraphs became scene breaks.');
  add('link', maker.droppedLinks, 'Links that lead nowhere outside the file were dropped; their text was kept.');
  for (const [kind, count] of input.tidier.counts) add(kind, count, TIDIED[kind]);
  return notices;
}
