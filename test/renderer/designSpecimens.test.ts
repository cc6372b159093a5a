/** What specimens show: something of the author's own for each group of settings, and an invented text where there is none. */
import { expect, test } from 'vitest';
import { schema } from '#book';
import { inventedFor } from '../../renderer/design/invented.ts';
import { GROUP_NAMES } from '../../renderer/design/settings/groups.ts';
import { subjectOf } from '../../renderer/design/subjects.ts';
import {
  attribution,
  book,
  caption,
  chapter,
  figure,
  h,
  note,
  p,
  part,
  quotation,
  sceneBreak,
  section,
  stanza,
  verse,
} from '../builders/book.ts';

test('each group is shown by the first thing of its kind, a block of blocks by its first line', () => {
  const text = book(
    section('titlePage', null, { id: 'title' }),
    section('copyright', null, { id: 'imprint' }, p('All rights.')),
    section('contents', null, { id: 'list' }),
    part('One', { id: 'part' }),
    chapter(
      'First',
      { id: 'first' },
      p({ id: 'lead' }, 'Now.', note({ id: 'n' }, p({ id: 'in-note' }, 'Then.'))),
      sceneBreak(),
      p({ id: 'after' }, 'Later.'),
      h({ id: 'head', level: 2 }, 'A head'),
      quotation({ id: 'q' }, p({ id: 'quoted' }, 'Said.'), attribution('One')),
      verse({ id: 'v' }, stanza({ id: 'st' }, 'A line')),
      figure('a', { id: 'fig' }, caption({ id: 'cap' }, 'A picture')),
    ),
  );
  const shown = Object.fromEntries(GROUP_NAMES.map((group) => [group, subjectOf(text, group)]));
  expect(shown).toMatchObject({
    openers: { section: 'first', block: null },
    leadIn: { section: 'first', block: 'lead' },
    breaks: { section: 'first', block: 'after' },
    subheads: { section: 'first', block: 'head' },
    parts: { section: 'part', block: null },
    matter: { section: 'list', block: null },
    titles: { section: 'title', block: null },
    imprint: { section: 'imprint', block: null },
    quotations: { section: 'first', block: 'quoted' },
    captions: { section: 'first', block: 'cap' },
    notes: { section: 'first', block: 'in-note' },
    dedication: null,
  });
  const line = shown['verse']?.block;
  expect(text.children.flatMap((each) => blockOf(each, String(line)))).toEqual(['verseLine']);
});

/** Types of the nodes inside a section that have an id. */
function blockOf(within: ReturnType<typeof book>, id: string): readonly string[] {
  const found: string[] = [];
  within.descendants((node) => {
    if (node.attrs['id'] === id) found.push(node.type.name);
  });
  return found;
}

test('an empty book has nothing to show', () => {
  const text = book();
  for (const group of GROUP_NAMES) expect(subjectOf(text, group)).toBeNull();
});

test('invented texts are right by the model and have the block that they show once', () => {
  for (const group of GROUP_NAMES) {
    const { text, block } = inventedFor(group);
    const sections = text.sections.map((each) => schema.nodeFromJSON(each));
    for (const each of sections) each.check();
    const ids = sections.flatMap((each) => blockOf(each, String(block)));
    expect([group, ids.length]).toEqual([group, block === null ? 0 : 1]);
    expect(inventedFor(group)).toBe(inventedFor(group));
  }
});
